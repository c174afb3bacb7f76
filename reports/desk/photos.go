package desk

import (
	"errors"
	"fmt"
	"html/template"
	"io"
	"net/http"
	"strconv"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/picture"
	"tuckup/reports/html"
)

// photosPath is where pictures are sent, and under it where they are shown.
const photosPath = "/photos"

// photoAddress is where the desk shows a picture; "" where it is missing beside the book.
func (d *Desk) photoAddress(digest string) template.URL {
	if !book.HasPhoto(d.opt.Book.Path(), digest) {
		return ""
	}
	return template.URL(photosPath + "/" + digest) // sixty-four digits
}

// inside are pictures as parts of a page that is one file.
func (d *Desk) inside(photos []html.Photo) (all []html.Photo) {
	for _, p := range photos {
		data, err := book.ReadPhoto(d.opt.Book.Path(), p.Digest)
		if err != nil {
			d.opt.Log.Warn().Err(err).Msg("a picture can't be shown")
		}
		all = append(all, html.Photo{Photo: p.Photo, Of: p.Of, Src: html.Inside(data)})
	}
	return all
}

// photo answers with a picture that the book names.
func (d *Desk) photo(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	digest := r.PathValue("digest")
	for _, p := range l.state.Photos {
		if p.Digest != digest {
			continue
		}
		data, err := book.ReadPhoto(d.opt.Book.Path(), digest)
		if err != nil {
			d.opt.Log.Warn().Err(err).Msg("a picture can't be shown")
			break
		}
		d.send(w, "image/jpeg", "inline", data)
		return nil
	}
	return notFound("picture")
}

// savePhoto keeps a picture that was sent.
func (d *Desk) savePhoto(w http.ResponseWriter, r *http.Request) error {
	data, name, err := sentFile(r, picture.Largest)
	if err != nil {
		return err
	}
	f, l, err := d.posted(r, "photo")
	if err != nil {
		return err
	}
	dog, ok := l.dogNamed(f.get("dog"))
	if !ok {
		return notFound("dog")
	}
	f.set("do", "photo")
	p := kennel.Photo{Dog: dog.Name, On: f.date("photo_on", true), Note: f.get("photo_note")}
	if p.On > l.today {
		f.wrong("photo_on", "is after today")
	}
	if area := f.get("photographed"); area != "" {
		a, err := kennel.MatchArea(area)
		p.Area = parsed(f, "photographed", a, err)
	}
	if long := kennel.LongText("note", p.Note, kennel.LongestNote); long != nil {
		parsed(f, "photo_note", p.Note, error(long))
	}
	taken, err := picture.Read(name, data)
	parsed(f, "file", taken, err)
	if !f.Bad() {
		if p.Digest, err = book.KeepPhoto(d.opt.Book.Path(), taken.Data); err != nil {
			return err
		}
		to, err := d.save(r, f, edit{version: book.AnyVersion, do: func(s *book.State) (string, error) { return s.AddPhoto(p), nil }}, dogPath(dog.Name), dogFields)
		if err != nil {
			return err
		}
		if to != "" {
			lead(w, r, to)
			return nil
		}
	}
	return d.renderDog(w, r, l, dog, f)
}

// sentFile is the file of a form.
func sentFile(r *http.Request, largest int64) (data []byte, name string, err error) {
	const inMemory = 1 << 20
	if err := r.ParseMultipartForm(inMemory); err != nil {
		var long *http.MaxBytesError
		if errors.As(err, &long) {
			return nil, "", tooLarge(largest)
		}
		return nil, "", &statusError{http.StatusBadRequest, "The file could not be read.", "choosing it again"}
	}
	defer r.MultipartForm.RemoveAll() //nolint:errcheck // it lies in the folder for what may go
	file, head, err := r.FormFile("file")
	if err != nil || head.Size == 0 {
		return nil, "", &statusError{http.StatusUnprocessableEntity, "No file was chosen, or it is empty.", "choosing a file, then sending it"}
	}
	defer file.Close() //nolint:errcheck // only read
	if head.Size > largest {
		return nil, "", tooLarge(largest)
	}
	data, err = io.ReadAll(io.LimitReader(file, largest))
	return data, head.Filename, err
}

// dogDropPhotoVerb takes a picture out of the book.
func dogDropPhotoVerb(f *form, _ look, dog kennel.Dog) dogChange {
	id, err := strconv.ParseInt(f.get("photo"), 10, 64)
	if err != nil {
		f.wrong("", "names no picture")
	}
	return func(s *book.State, _ *kennel.Dog) (string, error) {
		s.DropPhoto(id)
		return fmt.Sprintf("took picture %d of %s out", id, dog.Name), nil
	}
}
