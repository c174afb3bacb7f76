package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"tuckup/reports/desk/visit"
	"tuckup/reports/html"
	"tuckup/reports/layout"
)

// No page of the demo breaks a rule of axe-core seriously, on a phone or on a wide screen, and none is wider than
// the screen.
func TestNothingSeriousIsWrongWithThePagesForThoseWhoDoNotSeeThem(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	script := visit.AxeScript(t, "../..")
	r := planOf(t, "--demo")
	tab := visit.Tab(t) // it is patient for as long as pages take, not for a plan
	dir := t.TempDir()
	pages := map[string]func(io.Writer) error{
		"readiness": readinessWriters(r, layout.Look{}).html,
		"workload":  workloadWriters(r, layout.Look{}, "").html,
		"dog":       func(w io.Writer) error { return html.Dog(w, r, "Sorrel", html.Records{}) },
		"owner":     func(w io.Writer) error { return html.Owner(w, r, "R. Calloway", html.Records{}) },
		"season":    func(w io.Writer) error { return html.Season(w, r, html.Records{}) },
		"bad": func(w io.Writer) error {
			_, err := w.Write([]byte("<!DOCTYPE html><html><title></title><img src='data:,'><p style='color:#ccc'>pale</p></html>"))
			return err
		},
	}
	for name, write := range pages {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, name+".html")
		if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, width := range []int64{visit.Phone, visit.Laptop} {
			found, wide := lookAt(tab, t, file, width, script)
			var serious []string
			for _, v := range found {
				if v.Serious() {
					serious = append(serious, v.String())
				}
			}
			switch {
			case name == "bad" && len(serious) == 0:
				t.Error("nothing was found on a page without language, title and names")
			case name != "bad" && len(serious) > 0:
				t.Errorf("%s at %d:\n%s", name, width, strings.Join(serious, "\n"))
			case name != "bad" && wide > width:
				t.Errorf("%s is %d wide on a screen of %d", name, wide, width)
			}
		}
	}
}

// lookAt opens a page on a screen of the width and returns what axe-core finds and how wide the page is.
func lookAt(tab context.Context, t *testing.T, file string, width int64, script string) (found []visit.Violation, wide int64) {
	t.Helper()
	if err := chromedp.Do(tab, chromedp.EmulateViewport(width, 900), chromedp.Navigate("file://"+file)); err != nil {
		t.Fatal(err)
	}
	found, err := visit.Axe(tab, script)
	if err != nil {
		t.Fatal(err)
	}
	if wide, err = chromedp.Run(tab, chromedp.Evaluate[int64]("document.documentElement.scrollWidth")); err != nil {
		t.Fatal(err)
	}
	return found, wide
}
