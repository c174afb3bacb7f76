package visit

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Violation is a rule that a page breaks for those who do not see it, as axe-core tells it.
type Violation struct {
	ID, Impact, Help string
	Nodes            []struct{ HTML string }
}

// Serious reports whether the rule counts.
func (v Violation) Serious() bool { return v.Impact == "serious" || v.Impact == "critical" }

func (v Violation) String() string { return fmt.Sprintf("%s (%s): %v", v.ID, v.Help, v.Nodes) }

// AxeScript is the rules of axe-core as one script: AXE_CORE names it, or npm has put it into node_modules of the
// project's folder, root. Without it the test is skipped, but fails where CI is set.
func AxeScript(t testing.TB, root string) string {
	t.Helper()
	path := os.Getenv("AXE_CORE")
	if path == "" {
		path = filepath.Join(root, "node_modules/axe-core/axe.min.js")
	}
	script, err := os.ReadFile(path)
	if err != nil {
		Missing(t, "axe-core is not there (npm install --no-save axe-core, or AXE_CORE=.../axe.min.js): "+err.Error())
	}
	return string(script)
}

const runAxe = `axe.run(document, {resultTypes: ['violations']}).then(r => r.violations.map(v => ({ID: v.id, Impact: v.impact, Help: v.help,
	Nodes: v.nodes.slice(0, 2).map(n => ({HTML: n.html.slice(0, 160)}))})))`

// Axe is what the rules find on the page that is open in the tab.
func Axe(ctx context.Context, script string) ([]Violation, error) {
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[int](script+";0")); err != nil {
		return nil, fmt.Errorf("start axe-core: %w", err)
	}
	found, err := chromedp.Run(ctx, chromedp.Evaluate[[]Violation](runAxe, chromedp.EvalAwaitPromise))
	if err != nil {
		return nil, fmt.Errorf("run axe-core: %w", err)
	}
	return found, nil
}

// Sound fails the test if the page breaks a rule seriously or is wider than the screen.
func (v *Visit) Sound(script string) {
	v.t.Helper()
	at := v.At()
	found, err := Axe(v.ctx, script)
	if err != nil {
		v.t.Fatalf("%s: %v", at, err)
	}
	var serious []string
	for _, f := range found {
		if f.Serious() {
			serious = append(serious, f.String())
		}
	}
	if len(serious) > 0 {
		v.t.Errorf("%s:\n%s", at, strings.Join(serious, "\n"))
	}
	if wide, screen := Ask[int64](v, "document.documentElement.scrollWidth"), Ask[int64](v, "window.innerWidth"); wide > screen {
		v.t.Errorf("%s is %d wide on a screen of %d", at, wide, screen)
	}
}
