package assets

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
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
	own := map[string]bool{"desk.css": true, "desk.js": true, "icon.svg": true}
	for name := range all {
		if sums[name] == "" && !own[name] {
			t.Errorf("%s has no sum in README.md", name)
		}
	}
	if len(sums) != 4 {
		t.Errorf("README.md has %d sums, want those of two files and their licences", len(sums))
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
	for name, version := range map[string]string{"htmx.min.js": `version:"2.0.11"`, "pico.classless.min.css": "Pico CSS ✨ v2.1.1"} {
		if !strings.Contains(string(all[name].content), version) {
			t.Errorf("%s does not say %s", name, version)
		}
	}
}

func TestAFileIsKeptForEverUnderTheHashOfItsContent(t *testing.T) {
	for name, kind := range map[string]string{"desk.css": "text/css; charset=utf-8", "htmx.min.js": "text/javascript; charset=utf-8", "icon.svg": "image/svg+xml"} {
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
	for _, name := range []string{"desk.css", "desk.js", "icon.svg", "pico.classless.min.css"} {
		if m := fetches.FindString(string(all[name].content)); m != "" {
			t.Errorf("%s has %q", name, m)
		}
	}
}

func TestTheHeadNamesEveryFileAndHasNoScriptInIt(t *testing.T) {
	head := string(Head())
	for name := range all {
		if !strings.Contains(head, `"`+Path(name)+`"`) {
			t.Errorf("the head does not name %s", name)
		}
	}
	if regexp.MustCompile(`<style|<script[^>]*>[^<]|\son\w+=|style=`).MatchString(head) {
		t.Error("the head has a script or a style in it:", head)
	}
	var config map[string]any
	if err := json.Unmarshal([]byte(HTMXConfig), &config); err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]bool{"includeIndicatorStyles": false, "allowEval": false, "allowScriptTags": false, "selfRequestsOnly": true} {
		if config[key] != want {
			t.Errorf("%s is %v, want %v", key, config[key], want)
		}
		if !strings.Contains(string(all["htmx.min.js"].content), key+":") {
			t.Errorf("htmx does not know %s", key)
		}
	}
}

func fetch(path string) *httptest.ResponseRecorder {
	w := httptest.NewRecorder()
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.URL.Path = path
	Handler().ServeHTTP(w, r)
	return w
}
