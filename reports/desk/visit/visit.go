// Package visit is a browser for the tests of the desk: it opens pages as a person does, at the width of a phone or of a
// laptop, and notes what a person should not meet: requests to other hosts, and complaints of the console.
package visit

import (
	"context"
	"crypto/sha256"
	"crypto/x509"
	"encoding/base64"
	"errors"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// The widths of the screens that pages are looked at on, in pixels.
const (
	Phone  = 390
	Laptop = 1280
)

const (
	height    = 900
	longest   = 4 * time.Minute // for all that one visit does
	patience  = 60 * time.Second
	lookAgain = 40 * time.Millisecond
)

// Visit is one tab of a browser. Its methods end the test when something fails.
type Visit struct {
	t    testing.TB
	base string // http://host:port of the desk
	ctx  context.Context

	mu         sync.Mutex
	foreign    []string
	complaints []string
	answers    map[string]int64 // status of the last answer, by address
}

// Browser is where Chromium is. Without it the test is skipped, but fails where CI is set: there it must run.
func Browser(t testing.TB) string {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	Missing(t, "there is no Chromium on this machine")
	return ""
}

// Missing skips the test because of what is not there, or fails it where CI is set.
func Missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatal(what + ", and here the test must run")
	}
	t.Skip(what)
}

// Tab is a new tab of a new browser for the test.
func Tab(t testing.TB, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(Browser(t)), chromedp.NoSandbox,
		chromedp.UserDataDir(filepath.Join(t.TempDir(), "profile")), chromedp.WSURLReadTimeout(patience))
	options = append(options, more...)
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	tab, done := chromedp.NewContext(allocator)
	t.Cleanup(done)
	if err := chromedp.Do(tab, chromedp.Navigate("about:blank")); err != nil {
		t.Fatal("the browser does not start: ", err)
	}
	limited, cancel := context.WithTimeout(tab, longest)
	t.Cleanup(cancel)
	return limited
}

// New visits the desk at base, like http://127.0.0.1:8420, on a laptop.
func New(t testing.TB, base string) *Visit {
	t.Helper()
	return visiting(t, base, Tab(t))
}

// Trusting visits a desk with encryption, in a browser that trusts an authority by its certificate.
func Trusting(t testing.TB, base string, authority *x509.Certificate) *Visit {
	t.Helper()
	sum := sha256.Sum256(authority.RawSubjectPublicKeyInfo)
	return visiting(t, base, Tab(t, chromedp.Flag("ignore-certificate-errors-spki-list", base64.StdEncoding.EncodeToString(sum[:]))))
}

func visiting(t testing.TB, base string, tab context.Context) *Visit {
	t.Helper()
	v := &Visit{t: t, base: strings.TrimSuffix(base, "/"), ctx: tab, answers: map[string]int64{}}
	if err := chromedp.Listen(v.ctx, v.note); err != nil {
		t.Fatal(err)
	}
	v.Screen(Laptop)
	return v
}

// note takes down what the browser tells.
func (v *Visit) note(event any) {
	v.mu.Lock()
	defer v.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		if u, err := url.Parse(e.Request.URL); err != nil || u.Host != "" && u.Scheme+"://"+u.Host != v.base {
			v.foreign = append(v.foreign, e.Request.URL)
		}
	case *network.EventResponseReceived:
		v.answers[e.Response.URL] = e.Response.Status
	case *runtime.EventConsoleAPICalled:
		if e.Type == "error" || e.Type == "warning" || e.Type == "assert" {
			var words []string
			for _, a := range e.Args {
				words = append(words, string(a.Value)+a.Description)
			}
			v.complaints = append(v.complaints, string(e.Type)+": "+strings.Join(words, " "))
		}
	case *runtime.EventExceptionThrown:
		v.complaints = append(v.complaints, "exception: "+e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" || e.Entry.Level == "warning" {
			v.complaints = append(v.complaints, fmt.Sprintf("%s: %s %s", e.Entry.Source, e.Entry.Text, e.Entry.URL))
		}
	}
}

// Foreign are the requests to other hosts than the desk's so far, and Complaints what the console complained of.
func (v *Visit) Foreign() []string {
	v.mu.Lock()
	defer v.mu.Unlock()
	return slices.Clone(v.foreign)
}

// Complaints are the errors and warnings of the console so far, also of files that could not be loaded.
func (v *Visit) Complaints() []string {
	v.mu.Lock()
	defer v.mu.Unlock()
	return slices.Clone(v.complaints)
}

// Forgive forgets the complaints that have the words in them, which the test provoked.
func (v *Visit) Forgive(words string) {
	v.mu.Lock()
	defer v.mu.Unlock()
	v.complaints = slices.DeleteFunc(v.complaints, func(c string) bool { return strings.Contains(c, words) })
}

// Quiet fails the test if there was a request to another host or a complaint.
func (v *Visit) Quiet() {
	v.t.Helper()
	if f := v.Foreign(); len(f) > 0 {
		v.t.Errorf("asked other hosts: %q", f)
	}
	if c := v.Complaints(); len(c) > 0 {
		v.t.Errorf("the console complains: %q", c)
	}
}

// Screen sets the width of the screen; a narrow one is touched, not clicked.
func (v *Visit) Screen(width int64) {
	v.t.Helper()
	var as []chromedp.EmulateViewportOption
	if width <= Phone {
		as = append(as, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	v.do("set the screen", chromedp.EmulateViewport(width, height, as...))
}

func (v *Visit) do(what string, steps ...chromedp.Action[chromedp.Void]) {
	v.t.Helper()
	ctx, cancel := context.WithTimeout(v.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		v.t.Fatalf("%s: %v\n%s", what, err, v.Says())
	}
}

// Open opens the page at the path and returns the status of the answer.
func (v *Visit) Open(path string) (status int64) {
	v.t.Helper()
	v.do("open "+path, chromedp.Navigate(v.base+path))
	v.mu.Lock()
	defer v.mu.Unlock()
	return v.answers[v.base+path]
}

// At is the path of the page that is open, with what follows it.
func (v *Visit) At() string {
	v.t.Helper()
	return strings.TrimPrefix(Ask[string](v, "location.href"), v.base)
}

// Says is all the text of the page that is open.
func (v *Visit) Says() string {
	s, err := chromedp.Run(v.ctx, chromedp.Evaluate[string]("document.body ? document.body.innerText : ''"))
	if err != nil {
		return err.Error()
	}
	return s
}

// Ask is the value of an expression of JavaScript in the page.
func Ask[T any](v *Visit, expression string) T {
	v.t.Helper()
	x, err := chromedp.Run(v.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		v.t.Fatalf("ask %s: %v", expression, err)
	}
	return x
}

// Until waits until an expression of JavaScript is true in the page, whatever page is opened in between.
func (v *Visit) Until(condition string) {
	v.t.Helper()
	v.until(condition, "Boolean("+condition+")")
}

func (v *Visit) until(what, condition string) {
	v.t.Helper()
	for range int(patience / lookAgain) {
		if ok, err := chromedp.Run(v.ctx, chromedp.Evaluate[bool](condition)); err == nil && ok {
			return
		}
		time.Sleep(lookAgain)
	}
	v.t.Fatalf("waited in vain for %s at %s (%s):\n%s", what, v.At(), Ask[string](v, "document.readyState"), v.Says())
}

// Leaves does something after which another page must be open, or its main part changed for another.
func (v *Visit) Leaves(do func()) {
	v.t.Helper()
	Ask[bool](v, "(document.querySelector('main') ?? document.body).stillHere = true")
	do()
	v.until("the next page", `document.readyState === "complete" && (document.querySelector("main") ?? document.body).stillHere !== true &&
		document.querySelector("[aria-busy='true']") === null`)
}

// Click clicks the first element of the CSS selector with the text in it, by its middle, as a person does.
func (v *Visit) Click(css, text string) {
	v.t.Helper()
	v.mark(css, text)
	v.do("click "+css+" "+text, chromedp.Click(chromedp.CSS("[data-marked]")))
}

// mark marks the first element that is shown, matches the selector and has the text in it.
func (v *Visit) mark(css, text string) {
	v.t.Helper()
	v.until(css+" with "+strconv.Quote(text), fmt.Sprintf(`(() => {
		for (const was of document.querySelectorAll("[data-marked]")) was.removeAttribute("data-marked");
		const found = [...document.querySelectorAll(%q)].find(e => e.textContent.includes(%q) && e.checkVisibility());
		if (found) found.setAttribute("data-marked", "");
		return found !== undefined;
	})()`, css, text))
}

// Type puts text in the place of what is in the field, key by key.
func (v *Visit) Type(css, text string) {
	v.t.Helper()
	v.mark(css, "")
	Ask[bool](v, `(() => { const f = document.querySelector("[data-marked]"); f.focus(); f.select(); return true })()`)
	v.do("empty "+css, chromedp.KeyEvent("\b"))
	v.do("type into "+css, chromedp.SendKeys(chromedp.CSS("[data-marked]"), text))
}

// Fill sets a field as the picker of a date or a list does.
func (v *Visit) Fill(css, value string) {
	v.t.Helper()
	v.mark(css, "")
	Ask[bool](v, fmt.Sprintf(`(() => { const f = document.querySelector("[data-marked]"); f.value = %q;
		f.dispatchEvent(new Event("input", {bubbles: true})); f.dispatchEvent(new Event("change", {bubbles: true})); return f.value === %q })()`, value, value))
}

// Press presses keys, one after another, wherever the focus is.
func (v *Visit) Press(keys string) {
	v.t.Helper()
	v.do("press "+strconv.Quote(keys), chromedp.KeyEvent(keys))
}

// Shot keeps a picture of the whole page in the folder that DESK_SHOTS names, if it does, to be looked at.
func (v *Visit) Shot(name string) {
	v.t.Helper()
	if os.Getenv("DESK_SHOTS") == "" {
		return
	}
	picture, err := chromedp.Run(v.ctx, chromedp.FullScreenshot(100))
	if err != nil {
		v.t.Fatal(err)
	}
	v.keep(name+".png", picture)
}

// keep writes a file into the folder that DESK_SHOTS names, if it does.
func (v *Visit) keep(name string, data []byte) {
	v.t.Helper()
	dir := os.Getenv("DESK_SHOTS")
	if dir == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
		v.t.Fatal(err)
	}
}

// Scripts sets whether the scripts of pages run.
func (v *Visit) Scripts(run bool) {
	v.t.Helper()
	if _, err := chromedp.Call(v.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !run}); err != nil {
		v.t.Fatal(err)
	}
}

// Place is the middle of the first element that is shown, matches the CSS selector and has the text in it, in pixels of
// the window, which is scrolled there where the element is out of sight.
func (v *Visit) Place(css, text string) (x, y float64) {
	v.t.Helper()
	v.mark(css, text)
	at := Ask[[]float64](v, `(() => { const e = document.querySelector("[data-marked]");
		if (e.getBoundingClientRect().bottom > innerHeight || !e.contains(document.elementFromPoint(...((b) => [b.x + b.width / 2, b.y + b.height / 2])(e.getBoundingClientRect())))) e.scrollIntoView({block: "center", behavior: "instant"});
		const b = e.getBoundingClientRect(); return [b.x + b.width / 2, b.y + b.height / 2] })()`)
	return at[0], at[1]
}

// Tap presses and lets go at a place of the window, whatever is there.
func (v *Visit) Tap(x, y float64) {
	v.t.Helper()
	v.do("tap", chromedp.MouseClickXY(x, y))
}

// Calm sets whether the browser asks pages for less motion.
func (v *Visit) Calm(on bool) {
	v.t.Helper()
	want := map[bool]string{true: "reduce", false: "no-preference"}[on]
	features := []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: want}}
	if _, err := chromedp.Call(v.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: features}); err != nil {
		v.t.Fatal(err)
	}
}

// Printed is how many pages the page that is open takes on paper, by its own size of paper, and whether they lie across.
func (v *Visit) Printed() (pages int, across bool) {
	v.t.Helper()
	pdf, err := chromedp.Call(v.ctx, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: new(true)})
	if err != nil {
		v.t.Fatal(err)
	}
	v.keep("print.pdf", pdf.Data)
	pages = len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf.Data, -1))
	size := regexp.MustCompile(`/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]`).FindSubmatch(pdf.Data)
	if size == nil {
		v.t.Fatal("the paper has no size")
	}
	width, e1 := strconv.ParseFloat(string(size[1]), 64)
	height, e2 := strconv.ParseFloat(string(size[2]), 64)
	if err := errors.Join(e1, e2); err != nil {
		v.t.Fatal(err)
	}
	return pages, width > height
}

// Dark sets whether the reader wants dark pages.
func (v *Visit) Dark(on bool) {
	v.t.Helper()
	want := map[bool]string{true: "dark", false: "light"}[on]
	features := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: want}}
	if _, err := chromedp.Call(v.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: features}); err != nil {
		v.t.Fatal(err)
	}
}

// Paper sets whether the page is shown as it is printed.
func (v *Visit) Paper(on bool) {
	v.t.Helper()
	media := map[bool]string{true: "print", false: ""}[on]
	if _, err := chromedp.Call(v.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media}); err != nil {
		v.t.Fatal(err)
	}
}
