package main

import (
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
)

// What the page Set up changes of the settings is in the settings file, is what `tuckup settings` lists, and keeps what a person wrote
// beside it; what the environment sets can't be changed there.
func TestSettingsChangedOnThePageAreInTheSettingsFile(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", dir)
	t.Setenv("TUCKUP_PICK", "2")
	file := filepath.Join(dir, "tuckup", "config.yaml")
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte("# for this spring\nstay: 0.3 # tried\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	address, stop := openedDesk(t, "--book", filepath.Join(dir, "book.db"))
	defer stop()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	browser := &http.Client{Jar: jar}
	read := func(resp *http.Response, err error) *goquery.Document {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		defer resp.Body.Close()
		doc, err := goquery.NewDocumentFromReader(resp.Body)
		if err != nil {
			t.Fatal(err)
		}
		return doc
	}
	send := func(changes map[string]string) *goquery.Document {
		t.Helper()
		form := url.Values{"do": {"settings"}}
		read(browser.Get(address + "setup")).Find("form:has(button[value=settings]) input").Each(func(_ int, s *goquery.Selection) {
			form.Set(s.AttrOr("name", ""), s.AttrOr("value", ""))
		})
		if form.Get("stay") == "" || form.Has("pick") {
			t.Fatalf("the form holds %v", form)
		}
		for key, value := range changes {
			form.Set(key, value)
		}
		req, err := http.NewRequest(http.MethodPost, address+"setup", strings.NewReader(form.Encode()))
		if err != nil {
			t.Fatal(err)
		}
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		req.Header.Set("Origin", strings.TrimSuffix(address, "/"))
		return read(browser.Do(req))
	}
	holds := func(want string) {
		t.Helper()
		if got, err := os.ReadFile(file); err != nil || string(got) != want {
			t.Errorf("the file holds %q (%v), want %q", got, err, want)
		}
	}
	if said := send(map[string]string{"stay": "0.5", "free_days": "seven"}).Find("#settings-free_days-error").Text(); said != "is not a number" {
		t.Errorf("beside the field is %q", said)
	}
	holds("# for this spring\nstay: 0.3 # tried\n")
	if said := send(map[string]string{"stay": "0.5", "free_days": "3"}).Find(".said").Text(); !strings.Contains(said, "Saved") {
		t.Errorf("after saving the page says %q", said)
	}
	holds("# for this spring\nstay: 0.5 # tried\nfree_days: 3\n")
	if _, out, _ := program(t.Context(), "settings"); !strings.Contains(out, "free_days = 3 days, from file") {
		t.Errorf("tuckup settings lists %q", out)
	}
	send(map[string]string{"free_days": ""})
	holds("# for this spring\nstay: 0.5 # tried\n")
}
