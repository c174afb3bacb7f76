package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"tuckup/optimize"
	"tuckup/optimize/planned"
	"tuckup/reports/desk/visit"
)

// A newcomer has a fresh home, no settings, and the README. Each of their steps is counted with the time that a person takes for it, and the
// time that the program makes them wait is measured.

// What a person takes for a step: long rather than short, for somebody who has never seen the page.
const (
	readsAPage  = 15 * time.Second
	typesAField = 8 * time.Second // finds it, types a word or a number, goes on
	choosesOne  = 5 * time.Second
	clicks      = 3 * time.Second
	typesALine  = 20 * time.Second // of a command
	copiesAFile = 60 * time.Second // out of the README, into an editor, and saves it
)

// mostOfAPerson is how long all steps may take.
const mostOfAPerson = 5 * time.Minute

// newcomer counts.
type newcomer struct {
	t      *testing.T
	steps  int
	person time.Duration
	waits  time.Duration
}

func (n *newcomer) step(takes time.Duration) { n.steps++; n.person += takes }

// wait measures what the program does meanwhile.
func (n *newcomer) wait(do func()) {
	start := time.Now()
	do()
	n.waits += time.Since(start)
}

// ends asks that the person needed no more steps than there are now, and was not kept longer than they may be. What they waited depends on the machine
// and on what else it does: it is reported.
func (n *newcomer) ends(what string, steps int) {
	n.t.Helper()
	if n.steps > steps {
		n.t.Errorf("%s: %d steps, it was done in %d", what, n.steps, steps)
	}
	n.t.Logf("%s: %d steps, %v of a person's time, %.1f s of waiting", what, n.steps, n.person, n.waits.Seconds())
	if n.person > mostOfAPerson {
		n.t.Errorf("%s: a person takes %v, more than %v", what, n.person, mostOfAPerson)
	}
}

// The page: from a double-click to a printed sheet, two dogs and a show, one of them by the day of its last pull and one by what is seen.
func TestANewcomerComesFromADoubleClickToAPrintedSheet(t *testing.T) {
	long(t, "plans whole seasons")
	visit.Browser(t)
	freshHome(t)
	ownCache(t)
	n := &newcomer{t: t}
	var address string
	var d doubleClick
	n.step(clicks)
	n.wait(func() {
		d = clickOn(t)
		address = d.address(t)
	})
	v := visit.New(t, address)
	axe := visit.AxeScript(t, "../..")
	leaves := func(takes time.Duration, do func()) {
		n.step(takes)
		n.wait(func() { v.Leaves(do) })
		v.Sound(axe)
	}
	typed := func(css, text string) { n.step(typesAField); v.Type(css, text) }
	picked := func(css, value string) { n.step(typesAField); v.Fill(css, value) }
	clicked := func(css string) { n.step(clicks); v.Click(css, "") }

	n.wait(func() { v.Open("/") })
	if at := v.At(); at != "/begin/kennel" {
		t.Fatalf("the desk opens at %s", at)
	}
	if width := visit.Ask[float64](v, `document.querySelector(".first-steps li").getBoundingClientRect().width`); width < 150 {
		t.Errorf("the steps at the side are %.0f pixels wide", width)
	}
	n.step(readsAPage)
	typed("[name=kennel]", "Larkrise")
	for _, day := range []string{"mon", "wed", "fri"} {
		typed("[name="+day+"]", "2")
	}
	leaves(clicks, func() { v.Click("main button", "Save") })

	n.step(readsAPage)
	typed("[name=name]", "Moss")
	n.step(choosesOne)
	v.Fill("[name=pattern]", "border-terrier")
	leaves(clicks, func() { v.Click("main button", "On to its coat") })
	clicked("#how-pulled")
	picked("[name=pulled]", time.Now().AddDate(0, 0, -80).Format(time.DateOnly))
	leaves(clicks, func() { v.Click("main button", "Add Moss") })

	typed("[name=name]", "Juniper")
	n.step(choosesOne)
	v.Fill("[name=pattern]", "welsh-terrier")
	leaves(clicks, func() { v.Click("main button", "On to its coat") })
	n.step(readsAPage)
	clicked("#how-seen")
	for i, area := range visit.Ask[[]string](v, `[...new Set([...document.querySelectorAll(".seen-table input")].map(x => x.name))]`) {
		n.step(choosesOne)
		v.Click(fmt.Sprintf("label:has([name=%q][value=%s])", area, []string{"right", "long"}[i%2]), "")
	}
	leaves(clicks, func() { v.Click("main button", "Add Juniper") })
	leaves(clicks, func() { v.Click("main a[role=button]", "on to the shows") })

	n.step(readsAPage)
	typed("[name=name]", "Wendlemoor")
	picked("[name=on]", time.Now().AddDate(0, 0, 70).Format(time.DateOnly))
	leaves(clicks, func() { v.Click("main button", "Add the show") })
	leaves(clicks, func() { v.Click("main a[role=button]", "make the plan") })

	n.step(readsAPage)
	n.wait(func() {
		for limit := time.Now().Add(5 * time.Minute); !strings.Contains(v.Says(), "Your plan is made"); time.Sleep(100 * time.Millisecond) {
			if time.Now().After(limit) {
				t.Fatalf("there is no plan: %s", v.Says())
			}
		}
	})
	leaves(clicks, func() { v.Click("main a[role=button]", "On to the sheet") })
	n.step(clicks) // opens the sheet
	sheet := visit.Ask[string](v, `document.querySelector("main a[role=button]").getAttribute("href")`)
	v.Quiet()
	n.wait(func() { v.Open(sheet) })
	for _, name := range []string{"Moss", "Juniper"} {
		if !strings.Contains(v.Says(), name) {
			t.Errorf("%s is not on the sheet: %s", name, v.Says())
		}
	}
	v.Quiet()
	n.step(clicks) // prints it
	n.wait(func() {
		pdf := printed(t, address+strings.TrimPrefix(sheet, "/"))
		if pages := len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf, -1)); pages != 1 {
			t.Errorf("the sheet has %d pages", pages)
		}
	})
	n.ends("in the page", 35)
	_, last := fetch(t, address+"hours")
	send(t, address, strings.TrimSuffix(address, "/"), closeForm(t, last))
	d.ended(t)
	if limit := firstPlan(t).Options.TimeLimit; limit <= 0 || limit >= mostOfWaiting.Seconds() {
		t.Errorf("the first plan may take %v s", limit)
	}
}

// mostOfWaiting is how long a person may wait for the program, on a machine that does nothing else.
const mostOfWaiting = 10 * time.Second

// firstPlan is the plan in use of the usual book.
func firstPlan(t *testing.T) optimize.Result {
	t.Helper()
	a := newApp(nil, nil, time.Now)
	ps, err := a.readPatterns()
	if err != nil {
		t.Fatal(err)
	}
	b, err := a.openBook(t.Context(), ps)
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	s, _, err := b.Read(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	r, err := planned.Unpack(s.Plan.Result)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// printed is the PDF that the browser makes of a page.
func printed(t *testing.T, address string) []byte {
	t.Helper()
	tab := visit.Tab(t)
	if err := chromedp.Do(tab, chromedp.Navigate(address)); err != nil {
		t.Fatal(err)
	}
	made, err := chromedp.Call(tab, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: new(true)})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(string(made.Data), "%PDF-") {
		t.Fatal("no PDF")
	}
	return made.Data
}

// The terminal: the README's own file, and the commands that stand beside it there, up to the sheet.
func TestANewcomerComesFromTheReadmesFileToASheet(t *testing.T) {
	long(t, "plans whole seasons")
	freshHome(t)
	dir := t.TempDir()
	if err := writeExamples(dir); err != nil {
		t.Fatal(err)
	}
	n := &newcomer{t: t}
	n.step(readsAPage)
	n.step(copiesAFile)
	block := regexp.MustCompile("(?s)```sh\n(tuckup import .*?)```").FindStringSubmatch(textOf(t, readmePage))
	if block == nil {
		t.Fatal("the README does not import its file")
	}
	var out []byte
	for line := range strings.Lines(block[1]) {
		n.step(typesALine)
		n.wait(func() {
			words := strings.Fields(line)
			c := exec.CommandContext(context.Background(), words[0], words[1:]...)
			c.Dir = dir
			var err error
			if out, err = c.Output(); err != nil {
				t.Fatalf("%s: %v", line, err)
			}
		})
	}
	for _, want := range []string{"Sorrel", "Moss"} {
		if !strings.Contains(string(out), want) {
			t.Errorf("%s is not on the sheet:\n%s", want, out)
		}
	}
	n.ends("in the terminal", 5)
}

// The two commands for whoever has the source: both are there, and the program starts from it with nothing set. What the second one does is
// what runs this test.
func TestANewcomerWithTheSourceNeedsTwoCommands(t *testing.T) {
	long(t, "plans the demo for seconds")
	readme := textOf(t, readmePage)
	m := regexp.MustCompile(`(?m)^    go run ./cmd/tuckup (.*)\n    go test -timeout 30m \./\.\.\.$`).FindStringSubmatch(readme)
	if m == nil {
		t.Fatal("the README does not give its two commands")
	}
	n := &newcomer{t: t}
	n.step(typesALine)
	n.step(typesALine)
	home := t.TempDir()
	c := exec.CommandContext(t.Context(), "tuckup", strings.Fields(m[1])...)
	c.Env = []string{"HOME=" + home, "PATH=" + os.Getenv("PATH")}
	var out []byte
	n.wait(func() {
		var err error
		if out, err = c.Output(); err != nil {
			t.Fatal(err)
		}
	})
	if !strings.Contains(string(out), "Thornfield") {
		t.Errorf("it prints %.300s", out)
	}
	if left, err := filepath.Glob(filepath.Join(home, "*")); err != nil || len(left) != 0 {
		t.Errorf("it leaves %v in the home: %v", left, err)
	}
	n.ends("with the source", 2)
}
