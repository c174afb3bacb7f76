package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"

	"tuckup/reports/desk/visit"
)

// served is the program's own desk, on a free port of this machine.
type served struct {
	base string // http://127.0.0.1:PORT
	said *spoken
	stop context.CancelFunc
	code chan int
}

// spoken is what the program wrote so far.
type spoken struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (w *spoken) Write(p []byte) (int, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.b.Write(p)
}

func (w *spoken) String() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.b.String()
}

var deskAddress = regexp.MustCompile(`http://127\.0\.0\.1:\d+`)

// serveDesk starts "tuckup serve" with the words and waits until it says where it is.
func serveDesk(t testing.TB, args ...string) *served {
	t.Helper()
	start := time.Now()
	clock := func() time.Time { return time.Date(2027, 1, 5, 9, 0, 0, 0, time.UTC).Add(time.Since(start)) }
	ctx, stop := context.WithCancel(context.Background())
	s := &served{said: &spoken{}, stop: stop, code: make(chan int, 1)}
	go func() {
		s.code <- newApp(s.said, s.said, clock).run(ctx, append([]string{"serve", "--listen", "127.0.0.1:0"}, args...))
	}()
	t.Cleanup(func() { s.ends(t) })
	for range 1000 {
		if s.base = deskAddress.FindString(s.said.String()); s.base != "" {
			return s
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatal("the desk does not say where it is: ", s.said)
	return nil
}

// ends stops the desk, which must end well.
func (s *served) ends(t testing.TB) {
	t.Helper()
	s.stop()
	select {
	case code := <-s.code:
		if code != codeDone {
			t.Errorf("the desk ended with %d: %s", code, s.said)
		}
		s.code <- code
	case <-time.After(30 * time.Second):
		t.Error("the desk does not stop")
	}
}

// untilFirst waits until the page that is open has a plan, as a person does: it looks on.
func untilFirst(v *visit.Visit) {
	v.Until(`document.readyState === "complete" && !document.querySelector(".plan-note button[value=stop]")`)
}

// untilPlanned waits until nothing is planned any more. Where the first plan was made in a hurry and there is a better one, that is taken.
func untilPlanned(v *visit.Visit) {
	untilFirst(v)
	const looks = `document.querySelector(".plan-note [data-event=progress]")`
	v.Until(`document.readyState === "complete" && (!` + looks + ` || /is ready|No plan/.test(` + looks + `.textContent))`)
	if visit.Ask[bool](v, "Boolean("+looks+")") {
		v.Open(v.At())
	}
	if visit.Ask[bool](v, `Boolean(document.querySelector(".plan-note button[value=take]"))`) {
		v.Leaves(func() { v.Click(".plan-note button", "Take it") })
	}
}

// Someone who has never seen the desk opens it and finds the week planned.
func TestAFirstVisitLeadsToAPlannedWeek(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	s := serveDesk(t, "--demo")
	v := visit.New(t, s.base)
	if status := v.Open("/today"); status != 200 {
		t.Fatalf("status %d: %s", status, v.Says())
	}
	untilFirst(v)
	v.Leaves(func() { v.Click("nav a", "Week") })
	if n := visit.Ask[int](v, `document.querySelectorAll(".weekday").length`); n < 7 {
		t.Errorf("%d days", n)
	}
	if n := visit.Ask[int](v, `document.querySelectorAll(".item.session").length`); n == 0 {
		t.Error("no session is planned:", v.Says())
	}
	v.Quiet()
}

// deskPages are the pages of the menu, those behind them, and a page that is not there.
var deskPages = map[string]int64{
	"/": 200, "/today": 200, "/week": 200, "/string": 200, "/dogs/Sorrel": 200, "/shows": 200, "/hours": 200, "/workload": 200, "/history": 200, "/copies": 200, "/plan": 200,
	"/papers": 200, "/setup": 200, "/bring": 200, "/learned": 200, "/patterns": 200, "/patterns/wire-fox-terrier": 200, "/account": 200, "/account?rate=24.50&currency=EUR": 200, "/account?rate=much": 422, "/work": 200, "/work?dog=Sorrel": 200, "/nowhere": 404,
}

// Every page is sound for those who do not see it, fits the screen of a phone and of a laptop, asks no other host for
// anything, and gives the console nothing to complain of.
func TestEveryPageOfTheDeskIsSound(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	axe := visit.AxeScript(t, "../..")
	s := serveDesk(t, "--demo")
	v := visit.New(t, s.base)
	v.Open("/today")
	untilPlanned(v)
	for path, want := range deskPages {
		for _, width := range []int64{visit.Phone, visit.Laptop} {
			v.Screen(width)
			if status := v.Open(path); status != want {
				t.Errorf("%s: status %d, want %d", path, status, want)
			}
			if want != 200 {
				v.Forgive(strconv.FormatInt(want, 10))
			}
			v.Sound(axe)
			v.Shot(fmt.Sprintf("page%s-%d", strings.NewReplacer("/", "-", "?", "-", "=", "-").Replace(path), width))
			if width == visit.Phone {
				small := visit.Ask[string](v, `[...document.querySelectorAll("button, select, input:not([type=hidden]), [role=button], nav a")]
					.filter(e => e.checkVisibility() && e.getBoundingClientRect().height < 24).map(e => e.outerHTML.slice(0, 120)).join("\n")`)
				if small != "" {
					t.Errorf("%s: too small to touch:\n%s", path, small)
				}
			}
		}
	}
	v.Quiet()
}

// A session is ticked off on a phone, what stopped early is planned again and taken, and the history takes it back.
func TestASessionIsTickedOffOnAPhonePlannedAgainAndTakenBack(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	s := serveDesk(t, "--book", phoneBook(t), "--today", "2027-01-04")
	v := visit.New(t, s.base)
	v.Screen(visit.Phone)
	v.Open("/today")
	untilPlanned(v)
	tasks := visit.Ask[int](v, `document.querySelectorAll(".task:not(.done)").length`)
	v.Shot("today-before-390")
	if hand := visit.Ask[float64](v, `document.querySelector(".thumb button").getBoundingClientRect().bottom / innerHeight`); hand < 0.8 || hand > 1 {
		t.Errorf("what is ticked off next is at %.0f %% of the height, out of the thumb's reach", 100*hand)
	}
	if tall := visit.Ask[float64](v, `document.querySelector(".thumb button").getBoundingClientRect().height`); tall < 44 {
		t.Errorf("the target is %.0f pixels high", tall)
	}
	v.Leaves(func() { v.Click(".thumb button", "Done") })
	v.Until(`document.body.innerText.includes("written down")`)
	if left := visit.Ask[int](v, `document.querySelectorAll(".task:not(.done)").length`); left != tasks-1 {
		t.Errorf("of %d tasks %d are left: %s", tasks, left, v.Says())
	}
	v.Shot("today-done-390")
	v.Until(`getComputedStyle(document.querySelector(".task.done button")).pointerEvents === "auto"`)
	v.Leaves(func() { v.Click(".task.done button", "Undo") })
	if left := visit.Ask[int](v, `document.querySelectorAll(".task:not(.done)").length`); left != tasks {
		t.Errorf("of %d tasks %d are to be done again: %s", tasks, left, v.Says())
	}

	v.Until(`getComputedStyle(document.querySelector(".task a[role=button]")).pointerEvents === "auto"`)
	v.Leaves(func() { v.Click(".task a[role=button]", "Stopped early") })
	v.Shot("work-390")
	if !visit.Ask[bool](v, `document.querySelector("[name=stopped]").checked`) {
		t.Error("the page does not know that it was stopped early")
	}
	first := visit.Ask[string](v, `document.querySelector(".share.planned input").name`)
	v.Type(`[name="`+first+`"]`, "1/40")
	v.Type("[name=minutes]", "20")
	v.Leaves(func() { v.Click("button", "Write it down") })
	v.Until(`document.body.innerText.includes("what is left")`)
	if !strings.Contains(v.Says(), "what is left") {
		t.Error("does not say what is left:", v.Says())
	}
	v.Shot("today-left-390")
	v.Leaves(func() { v.Click("nav a", "Plan") })
	v.Leaves(func() { v.Click("main button", "Plan again") })
	v.Until(`document.body.innerText.includes("A new plan is ready")`)
	v.Leaves(func() { v.Click("button", "Take it") })
	v.Until(`document.body.innerText.includes("This is the plan now")`)
	v.Shot("today-taken-390")

	v.Leaves(func() { v.Click("nav a", "History") })
	v.Shot("history-390")
	changes := visit.Ask[int](v, `document.querySelectorAll("main form").length`)
	v.Leaves(func() { v.Click("main button", "Undo") })
	v.Until(`document.body.innerText.includes("Undone.")`)
	if !strings.Contains(v.Says(), "Undone.") || changes == 0 {
		t.Error("nothing was taken back:", v.Says())
	}
	v.Quiet()
}

// tabTo presses the tab key until the element is reached that the condition, about e, holds for.
func tabTo(v *visit.Visit, t *testing.T, condition string) {
	t.Helper()
	for range 400 {
		v.Press(kb.Tab)
		if visit.Ask[bool](v, `(e => Boolean(`+condition+`))(document.activeElement)`) {
			if shown := visit.Ask[bool](v, `document.activeElement.matches(":focus-visible") && getComputedStyle(document.activeElement).outlineStyle !== "none"`); !shown {
				t.Error("the focus is not to be seen on", visit.Ask[string](v, `document.activeElement.outerHTML.slice(0, 120)`))
			}
			return
		}
	}
	t.Fatalf("the tab key does not lead to %s: %s", condition, v.Says())
}

// roomyDesk is a desk on a book with a small string and hours to spare.
func roomyDesk(t *testing.T) *served {
	t.Helper()
	dir := t.TempDir()
	if err := writeExamples(dir); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "thornfield.yaml")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	roomy := strings.Replace(string(data), "{mon: 2, wed: 1.5, fri: 1}", "{mon: 3, tue: 3, wed: 3, thu: 3, fri: 3}", 1)
	if roomy == string(data) {
		t.Fatal("the example has other hours")
	}
	if err := os.WriteFile(file, []byte(roomy), 0o600); err != nil {
		t.Fatal(err)
	}
	book := filepath.Join(dir, "book.db")
	if code, _, said := program(context.Background(), "import", file, "--book", book, "--today", "2027-01-04"); code != codeDone {
		t.Fatal(said)
	}
	return serveDesk(t, "--book", book, "--today", "2027-01-04")
}

// The keyboard alone moves a session to another day and pins it.
func TestASessionIsMovedByTheKeyboardAlone(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	s := roomyDesk(t)
	v := visit.New(t, s.base)
	v.Open("/today")
	untilPlanned(v)
	v.Press(kb.Tab)
	if first := visit.Ask[string](v, `document.activeElement.textContent`); first != "To the page" {
		t.Errorf("the first thing that the tab key reaches is %q", first)
	}
	tabTo(v, t, `e.textContent === "Week"`)
	v.Leaves(func() { v.Press(kb.Enter) })
	movable := `[...e.parentElement.querySelectorAll("option")].some(o => o.textContent.includes(": free at "))`
	tabTo(v, t, `e.tagName === "SUMMARY" && `+movable)
	session := visit.Ask[string](v, `document.activeElement.textContent`)
	v.Press(kb.Enter)
	tabTo(v, t, `e.tagName === "SELECT"`)
	before := visit.Ask[string](v, `document.activeElement.value`)
	free := `document.activeElement.selectedOptions[0].textContent.includes(": free at ")`
	for range 14 {
		if v.Press(kb.ArrowDown); visit.Ask[bool](v, free) {
			break
		}
	}
	for range 28 {
		if visit.Ask[bool](v, free) {
			break
		}
		v.Press(kb.ArrowUp)
	}
	to := visit.Ask[string](v, `document.activeElement.value`)
	if to == before {
		t.Fatal("no other day was chosen for", session)
	}
	tabTo(v, t, `e.tagName === "BUTTON" && e.textContent.includes("See what changes")`)
	v.Leaves(func() { v.Press(kb.Enter) })
	t.Log(session, "is to move to", to)
	tabTo(v, t, `e.tagName === "BUTTON" && e.textContent === "Take it"`)
	v.Leaves(func() { v.Press(kb.Enter) })
	v.Until(`document.body.innerText.includes("Moved and pinned") && document.querySelector(".session .pin") !== null`)
	v.Quiet()
}

// fillShow types a new show into the form, for one dog.
func fillShow(v *visit.Visit, name, on, dog string) {
	v.Type("[name=name]", name)
	v.Fill("[name=on]", on)
	v.Type("[name=weight]", "3")
	v.Click(".boxes label", dog)
}

// A show is added, who gains and who pays is seen before anything is written, and it is kept.
func TestAShowIsAddedWhoPaysIsSeenAndItIsKept(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	s := serveDesk(t, "--book", phoneBook(t), "--today", "2027-01-04")
	v := visit.New(t, s.base)
	v.Open("/today")
	untilPlanned(v)
	v.Leaves(func() { v.Click("nav a", "Shows") })
	shows := visit.Ask[int](v, `document.querySelectorAll(".shows tbody tr").length`)
	fillShow(v, "Oxbow Terrier Day", "2027-02-06", "Sorrel")
	v.Shot("show-typed-1280")
	v.Leaves(func() { v.Click("button", "See what it brings") })
	v.Until(`document.querySelector(".draft button[value=keep]") !== null`)
	v.Shot("show-draft-1280")
	v.Screen(visit.Phone)
	v.Shot("show-draft-390")
	v.Screen(visit.Laptop)
	for _, words := range []string{"What breaks", "Who pays, at which show", "New entries", "Oxbow Terrier Day", "Hours a week", "Nothing is written yet"} {
		if !strings.Contains(v.Says(), words) {
			t.Errorf("does not say %q: %s", words, v.Says())
		}
	}
	other := visit.New(t, s.base) // somebody who looks at the same time sees nothing of it
	other.Open("/shows")
	if n := visit.Ask[int](other, `document.querySelectorAll(".shows tbody tr").length`); n != shows {
		t.Errorf("before it is kept there are %d shows, not %d", n, shows)
	}
	v.Leaves(func() { v.Click(".draft button", "Take it") })
	v.Until(`document.body.innerText.includes("Taken.")`)
	if n := visit.Ask[int](v, `document.querySelectorAll(".shows tbody tr").length`); n != shows+1 || !strings.Contains(v.Says(), "Taken.") {
		t.Errorf("%d shows, want %d: %s", n, shows+1, v.Says())
	}
	other.Open("/history")
	if !strings.Contains(other.Says(), "Oxbow Terrier Day") {
		t.Error("the history does not have it:", other.Says())
	}
	v.Quiet()
	other.Quiet()
}

// What is wrong with a form is beside its field, and what was typed stays.
func TestAFormThatIsWrongKeepsWhatWasTyped(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	s := serveDesk(t, "--demo")
	v := visit.New(t, s.base)
	v.Open("/shows")
	fillShow(v, "Oxbow Terrier Day", "2027-02-06", "Sorrel")
	v.Type("[name=days]", "many")
	v.Leaves(func() { v.Click("button", "See what it brings") })
	if !visit.Ask[bool](v, `document.querySelector("[name=days]").getAttribute("aria-invalid") === "true" &&
		document.getElementById(document.querySelector("[name=days]").getAttribute("aria-describedby")).textContent !== "" &&
		document.querySelector("[name=days]").value === "many" && document.querySelector("[name=name]").value === "Oxbow Terrier Day"`) {
		t.Error(v.Says())
	}
	v.Shot("show-wrong-1280")
	v.Forgive("422")
	v.Quiet()
}

// Without scripts every page is read and every form is sent as well.
func TestTheDeskWorksWithoutScripts(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	s := serveDesk(t, "--book", phoneBook(t), "--today", "2027-01-04")
	v := visit.New(t, s.base)
	v.Scripts(false)
	v.Open("/plan")
	for range 100 { // the page looks again by itself
		if strings.Contains(v.Says(), "The plan in use") {
			break
		}
		time.Sleep(200 * time.Millisecond)
	}
	v.Open("/shows")
	fillShow(v, "Oxbow Terrier Day", "2027-02-06", "Sorrel")
	v.Leaves(func() { v.Click("button", "See what it brings") })
	for range 100 {
		if visit.Ask[bool](v, `document.querySelector(".draft button[value=keep]") !== null`) {
			break
		}
		time.Sleep(200 * time.Millisecond)
		if visit.Ask[bool](v, `[...document.querySelectorAll(".draft a")].some(a => a.textContent === "Look again")`) {
			v.Leaves(func() { v.Click(".draft a", "Look again") })
		}
	}
	v.Leaves(func() { v.Click(".draft button", "Take it") })
	v.Until(`document.body.innerText.includes("Taken.")`)
	if !strings.Contains(v.Says(), "Taken.") {
		t.Error(v.Says())
	}
	v.Quiet()
}

var pairAddress = regexp.MustCompile(`(http://(?:10|172|192)\.[\d.]+:\d+)/pair\?code=(\S+)`)

// A phone on the network sees nothing until the code from the terminal is typed into it.
func TestAPhoneIsPairedWithTheCodeFromTheTerminal(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	s := serveDesk(t, "--demo", "--lan", "--unencrypted")
	var m []string
	for range 100 {
		if m = pairAddress.FindStringSubmatch(s.said.String()); m != nil {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	if m == nil {
		t.Skip("this machine has no address on a private network")
	}
	v := visit.New(t, m[1])
	v.Screen(visit.Phone)
	v.Open("/week")
	if at := v.At(); at != "/pair" || strings.Contains(v.Says(), "Monday") {
		t.Errorf("before it is paired the phone is at %s and sees %s", at, v.Says())
	}
	v.Shot("pair-390")
	v.Type("#code", "AAAA-AAAA")
	v.Leaves(func() { v.Click("button", "Pair") })
	if !strings.Contains(v.Says(), "not the code") {
		t.Error("a wrong code is taken:", v.Says())
	}
	v.Forgive("422")
	v.Type("#code", strings.ToLower(m[2]))
	v.Leaves(func() { v.Click("button", "Pair") })
	if at := v.At(); at != "/today" || !strings.Contains(v.Says(), "Today") {
		t.Errorf("once it is paired the phone is at %s and sees %s", at, v.Says())
	}
	if cookies := visit.Ask[string](v, "document.cookie"); cookies != "" {
		t.Error("scripts can read", cookies)
	}
	v.Leaves(func() { v.Click("nav a", "Hours") })
	v.Quiet()
}

// The board is walked by the arrow keys, and each cell says what it holds; enter opens the week at that dog.
func TestTheBoardIsWalkedByTheKeyboard(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	axe := visit.AxeScript(t, "../..")
	s := serveDesk(t, "--book", phoneBook(t), "--today", "2027-01-04")
	v := visit.New(t, s.base)
	v.Open("/today")
	untilPlanned(v)
	v.Open("/")
	tabTo(v, t, `e.closest(".board tbody th")`)
	first := visit.Ask[string](v, `document.activeElement.textContent`)
	v.Press(kb.ArrowRight)
	v.Press(kb.ArrowRight)
	label := visit.Ask[string](v, `document.activeElement.getAttribute("aria-label")`)
	if !strings.HasPrefix(label, first+", week of 11 January, ") {
		t.Errorf("two to the right of %s is %q", first, label)
	}
	if said := visit.Ask[string](v, `document.querySelector("[data-board-says]").textContent`); said != label {
		t.Errorf("below the board stands %q", said)
	}
	v.Press(kb.ArrowDown)
	second := visit.Ask[string](v, `document.querySelectorAll(".board tbody th a")[1].textContent`)
	if label := visit.Ask[string](v, `document.activeElement.getAttribute("aria-label")`); !strings.HasPrefix(label, second+", week of 11 January, ") {
		t.Errorf("below it is %q", label)
	}
	v.Press(kb.Home)
	if at := visit.Ask[string](v, `document.activeElement.textContent`); at != second {
		t.Errorf("the line begins with %q", at)
	}
	for range 20 {
		v.Press(kb.ArrowDown)
	}
	if at := visit.Ask[bool](v, `document.activeElement.closest("tfoot") !== null`); !at {
		t.Error("the hours are not the last line")
	}
	v.Press(kb.ArrowUp)
	v.Press(kb.End)
	if last := visit.Ask[bool](v, `document.activeElement.closest("td") === document.activeElement.closest("tr").lastElementChild`); !last {
		t.Error("the line does not end with its last week")
	}
	v.Leaves(func() { v.Press(kb.Enter) })
	if at := v.At(); !strings.HasPrefix(at, "/week?") {
		t.Errorf("enter leads to %s", at)
	}
	v.Open("/")
	for _, width := range []int64{320, visit.Phone, 768, visit.Laptop, 1920} {
		v.Screen(width)
		v.Sound(axe)
		want := visit.Ask[int](v, `document.querySelectorAll(".board thead th").length - 1`)
		if width <= visit.Phone {
			want = min(want, 8)
		}
		if weeks := visit.Ask[int](v, `[...document.querySelectorAll(".board thead th")].filter(e => e.checkVisibility()).length - 1`); weeks != want {
			t.Errorf("at %d pixels there are %d weeks, want %d", width, weeks, want)
		}
	}
	v.Quiet()
}

// Thirty dogs are printed on one page across.
func TestTheBoardOfThirtyDogsIsPrintedOnOnePage(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	s := largeDesk(t, 30, "2")
	v := visit.New(t, s.base)
	v.Open("/plan")
	untilPlanned(v)
	v.Open("/")
	if dogs := visit.Ask[int](v, `document.querySelectorAll(".board tbody tr").length`); dogs != 30 {
		t.Fatalf("%d dogs", dogs)
	}
	pages, wide := v.Printed()
	if pages != 1 || !wide {
		t.Errorf("%d pages, across: %v", pages, wide)
	}
	v.Quiet()
}

// A session goes onto a full day: what moves and what falls out is seen before it is taken, and the history takes it back.
func TestASessionGoesOntoAFullDay(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	axe := visit.AxeScript(t, "../..")
	s := serveDesk(t, "--book", bookOf(t, strings.Replace(threeDogs, "{mon: 6}", "{mon: 2, thu: 2}", 1)), "--today", "2027-01-04")
	v := visit.New(t, s.base)
	v.Open("/week")
	untilPlanned(v)
	v.Open("/week")
	dog := visit.Ask[string](v, `(() => {
		const option = [...document.querySelectorAll(".session option")].find(o => o.textContent.includes("full; make room"));
		if (!option) return "";
		const details = option.closest("details");
		details.open = true;
		option.parentElement.value = option.value;
		details.querySelector("button[value=see]").setAttribute("data-here", "");
		return option.closest(".session").querySelector("b").textContent;
	})()`)
	if dog == "" {
		t.Fatal("no day is full: ", v.Says())
	}
	v.Leaves(func() { v.Click("[data-here]", "See what changes") })
	v.Sound(axe)
	v.Shot("week-moving-1280")
	if said := v.Says(); !strings.Contains(said, "That day is full") || !strings.Contains(said, "Nothing is written yet") {
		t.Error(said)
	}
	v.Leaves(func() { v.Click(".moving button", "Plan the rest around it") })
	v.Until(`document.querySelector(".draft button[value=keep]") !== null`)
	v.Sound(axe)
	v.Shot("week-room-1280")
	v.Screen(visit.Phone)
	v.Shot("week-room-390")
	v.Leaves(func() { v.Click(".draft button", "Take it") })
	v.Until(`document.body.innerText.includes("This is the plan now")`)
	if !visit.Ask[bool](v, `[...document.querySelectorAll(".session")].some(s => s.querySelector("b").textContent === "`+dog+`" && s.querySelector(".pin"))`) {
		t.Error(dog, "is not pinned:", v.Says())
	}
	v.Sound(axe)
	v.Quiet()
}

// On paper no page has anything to press, and the day has all of its work.
func TestPagesAreReadOnPaper(t *testing.T) {
	long(t, "prints with the browser; the sheet on paper stays")
	visit.Browser(t)
	s := serveDesk(t, "--book", phoneBook(t), "--today", "2027-01-04")
	v := visit.New(t, s.base)
	v.Open("/today")
	untilPlanned(v)
	paths := []string{"/", "/today", "/week", "/string", "/dogs/Sorrel", "/shows", "/hours", "/workload", "/history", "/plan"}
	for _, path := range paths {
		v.Open(path)
		v.Paper(true)
		pressed := visit.Ask[string](v, `[...document.querySelectorAll("button, input, select, [role=button], nav")].filter(e => e.checkVisibility()).map(e => e.outerHTML.slice(0, 120)).join("\n")`)
		if pressed != "" {
			t.Errorf("%s: on paper there is to press:\n%s", path, pressed)
		}
		if wide := visit.Ask[bool](v, `document.documentElement.scrollWidth > innerWidth`); wide {
			t.Errorf("%s is wider than the paper", path)
		}
		if path == "/today" && visit.Ask[bool](v, `[...document.querySelectorAll(".areas > li > b")].some(e => !e.checkVisibility({contentVisibilityAuto: true}) || e.getBoundingClientRect().height === 0)`) {
			t.Error("an area is not printed")
		}
		v.Paper(false)
	}
	v.Quiet()
}

// In the dark every page has a dark ground, and its words stand out from it.
func TestEveryPageOfTheDeskIsReadInTheDark(t *testing.T) {
	axe := visit.AxeScript(t, "../..")
	s := serveDesk(t, "--book", phoneBook(t), "--today", "2027-01-04")
	v := visit.New(t, s.base)
	v.Open("/today")
	untilPlanned(v)
	v.Dark(true)
	for path, want := range deskPages {
		if status := v.Open(path); status != want {
			t.Errorf("%s: status %d, want %d", path, status, want)
		}
		if want != 200 {
			v.Forgive(fmt.Sprint(want))
		}
		v.Sound(axe)
		v.Shot("dark" + strings.NewReplacer("/", "-", "?", "-", "=", "-").Replace(path))
		if ground := visit.Ask[string](v, `getComputedStyle(document.documentElement).backgroundColor`); ground != "rgb(18, 22, 20)" {
			t.Errorf("%s: the ground is %s", path, ground)
		}
		bright := visit.Ask[string](v, `[...document.querySelectorAll("body *")].filter(e => e.checkVisibility() && getComputedStyle(e).backgroundColor === "rgb(255, 255, 255)").map(e => e.outerHTML.slice(0, 120)).join("\n")`)
		if bright != "" {
			t.Errorf("%s: bright in the dark:\n%s", path, bright)
		}
	}
	v.Quiet()
}
