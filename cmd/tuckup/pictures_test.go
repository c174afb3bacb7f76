package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"image/png"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/rs/zerolog"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/reports/desk"
	"tuckup/reports/desk/assets"
	"tuckup/reports/desk/visit"
	"tuckup/reports/html"
)

// The pictures of the README are photographs of the demo's pages.
const (
	picturesDir  = "../../testdata/pictures/"
	picturesMade = picturesDir + "made-from.txt" // each picture with the sums of the page that it was made from and of its own
)

type picture struct {
	name          string
	page          func(io.Writer, optimize.Result) error
	media         string
	width, height int64 // of the part that is shown, in pixels
}

var readmePictures = []picture{
	{"sheet.png", html.Sheet, "print", 790, 850},
	{"board.png", boardPage, "screen", 1200, 760},
	{"dog.png", func(w io.Writer, r optimize.Result) error { return html.Dog(w, r, "Tansy", html.Records{}) }, "screen", 760, 1000},
}

// boardPage is the board of the desk on the day of the plan, which is in use, with its style in it and without its scripts.
func boardPage(w io.Writer, r optimize.Result) error {
	dir, err := os.MkdirTemp("", "tuckup-board-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	now := func() time.Time { return r.On.Time() }
	b, err := book.Open(context.Background(), filepath.Join(dir, "book.db"), book.Options{Now: now, Who: r.Kennel.Hands[0].Name, Patterns: r.Patterns, Create: true})
	if err != nil {
		return err
	}
	defer b.Close()
	if _, err := b.Change(context.Background(), book.AnyVersion, "a picture", func(s *book.State) error {
		s.Replace(r.Kennel, r.On)
		return s.Take(&r, r.On, 0)
	}); err != nil {
		return err
	}
	d, err := desk.New(desk.Options{
		Book: b, Patterns: r.Patterns, Now: now, Random: zeros{}, Log: zerolog.Nop(),
		Today: func(kennel.Kennel) (kennel.Date, error) { return r.On, nil },
		Plan: func(context.Context, desk.Wish) (optimize.Result, error) {
			return optimize.Result{}, errors.New("nothing is planned for a picture")
		},
		Seen: func(use optimize.Result, w desk.Wish) optimize.Result {
			return optimize.Seen(use, optimize.Now{On: w.On, Kennel: w.State.Now(r.Patterns, w.On).InHand(w.On), Patterns: r.Patterns, Options: r.Options})
		},
	})
	if err != nil {
		return err
	}
	defer d.Close()
	page, err := answerOf(d, "/")
	if err != nil {
		return err
	}
	var style strings.Builder
	style.WriteString("<style>body { width: auto !important; }</style>") // the picture has an edge on both sides
	for _, name := range []string{"pico.classless.min.css", "desk.css"} {
		css, err := answerOf(assets.Handler(), assets.Path(name))
		if err != nil {
			return err
		}
		style.WriteString("<style>" + css + "</style>")
	}
	if !strings.Contains(page, string(assets.Head())) {
		return errors.New("the board has another head")
	}
	_, err = io.WriteString(w, strings.Replace(page, string(assets.Head()), style.String(), 1))
	return err
}

func answerOf(h http.Handler, path string) (string, error) {
	answer := httptest.NewRecorder()
	h.ServeHTTP(answer, httptest.NewRequest(http.MethodGet, path, nil))
	if answer.Code != http.StatusOK {
		return "", fmt.Errorf("%s is answered with %d: %s", path, answer.Code, answer.Body)
	}
	return answer.Body.String(), nil
}

// zeros gives the same bytes for ever, so that the page is the same, too.
type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }

// A picture shows what the program writes today: the page that it was made from is still the same, and it is the picture
// that was made. go test ./cmd/tuckup -run Pictures -update takes them again.
func TestThePicturesOfTheReadmeAreCurrent(t *testing.T) {
	long(t, "plans the demo")
	r := planOf(t, "--demo")
	var made bytes.Buffer
	for _, p := range readmePictures {
		source := []byte(written(t, func(w io.Writer) error { return p.page(w, r) }))
		if *update && !takenFrom(t, p, source) {
			photograph(t, p, source)
		}
		taken, err := os.ReadFile(picturesDir + p.name)
		if err != nil {
			t.Fatal(err)
		}
		size, err := png.DecodeConfig(bytes.NewReader(taken))
		if err != nil || int64(size.Width) < p.width || size.Height == 0 {
			t.Errorf("%s: %dx%d, %v", p.name, size.Width, size.Height, err)
		}
		fmt.Fprint(&made, madeFrom(p, source, taken))
	}
	if *update {
		if err := os.WriteFile(picturesMade, made.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(picturesMade)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(made.Bytes(), want) {
		t.Errorf("the pictures show other pages than the program writes; go test ./cmd/tuckup -run Pictures -update takes them again\ngot\n%swant\n%s", &made, want)
	}
}

func madeFrom(p picture, source, taken []byte) string {
	return fmt.Sprintf("%s page %x picture %x\n", p.name, sha256.Sum256(source), sha256.Sum256(taken))
}

// takenFrom reports whether the picture that is there was made from this page.
func takenFrom(t *testing.T, p picture, source []byte) bool {
	t.Helper()
	taken, err := os.ReadFile(picturesDir + p.name)
	if err != nil {
		return false
	}
	made, err := os.ReadFile(picturesMade)
	return err == nil && bytes.Contains(made, []byte(madeFrom(p, source, taken)))
}

// photograph takes the picture of a page, with a white edge.
func photograph(t *testing.T, p picture, source []byte) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "page.html")
	framed := bytes.Replace(source, []byte("</head>"), []byte("<style>body { margin: 16px; }</style></head>"), 1)
	if err := os.WriteFile(file, framed, 0o600); err != nil {
		t.Fatal(err)
	}
	tab := visit.Tab(t)
	if err := chromedp.Do(tab, chromedp.EmulateViewport(p.width, p.height)); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: p.media}); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(tab, chromedp.Navigate("file://"+file)); err != nil {
		t.Fatal(err)
	}
	shot, err := chromedp.Run(tab, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(picturesDir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(picturesDir+p.name, shot, 0o644); err != nil {
		t.Fatal(err)
	}
}
