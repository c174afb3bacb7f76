package main

import (
	"context"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"tuckup/reports/desk/visit"
)

// again starts the desk once more where it was.
func (s *served) again(t *testing.T, book string) *served {
	t.Helper()
	x := serveDesk(t, "--book", book, "--today", "2027-01-04", "--listen", strings.TrimPrefix(s.base, "http://"))
	if x.base != s.base {
		t.Fatalf("the desk is at %s, was at %s", x.base, s.base)
	}
	return x
}

// untilKept waits until the browser keeps no fewer pages than that.
func untilKept(v *visit.Visit, pages int) {
	for range 200 {
		if visit.Ask[int](v, `(async () => (await (await caches.open("desk-pages")).keys()).filter(k => !k.url.includes("/assets/")).length)()`) >= pages {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
	v.Until("false") // says what is on the page
}

// A whole day at the table on a phone, with the desk ended twice: the pages of the day open without it, what is ticked, stopped early or
// written down otherwise stays on the phone, is sent in its order when the desk is back, and is in the book once.
func TestAWholeDayWithTheDeskEndedTwiceLosesNothing(t *testing.T) {
	long(t, "a whole day; the quick round tries one tick")
	visit.Browser(t)
	book, s := phoneDesk(t)
	v := phoneOn(t, s.base)
	v.Open("/today") // the worker is there now
	untilKept(v, 5)
	tasks := visit.Ask[int](v, `document.querySelectorAll(".task").length`)

	s.ends(t)
	v.Open("/today")
	untilSays(v, ".kept-page", "The desk does not answer. This is the page as it was")
	v.Shot("offline-today-390")
	first := firstDog(v)
	v.Click(".day-thumb button", "Done: "+first)
	untilSays(v, ".kept-words", "On this phone.")
	untilSays(v, ".waiting[role=alert]", "Not written down: "+first+". The desk does not answer")
	second := strings.TrimPrefix(visit.Ask[string](v, `document.querySelector(".day-thumb [data-next]").textContent`), "Done: ")
	if second == first || second == "" {
		t.Fatalf("the next button is for %q", second)
	}
	v.Until(`!document.querySelector(".day-thumb [data-next]").disabled`)
	v.Click(".day-thumb [data-next]", second)
	untilSays(v, ".waiting[role=alert]", "2 waiting. ")
	v.Shot("offline-two-waiting-390")
	v.Open("/today") // the phone slept, and the page is opened again
	untilSays(v, ".waiting[role=alert]", "2 waiting. ")
	if n := visit.Ask[int](v, `document.querySelectorAll(".task.kept").length`); n != 2 {
		t.Errorf("%d cards say that they are kept", n)
	}
	if got := worked(t, book); len(got) != 0 {
		t.Fatalf("the book has the work of %q", got)
	}

	s = s.again(t, book)
	v.Until(`document.querySelector(".waiting[role=alert]") === null && JSON.parse(localStorage.getItem("desk-waiting")).length === 0`)
	if got := worked(t, book); len(got) != 2 || !strings.HasPrefix(second, got[0]) || !strings.HasPrefix(first, got[1]) { // a duty is named behind its dog
		t.Errorf("the book has the work of %q, ticked were %s and then %s", got, first, second)
	}
	v.Open("/today")
	untilKept(v, 5)
	time.Sleep(2 * time.Second) // the pages of the day are fetched by the worker

	s.ends(t)
	v.Open("/today")
	link := visit.Ask[string](v, `[...document.querySelectorAll(".task:not(.done) a[href^='/work']")][0].getAttribute("href")`)
	v.Open(link)
	untilSays(v, ".kept-page", "The desk does not answer")
	v.Click(".after button", "stopped after")
	v.Type("[name=minutes]", "21")
	v.Type("[name=length]", "31")
	v.Fill("[name=measured]", visit.Ask[string](v, `document.querySelector("[name=measured] option:nth-child(2)").value`))
	v.Click("button", "Write it down")
	untilSays(v, ".waiting[role=alert]", "Not written down")
	v.Shot("offline-work-390")
	v.Open("/papers/sheet.html")
	if !strings.Contains(v.Says(), "took") {
		t.Error("the sheet does not open without the desk:", v.Says())
	}
	v.Open("/today")
	untilSays(v, ".waiting[role=alert]", "Not written down")
	for range tasks - 3 {
		v.Until(`document.querySelector(".day-thumb [data-next], .day-thumb #next:not([hidden]) button") !== null`)
		before := visit.Ask[int](v, `JSON.parse(localStorage.getItem("desk-waiting")).length`)
		x := ".day-thumb [data-next], .day-thumb #next:not([hidden]) button"
		if visit.Ask[bool](v, `document.querySelector("`+x+`").tagName !== "BUTTON"`) {
			break
		}
		v.Until(`!document.querySelector("` + x + `").disabled`)
		v.Click(x, "Done")
		v.Until(`JSON.parse(localStorage.getItem("desk-waiting")).length === ` + string(rune('0'+before+1)) + ` && document.querySelector("[aria-busy=true]") === null`)
	}
	v.Shot("offline-all-390")
	s.again(t, book)
	v.Until(`JSON.parse(localStorage.getItem("desk-waiting")).length === 0`)
	got := worked(t, book)
	if len(got) != tasks {
		t.Errorf("the book has %d lines of work, the day had %d: %q", len(got), tasks, got)
	}
	if v.Open("/dogs/" + visit.Ask[string](v, `new URLSearchParams("`+link[strings.Index(link, "?"):]+`").get("dog")`)); !strings.Contains(v.Says(), "31 mm") {
		t.Error("the length is not in the book:", v.Says())
	}
	forgiveAClosedDesk(v)
	v.Forgive("ERR_CONNECTION")
	v.Quiet()
}

// What is kept on the phone and was changed in the book meanwhile is not lost and not written over: both versions are shown.
func TestWhatIsKeptAndWasChangedMeanwhileIsShownWithBothVersions(t *testing.T) {
	long(t, "stops and starts the desk")
	visit.Browser(t)
	book, s := phoneDesk(t)
	v := phoneOn(t, s.base)
	dog := firstDog(v)
	s.ends(t)
	v.Click(".day-thumb button", "Done: "+dog)
	untilSays(v, ".kept-words", "On this phone.")
	if code, _, said := program(context.Background(), "work", "add", dog, "back", "1/20", "--minutes", "9", "--on", "2027-01-04", "--book", book, "--today", "2027-01-04"); code != codeDone {
		t.Fatal(said)
	}
	s.again(t, book)
	untilSays(v, ".waiting[role=alert]", "Somebody else changed what it is about. Try again shows both versions.")
	if got := worked(t, book); len(got) != 1 {
		t.Fatalf("the book has the work of %q", got)
	}
	v.Leaves(func() { v.Click(".waiting button", "Try again") })
	untilSays(v, ".conflict", "when you opened it")
	v.Shot("offline-conflict-390")
	forgiveAClosedDesk(v)
	v.Quiet()
}

// The desk can be installed, and its worker has the pages of the desk in its care and nothing else.
func TestTheDeskCanBeInstalled(t *testing.T) {
	visit.Browser(t)
	s := serveDesk(t, "--book", phoneBook(t), "--today", "2027-01-04")
	v := visit.New(t, s.base)
	v.Open("/today")
	scope := visit.Ask[string](v, `navigator.serviceWorker.ready.then(r => r.scope)`)
	if scope != s.base+"/" {
		t.Errorf("the worker's scope is %s", scope)
	}
	manifest := visit.Ask[string](v, `fetch(document.querySelector("link[rel=manifest]").href).then(a => a.json()).then(async m =>
		[m.start_url, m.display, (await fetch(m.icons[0].src)).status, (await fetch(m.icons[0].src)).headers.get("Content-Type")].join(" "))`)
	if manifest != "/today standalone 200 image/svg+xml" {
		t.Errorf("the manifest says %q", manifest)
	}
	v.Quiet()
}

// choosesPicture chooses a picture in the open form for one, as large as asked for.
func choosesPicture(v *visit.Visit, width int) {
	visit.Ask[bool](v, fmt.Sprintf(`(async () => {
		const c = Object.assign(document.createElement("canvas"), { width: %d, height: 30 });
		c.getContext("2d").fillRect(0, 0, 20, 20);
		const picture = await new Promise((done) => c.toBlob(done, "image/jpeg"));
		const chosen = new DataTransfer();
		chosen.items.add(new File([picture], "from-the-table.jpg", { type: "image/jpeg" }));
		const form = document.querySelector("form[action='/photos']");
		form.closest("details").open = true;
		form.querySelector("[type=file]").files = chosen.files;
		return true;
	})()`, width))
}

// Pictures that are taken while the desk is closed stay on the phone, also when the browser's page is closed, and are sent behind what was ticked
// before them, once. What is more than the phone is to hold is said at once.
func TestPicturesWaitOnThePhoneAndAreSentInTheirOrder(t *testing.T) {
	long(t, "stops and starts the desk")
	visit.Browser(t)
	book, s := phoneDesk(t)
	v := phoneOn(t, s.base)
	v.Open("/today")
	untilKept(v, 5)
	v.Open("/dogs/Moss")
	time.Sleep(time.Second) // the worker keeps the page
	s.ends(t)
	v.Open("/today")
	first := firstDog(v)
	v.Click(".day-thumb button", "Done: "+first)
	untilSays(v, ".waiting[role=alert]", "Not written down: "+first)
	for n := range 2 {
		v.Open("/dogs/Moss")
		untilSays(v, ".kept-page", "The desk does not answer")
		choosesPicture(v, 40+n)
		v.Click("form[action='/photos'] button", "Keep the picture")
		untilSays(v, ".waiting[role=alert]", fmt.Sprintf("%d waiting. Not written down: %s; Not saved: a picture of Moss", n+2, first))
	}
	v.Shot("offline-pictures-390")
	v.Open("/today")
	untilSays(v, ".waiting[role=alert]", "3 waiting. ")
	files := `(async () => { const db = await new Promise((d) => { const a = indexedDB.open("desk-files", 1); a.onsuccess = () => d(a.result) });
		const n = await new Promise((d) => { const a = db.transaction("files").objectStore("files").count(); a.onsuccess = () => d(a.result) }); db.close(); return n })()`
	if n := visit.Ask[int](v, files); n != 2 {
		t.Fatalf("the phone keeps %d pictures", n)
	}

	s.again(t, book)
	v.Until(`document.querySelector(".waiting[role=alert]") === null && JSON.parse(localStorage.getItem("desk-waiting")).length === 0`)
	if got := worked(t, book); len(got) != 1 || !strings.HasPrefix(first, got[0]) {
		t.Errorf("the book has the work of %q", got)
	}
	v.Open("/dogs/Moss")
	if n := visit.Ask[int](v, `(async () => (await Promise.all([...document.querySelectorAll(".photos img")].map((i) => fetch(i.src)))).filter((a) => a.ok).length)()`); n != 2 {
		t.Errorf("the book has %d pictures", n)
	}
	if n := visit.Ask[int](v, files); n != 0 {
		t.Errorf("the phone still keeps %d pictures", n)
	}
	_, out, _ := program(context.Background(), "history", "--book", book) // the newest first
	if at := regexp.MustCompile("(?s)picture.*picture.*" + regexp.QuoteMeta(strings.Fields(first)[0])).FindString(out); at == "" {
		t.Errorf("the history has %q", out)
	}

	visit.Ask[bool](v, `(async () => { for (let n = 0; n < 20; n++) await deskFiles.keep("k" + n, new File(["x"], "x.jpg")); return true })()`)
	if visit.Ask[bool](v, `deskFiles.keep("one more", new File(["x"], "x.jpg"))`) || visit.Ask[int](v, files) != 20 {
		t.Error("there is no bound to the pictures that a phone keeps")
	}
	forgiveAClosedDesk(v)
	v.Forgive("ERR_CONNECTION")
	v.Quiet()
}

// forgiveAClosedDesk lets a page complain of what it asked a desk for that was closed: its stream, its worker and what belongs to these.
func forgiveAClosedDesk(v *visit.Visit) {
	for _, said := range []string{"Failed to load resource", "/progress", "from the Manifest", "fetching the script"} {
		v.Forgive(said)
	}
}
