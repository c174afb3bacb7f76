package assets

import (
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// The README of the folder names the sum of every file that came from elsewhere, and the files are as they came.
func TestFilesFromElsewhereAreAsTheyCame(t *testing.T) {
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	sums := map[string]string{}
	for _, m := range regexp.MustCompile(`(?m)^([0-9a-f]{64})  (\S+)$`).FindAllStringSubmatch(string(readme), -1) {
		sums[m[2]] = m[1]
	}
	own := map[string]bool{"board.js": true, "desk.css": true, "desk.js": true, "files.js": true, "send.js": true, "table.js": true, "worker.js": true, "app.webmanifest": true, "zone.js": true, "icon.svg": true}
	for name := range all {
		if sums[name] == "" && !own[name] {
			t.Errorf("%s has no sum in README.md", name)
		}
	}
	if len(sums) != 2 {
		t.Errorf("README.md has %d sums, want those of one file and its licence", len(sums))
	}
	for name, want := range sums {
		content, err := os.ReadFile(name)
		if err != nil {
			t.Error(err)
			continue
		}
		sum := sha256.Sum256(content)
		if got := hex.EncodeToString(sum[:]); got != want {
			t.Errorf("%s is not as it came: its sum is %s, not %s", name, got, want)
		}
	}
	if version := "Pico CSS ✨ v2.1.1"; !strings.Contains(string(all["pico.classless.min.css"].content), version) {
		t.Errorf("pico.classless.min.css does not say %s", version)
	}
}

func TestAFileIsKeptForEverUnderTheHashOfItsContent(t *testing.T) {
	for name, kind := range map[string]string{"desk.css": "text/css; charset=utf-8", "send.js": "text/javascript; charset=utf-8", "icon.svg": "image/svg+xml"} {
		got := fetch(Path(name))
		if got.Code != http.StatusOK || got.Body.String() != string(all[name].content) {
			t.Errorf("%s: status %d, %d bytes", name, got.Code, got.Body.Len())
		}
		if h := got.Header(); h.Get("Cache-Control") != "public, max-age=31536000, immutable" || h.Get("Content-Type") != kind {
			t.Errorf("%s: headers %v", name, h)
		}
	}
}

func TestAnotherHashOrAnotherFileIsNotFound(t *testing.T) {
	for _, path := range []string{
		"/assets/0000000000000000/desk.css", "/assets/desk.css", "/assets/", "/assets/assets.go", "/assets/../desk.css",
		strings.Replace(Path("desk.css"), "/assets/", "/assets/../assets/", 1),
	} {
		if got := fetch(path); got.Code != http.StatusNotFound || got.Header().Get("Cache-Control") != "" {
			t.Errorf("%s: status %d, headers %v", path, got.Code, got.Header())
		}
	}
}

func TestNothingIsFetchedFromAnotherHost(t *testing.T) {
	fetches := regexp.MustCompile(`@import|url\(\s*["']?(https?:)?//|src=["']?(https?:)?//|\beval\(`)
	for _, name := range []string{"desk.css", "desk.js", "files.js", "send.js", "table.js", "worker.js", "board.js", "zone.js", "icon.svg", "app.webmanifest", "pico.classless.min.css"} {
		if m := fetches.FindString(string(all[name].content)); m != "" {
			t.Errorf("%s has %q", name, m)
		}
	}
}

func TestTheHeadNamesEveryFileAndHasNoScriptInIt(t *testing.T) {
	head := string(Head())
	notInHead := []string{"zone.js", "worker.js"} // a page names the one, a script the other
	for name := range all {
		if !slices.Contains(notInHead, name) && !strings.Contains(head, `"`+Path(name)+`"`) {
			t.Errorf("the head does not name %s", name)
		}
	}
	if regexp.MustCompile(`<style|<script[^>]*>[^<]|\son\w+=|style=`).MatchString(head) {
		t.Error("the head has a script or a style in it:", head)
	}
}

func fetch(path string) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.URL.Path = path
	Handler().ServeHTTP(w, r)
	return w
}

// A brace that is missing puts all that follows into the rule before it, and browsers say nothing.
func TestTheStyleClosesWhatItOpens(t *testing.T) {
	depth := 0
	for n, line := range strings.Split(string(all["desk.css"].content), "\n") {
		depth += strings.Count(line, "{") - strings.Count(line, "}")
		if depth < 0 || strings.HasPrefix(line, "@media") && depth > 1 {
			t.Fatalf("line %d of desk.css is %d rules deep: %s", n+1, depth, line)
		}
	}
	if depth != 0 {
		t.Errorf("desk.css leaves %d rules open", depth)
	}
}
