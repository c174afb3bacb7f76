package main

import (
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"
)

// noFollow asks without going where the answer leads.
func noFollow(t *testing.T, address string) (status int, to string) {
	t.Helper()
	client := http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	resp, err := client.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	io.Copy(io.Discard, resp.Body)
	return resp.StatusCode, resp.Header.Get("Location")
}

func TestTheMadeUpStringIsBesideOnesOwnAndGoneWithOneClick(t *testing.T) {
	freshHome(t)
	temp := t.TempDir()
	t.Setenv("TMPDIR", temp)
	own, stop := openedDesk(t)
	_, page := fetch(t, own+"begin")
	if page.Find("a[href='/sample']").Length() != 1 {
		t.Fatal("nothing leads to the made-up string")
	}
	status, sample := noFollow(t, own+"sample")
	if status != http.StatusSeeOther || sample == own || !strings.HasPrefix(sample, "http://127.0.0.1:") {
		t.Fatalf("%d to %q", status, sample)
	}
	if _, again := noFollow(t, own+"sample"); again != sample {
		t.Errorf("opened twice, at %s and %s", sample, again)
	}
	_, page = fetch(t, sample+"string")
	if !strings.Contains(page.Find("h1, title").Text(), "Thornfield") || !strings.Contains(page.Find(".made-up").Text(), "A made-up string") || page.Find(".dog-card").Length() != 9 {
		t.Errorf("it shows %q", page.Find("main").Text())
	}
	form := url.Values{"do": {"close"}}
	page.Find(".made-up input").Each(func(_ int, s *goquery.Selection) { form.Set(s.AttrOr("name", ""), s.AttrOr("value", "")) })
	if status, body := send(t, sample, strings.TrimSuffix(sample, "/"), form); status != http.StatusOK || !strings.Contains(body, "The made-up string is gone") || !strings.Contains(body, `href="`+own+`"`) {
		t.Errorf("%d: %.500s", status, body)
	}
	for limit := time.Now().Add(30 * time.Second); ; time.Sleep(50 * time.Millisecond) {
		left, err := filepath.Glob(filepath.Join(temp, "tuckup-demo-*"))
		if err == nil && len(left) == 0 {
			break
		}
		if time.Now().After(limit) {
			t.Fatalf("left behind: %v %v", left, err)
		}
	}
	if _, err := http.Get(sample); err == nil {
		t.Error("it answers after it was thrown away")
	}
	if _, page = fetch(t, own+"string"); page.Find(".dog-card").Length() != 0 || page.Find(".made-up").Length() != 0 {
		t.Error("one's own string is another now")
	}
	_, next := noFollow(t, own+"sample") // it can be looked at again, and goes with the desk
	if status, _ := fetch(t, next+"hours"); status != http.StatusOK {
		t.Errorf("opened again it answers with %d", status)
	}
	if code := stop(); code != codeDone {
		t.Errorf("the desk ended with %d", code)
	}
	if left, err := os.ReadDir(temp); err != nil || len(left) != 0 {
		t.Errorf("left behind: %v %v", left, err)
	}
	if _, err := http.Get(next); err == nil {
		t.Error("the made-up string answers after the desk has ended")
	}
}
