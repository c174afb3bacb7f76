package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"tuckup/reports"
)

// axeScript is the rules of axe-core as one script: AXE_CORE names it, or npm has put it into node_modules.
func axeScript() (script []byte, missing string) {
	path := os.Getenv("AXE_CORE")
	if path == "" {
		path = "../../node_modules/axe-core/axe.min.js"
	}
	script, err := os.ReadFile(path)
	if err != nil {
		return nil, "axe-core is not there (npm install --no-save axe-core, or AXE_CORE=.../axe.min.js): " + err.Error()
	}
	return script, ""
}

func browser() string {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// violation is a rule that a page breaks, as axe-core tells it.
type violation struct {
	ID, Impact, Help string
	Nodes            []struct{ HTML string }
}

const runAxe = `axe.run(document, {resultTypes: ['violations']}).then(r => r.violations.map(v => ({ID: v.id, Impact: v.impact, Help: v.help,
	Nodes: v.nodes.slice(0, 2).map(n => ({HTML: n.html.slice(0, 160)}))})))`

// No page of the demo breaks a rule of axe-core seriously, on a phone or on a wide screen, and none is wider than
// the screen.
func TestNothingSeriousIsWrongWithThePagesForThoseWhoDoNotSeeThem(t *testing.T) {
	script, missing := axeScript()
	if missing != "" {
		t.Skip(missing)
	}
	chromium := browser()
	if chromium == "" {
		t.Skip("there is no Chromium")
	}
	r := planned(t, "--demo")
	dir := t.TempDir()
	pages := map[string]func(io.Writer) error{
		"readiness": readinessWriters(r, reports.Look{}).html,
		"workload":  workloadWriters(r, reports.Look{}, "").html,
		"dog":       func(w io.Writer) error { return reports.DogHTML(w, r, "Sorrel", reports.Records{}) },
		"owner":     func(w io.Writer) error { return reports.OwnerHTML(w, r, "R. Calloway", reports.Records{}) },
		"season":    func(w io.Writer) error { return reports.SeasonHTML(w, r, reports.Records{}) },
		"bad": func(w io.Writer) error {
			_, err := w.Write([]byte("<!DOCTYPE html><html><title></title><img src='data:,'><p style='color:#ccc'>pale</p></html>"))
			return err
		},
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.UserDataDir(filepath.Join(dir, "profile")))
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	defer stop()
	tab, done := chromedp.NewContext(allocator)
	defer done()
	limited, cancel := context.WithTimeout(tab, 3*time.Minute)
	defer cancel()
	for name, write := range pages {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(dir, name+".html")
		if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, width := range []int64{390, 1280} {
			found, wide := lookAt(limited, t, file, width, script)
			var serious []string
			for _, v := range found {
				if v.Impact == "serious" || v.Impact == "critical" {
					serious = append(serious, fmt.Sprintf("%s (%s): %v", v.ID, v.Help, v.Nodes))
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
func lookAt(ctx context.Context, t *testing.T, file string, width int64, script []byte) (found []violation, wide int64) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate("file://"+file)); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[int](string(script)+";0")); err != nil {
		t.Fatal(err)
	}
	found, err := chromedp.Run(ctx, chromedp.Evaluate[[]violation](runAxe, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	if wide, err = chromedp.Run(ctx, chromedp.Evaluate[int64]("document.documentElement.scrollWidth")); err != nil {
		t.Fatal(err)
	}
	return found, wide
}
