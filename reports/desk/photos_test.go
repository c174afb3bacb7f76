package desk

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// photoForm sends the form for a picture as a browser does, without a script.
func (r *room) photoForm(data []byte, fields url.Values) page {
	r.t.Helper()
	var b bytes.Buffer
	w := multipart.NewWriter(&b)
	for name, values := range fields {
		if err := w.WriteField(name, values[0]); err != nil {
			r.t.Fatal(err)
		}
	}
	part, err := w.CreateFormFile("file", `C:\pictures\..\moss.jpg`)
	if err == nil {
		_, err = part.Write(data)
	}
	if err != nil || w.Close() != nil {
		r.t.Fatal(err)
	}
	req := httptest.NewRequest(http.MethodPost, photosPath, &b)
	req.Header.Set("Content-Type", w.FormDataContentType())
	return r.answer(req)
}

func someJPEG(t *testing.T) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30)), nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A picture that is sent is on the dog's page and in its owner's letter, can be dropped and comes back with an undo; one that is missing or
// damaged breaks no page.
func TestAPictureIsKeptAndShown(t *testing.T) {
	k := twoDogs()
	k.Dogs[0].Owner = "R. Calloway"
	r := inUseOf(t, k)
	form := r.get(dogPath("Sorrel")).Find(`form[action="/photos"]`)
	fields := url.Values{"photographed": {"back"}, "photo_on": {monday.String()}, "photo_note": {"by the <b>window"}}
	form.Find("input[type=hidden]").Each(func(_ int, s *goquery.Selection) { fields.Set(s.AttrOr("name", ""), s.AttrOr("value", "")) })
	sent := r.photoForm(someJPEG(t), fields)
	if sent.status != http.StatusSeeOther {
		t.Fatalf("it is answered with %d: %s", sent.status, sent.Find("main").Text())
	}
	again := r.photoForm(someJPEG(t), fields)
	photos := r.state().Photos
	if again.status != http.StatusSeeOther || len(photos) != 1 || photos[0].Dog != "Sorrel" || photos[0].Area != kennel.AreaBack || photos[0].On != monday {
		t.Fatalf("%d, %+v", again.status, photos)
	}
	p := r.get(dogPath("Sorrel"))
	src, _ := p.Find(".photos img").Attr("src")
	if src != photosPath+"/"+photos[0].Digest {
		t.Fatalf("it is shown from %q", src)
	}
	got := r.ask("GET", src, nil)
	if got.status != 200 || got.kind != "image/jpeg" || !strings.HasPrefix(got.body, "\xff\xd8") {
		t.Errorf("it is answered with %d, %s", got.status, got.kind)
	}
	p.says("main", "by the <b>window")
	letter := r.get("/letter?owner=R.+Calloway&month=" + monday.Time().Format(monthForm))
	if n := letter.Find(".photos img").Length(); n != 1 || strings.Contains(letter.Find("main").Text(), "window") {
		t.Errorf("the letter has %d pictures, or the note", n)
	}
	if file := r.ask("GET", "/letter?owner=R.+Calloway&file=yes&month="+monday.Time().Format(monthForm), nil); !strings.Contains(file.body, "data:image/jpeg;base64,") {
		t.Error("the letter as a file lacks it")
	}
	file := filepath.Join(book.PhotoFolder(r.book.Path()), photos[0].Digest+".jpg")
	if err := os.WriteFile(file, []byte("damaged"), 0o600); err != nil {
		t.Fatal(err)
	}
	if got := r.ask("GET", src, nil); got.status != 404 {
		t.Errorf("a damaged picture: %d", got.status)
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	r.change(func(s *book.State) { s.Kennel.Dogs[0].Priority = 2 })
	r.get(dogPath("Sorrel")).says(".photos", "missing, or it is damaged")
	r.get("/letter?owner=R.+Calloway")
	r.send(dogPath("Sorrel"), url.Values{"do": {"drop-photo"}, "photo": {"1"}, "version": {fmt.Sprint(r.version())}})
	if len(r.state().Photos) != 0 {
		t.Error("it is not dropped")
	}
}

// What is no picture, or of no day, changes nothing and says what to send; nobody reads another file by a picture's address.
func TestWhatIsNoPictureIsRefusedByTheDesk(t *testing.T) {
	r := inUseOf(t, twoDogs())
	good := url.Values{"dog": {"Sorrel"}, "photo_on": {monday.String()}, "version": {"1"}}
	with := func(name, value string) url.Values {
		v := url.Values{}
		for k, x := range good {
			v[k] = x
		}
		v.Set(name, value)
		return v
	}
	for name, c := range map[string]struct {
		data   []byte
		fields url.Values
		status int
		words  string
	}{
		"words":       {[]byte("a picture"), good, 422, "is not a picture that can be read"},
		"a page":      {[]byte("<svg onload=alert(1)>"), good, 422, "is not a picture that can be read"},
		"nothing":     {nil, good, 422, "No file was chosen"},
		"tomorrow":    {someJPEG(t), with("photo_on", (monday + 1).String()), 422, "is after today"},
		"no day":      {someJPEG(t), with("photo_on", ""), 422, "is missing"},
		"no area":     {someJPEG(t), with("photographed", "wing"), 422, "is not known"},
		"no dog":      {someJPEG(t), with("dog", "Nobody"), 404, "no such dog"},
		"no version":  {someJPEG(t), with("version", "x"), 400, "which version"},
		"a long note": {someJPEG(t), with("photo_note", strings.Repeat("n", kennel.LongestNote+1)), 422, "has 2001 letters"},
	} {
		p := r.photoForm(c.data, c.fields)
		if p.status != c.status || !strings.Contains(p.Text(), c.words) {
			t.Errorf("%s: %d %s", name, p.status, p.Find("main").Text())
		}
	}
	if p := r.ask("POST", photosPath, good); p.status != 400 {
		t.Errorf("a form without a file: %d", p.status)
	}
	if n := len(r.state().Photos); n != 0 {
		t.Errorf("%d pictures are noted", n)
	}
	if _, err := book.KeepPhoto(r.book.Path(), []byte("of another book")); err != nil {
		t.Fatal(err)
	}
	files, err := os.ReadDir(book.PhotoFolder(r.book.Path()))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, digest := range []string{"..%2fbook.db", strings.TrimSuffix(files[0].Name(), ".jpg"), strings.Repeat("0", 64), "x"} {
		if p := r.ask("GET", photosPath+"/"+digest, nil); p.status != 404 {
			t.Errorf("%s: %d", digest, p.status)
		}
	}
}

// A picture that was chosen before the book changed is kept all the same: it goes over nothing.
func TestAPictureOfAnOlderPageIsKept(t *testing.T) {
	r := inUseOf(t, twoDogs())
	fields := url.Values{"dog": {"Sorrel"}, "photo_on": {monday.String()}, "key": {"of the page"}, "version": {fmt.Sprint(r.version())}}
	r.change(func(s *book.State) { s.Kennel.Dogs[0].Priority = 2 })
	for range 2 {
		if sent := r.photoForm(someJPEG(t), fields); sent.status != http.StatusSeeOther {
			t.Fatalf("it is answered with %d: %s", sent.status, sent.Find("main").Text())
		}
	}
	if n := len(r.state().Photos); n != 1 {
		t.Errorf("sent twice, the book has %d", n)
	}
}
