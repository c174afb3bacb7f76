package book

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/picture"
)

// Pictures lie beside the book, each in a file that is named after the SHA-256 of what is in it, and are never changed: a book that goes
// back to an earlier day finds those of that day. The book itself holds their names alone.

// largestPhoto is the most bytes of a picture that is read.
const largestPhoto = 16 << 20

// PhotoFolder is where the pictures of a book lie.
func PhotoFolder(path string) string { return path + "-photos" }

// photoFile is the file of a picture; "" for a name that is none.
func photoFile(path, digest string) string {
	if !picture.IsDigest(digest) {
		return ""
	}
	return filepath.Join(PhotoFolder(path), digest+".jpg")
}

// HasPhoto reports whether a picture is beside the book.
func HasPhoto(path, digest string) bool {
	file := photoFile(path, digest)
	if file == "" {
		return false
	}
	_, err := os.Stat(file)
	return err == nil
}

// KeepPhoto puts a picture beside the book at the path, on the disk, and returns its name. One that is there and whole is left alone.
func KeepPhoto(path string, data []byte) (digest string, err error) {
	digest = picture.Digest(data)
	if _, err := ReadPhoto(path, digest); err == nil {
		return digest, nil
	}
	file := photoFile(path, digest)
	if err := os.MkdirAll(PhotoFolder(path), folderMode); err != nil {
		return "", cannotWrite(file, err)
	}
	temp, err := os.CreateTemp(PhotoFolder(path), ".photo-*")
	if err != nil {
		return "", cannotWrite(file, err)
	}
	defer os.Remove(temp.Name())
	_, err = temp.Write(data)
	if err = errors.Join(err, temp.Sync(), temp.Close()); err != nil {
		return "", cannotWrite(file, err)
	}
	if err := os.Rename(temp.Name(), file); err != nil { // over a damaged one
		return "", cannotWrite(file, err)
	}
	return digest, nil
}

// ReadPhoto is a picture that lies beside the book at the path. The error says that it is missing, or not what it was.
func ReadPhoto(path, digest string) ([]byte, error) {
	file := photoFile(path, digest)
	if file == "" {
		return nil, fmt.Errorf("%q is not the name of a picture", kennel.Shortened(digest))
	}
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, largestPhoto))
	if err != nil {
		return nil, err
	}
	if picture.Digest(data) != digest {
		return nil, fmt.Errorf("the picture %s is damaged", file)
	}
	return data, nil
}

// AddPhoto notes a picture that is kept. The same picture of the same dog, day and area is noted once.
func (s *State) AddPhoto(p kennel.Photo) (what string) {
	what = fmt.Sprintf("kept a picture of %s of %s", p.Dog, p.On)
	same := func(x Photo) bool {
		return x.Dog == p.Dog && x.On == p.On && x.Area == p.Area && x.Digest == p.Digest
	}
	if i := slices.IndexFunc(s.Photos, same); i >= 0 {
		s.Photos = slices.Clone(s.Photos)
		s.Photos[i].Note = p.Note
		return what
	}
	s.Photos = append(slices.Clone(s.Photos), Photo{Photo: p})
	return what
}

// DropPhoto takes a picture out of the book; its file stays, for an undo. It reports whether there is one of the number.
func (s *State) DropPhoto(id int64) bool {
	n := len(s.Photos)
	s.Photos = kept(s.Photos, func(x Photo) bool { return x.ID != id })
	return len(s.Photos) < n
}

// CopyPhotos copies the pictures that a state names from beside one book to beside another, without those that are there, and returns
// how many are missing or damaged.
func CopyPhotos(s State, from, to string) (missing int, err error) {
	if len(s.Photos) == 0 || from == to {
		return 0, nil
	}
	for _, p := range s.Photos {
		if _, err := ReadPhoto(to, p.Digest); err == nil {
			continue
		}
		data, err := ReadPhoto(from, p.Digest)
		if err != nil {
			missing++
			continue
		}
		if _, err := KeepPhoto(to, data); err != nil {
			return missing, err
		}
	}
	return missing, nil
}

// Lost are the pictures of a state that lie no more beside the book at the path, or not as they were.
func (s State) Lost(path string) (all []Photo) {
	for _, p := range s.Photos {
		if _, err := ReadPhoto(path, p.Digest); err != nil {
			all = append(all, p)
		}
	}
	return all
}

// PhotosOf is what each of the state's pictures belongs to, in their order.
func (s State) PhotosOf() []kennel.PhotoOf {
	type day struct {
		dog string
		on  kennel.Date
	}
	all := make([]kennel.PhotoOf, len(s.Photos))
	of := map[day][]int{}
	for i, p := range s.Photos {
		of[day{p.Dog, p.On}] = append(of[day{p.Dog, p.On}], i)
	}
	for _, m := range s.Measures {
		for _, i := range of[day{m.Dog, m.On}] {
			if s.Photos[i].Area == m.Area {
				all[i].Length = m.Length
			}
		}
	}
	for _, w := range s.Work {
		for _, i := range of[day{w.Dog, w.On}] {
			for _, a := range w.Areas {
				if area := s.Photos[i].Area; a.Share > 0 && (area == "" || area == a.Area) {
					all[i].Session = true
					if !slices.Contains(all[i].Areas, a.Area) {
						all[i].Areas = append(all[i].Areas, a.Area)
					}
				}
			}
		}
	}
	return all
}
