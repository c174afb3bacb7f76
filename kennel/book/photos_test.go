package book

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/picture"
)

// A picture lies beside the book under its digest, comes back as it was, and is mended by being brought again.
func TestAPictureIsKeptByItsDigest(t *testing.T) {
	path := filepath.Join(t.TempDir(), "book.db")
	data := []byte("the pixels")
	digest, err := KeepPhoto(path, data)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := KeepPhoto(path, data); err != nil || again != digest {
		t.Errorf("again it is %s (%v)", again, err)
	}
	if back, err := ReadPhoto(path, digest); err != nil || !bytes.Equal(back, data) {
		t.Errorf("it came back as %q (%v)", back, err)
	}
	files, err := os.ReadDir(PhotoFolder(path))
	if err != nil || len(files) != 1 {
		t.Errorf("the folder has %v (%v)", files, err)
	}
	file := filepath.Join(PhotoFolder(path), digest+".jpg")
	if err := os.WriteFile(file, []byte("other pixels"), 0o600); err != nil {
		t.Fatal(err)
	}
	s := State{Photos: []Photo{{1, kennel.Photo{Dog: "Moss", Digest: digest}}}}
	if _, err := ReadPhoto(path, digest); err == nil || len(s.Lost(path)) != 1 {
		t.Error("a damaged picture is taken for whole")
	}
	if _, err := KeepPhoto(path, data); err != nil || len(s.Lost(path)) != 0 {
		t.Errorf("it is not mended (%v)", err)
	}
	for _, name := range []string{"", "../" + digest[3:], digest + "x", "book.db"} {
		if _, err := ReadPhoto(path, name); err == nil {
			t.Errorf("%q was read", name)
		}
	}
}

// A copy of a book takes its pictures along, and says how many are missing.
func TestPicturesAreCopiedWithABook(t *testing.T) {
	from, to := filepath.Join(t.TempDir(), "book.db"), filepath.Join(t.TempDir(), "copy.db")
	digest, err := KeepPhoto(from, []byte("the pixels"))
	if err != nil {
		t.Fatal(err)
	}
	s := State{Photos: []Photo{{1, kennel.Photo{Digest: digest}}, {2, kennel.Photo{Digest: picture.Digest([]byte("lost"))}}}}
	if missing, err := CopyPhotos(s, from, to); err != nil || missing != 1 {
		t.Errorf("%d are missing (%v)", missing, err)
	}
	if back, err := ReadPhoto(to, digest); err != nil || string(back) != "the pixels" {
		t.Errorf("%q (%v)", back, err)
	}
	if _, err := os.Stat(PhotoFolder(filepath.Join(t.TempDir(), "none.db"))); err == nil {
		t.Error("a folder came from nowhere")
	}
}

// The same picture of the same dog, day and area is one picture.
func TestAPictureIsNotedOnce(t *testing.T) {
	var s State
	p := kennel.Photo{Dog: "Moss", On: 5, Digest: picture.Digest(nil)}
	s.AddPhoto(p)
	p.Note = "in the yard"
	s.AddPhoto(p)
	if len(s.Photos) != 1 || s.Photos[0].Note != "in the yard" {
		t.Errorf("%+v", s.Photos)
	}
	if s.Photos[0].ID = 3; s.DropPhoto(2) || !s.DropPhoto(3) || len(s.Photos) != 0 {
		t.Errorf("%+v", s.Photos)
	}
}
