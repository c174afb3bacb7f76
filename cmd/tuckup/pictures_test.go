package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"tuckup/optimize"
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
	{"dog.png", func(w io.Writer, r optimize.Result) error { return html.Dog(w, r, "Tansy", html.Records{}) }, "screen", 760, 1000},
}

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
