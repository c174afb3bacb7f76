package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"

	"tuckup/reports/desk/visit"
)

// With keys alone: from the board into a week, a session to another day, then a show that is typed in, seen before and after, and taken.
func TestTheKeyboardAloneComesFromTheBoardToAShowThatIsTaken(t *testing.T) {
	long(t, "plans and waits in the browser")
	visit.Browser(t)
	s := roomyDesk(t)
	v := visit.New(t, s.base)
	v.Open("/today")
	untilPlanned(v)
	v.Open("/")
	tabTo(v, t, `e.closest(".board tbody th")`)
	v.Press(kb.ArrowRight) // this week
	v.Leaves(func() { v.Press(kb.Enter) })
	if at := v.At(); !strings.HasPrefix(at, "/week?") {
		t.Fatal("enter leads to", at)
	}
	tabTo(v, t, `e.tagName === "SUMMARY" && [...e.parentElement.querySelectorAll("option")].some(o => o.textContent.includes(": free at "))`)
	v.Press(kb.Enter)
	tabTo(v, t, `e.tagName === "SELECT"`)
	free := `document.activeElement.selectedOptions[0].textContent.includes(": free at ")`
	for n := 0; n < 40 && !visit.Ask[bool](v, free); n++ {
		v.Press([]string{kb.ArrowDown, kb.ArrowUp}[min(n/14, 1)])
	}
	if !visit.Ask[bool](v, free) {
		t.Fatal("no free day can be chosen")
	}
	tabTo(v, t, `e.tagName === "BUTTON" && e.textContent.includes("See what changes")`)
	v.Leaves(func() { v.Press(kb.Enter) })
	v.Until(`document.querySelector(".moving") !== null && /as ready for its shows as before|: ready \d+, before \d+/.test(document.querySelector(".moving").innerText)`)
	tabTo(v, t, `e.tagName === "BUTTON" && e.textContent === "Take it"`)
	v.Leaves(func() { v.Press(kb.Enter) })
	v.Until(`document.body.innerText.includes("Moved and pinned")`)

	tabTo(v, t, `e.closest("header nav") && e.textContent === "Shows"`)
	v.Leaves(func() { v.Press(kb.Enter) })
	tabTo(v, t, `e.name === "name"`)
	v.Press("Oxbow Terrier Day")
	tabTo(v, t, `e.name === "on"`)
	v.Press("02062027") // month, day and year of a browser that is in English
	if on := visit.Ask[string](v, `document.querySelector("[name=on]").value`); on != "2027-02-06" {
		t.Fatalf("the day is %q", on)
	}
	tabTo(v, t, `e.type === "checkbox" && e.closest(".boxes")`)
	v.Press(" ")
	tabTo(v, t, `e.tagName === "BUTTON" && e.textContent.includes("See what it brings")`)
	v.Leaves(func() { v.Press(kb.Enter) })
	v.Until(`document.querySelector(".draft button[value=keep]") !== null`)
	tabTo(v, t, `e.tagName === "BUTTON" && e.value === "keep"`)
	v.Leaves(func() { v.Press(kb.Enter) })
	v.Until(`document.body.innerText.includes("Taken.") && document.body.innerText.includes("Oxbow Terrier Day")`)
	v.Quiet()
}

// No page is wider than the screen, from the narrowest phone to a wide desk, in the light and in the dark.
func TestNoPageIsWiderThanTheScreen(t *testing.T) {
	long(t, "opens every page at five widths")
	visit.Browser(t)
	s := serveDesk(t, "--demo")
	v := visit.New(t, s.base)
	v.Open("/")
	v.Until(`document.querySelector(".board tbody tr") !== null`)
	paths := []string{"/help", "/why", "/begin/kennel", "/begin/dogs", "/begin/shows", "/begin/plan", "/home/Sorrel", "/letter", "/week?of=2027-02-01"}
	for path := range deskPages {
		paths = append(paths, path)
	}
	for _, path := range paths {
		v.Open(path)
		for _, width := range []int64{320, visit.Phone, 768, visit.Laptop, 1920} {
			v.Screen(width)
			if wide := visit.Ask[int64](v, "document.documentElement.scrollWidth"); wide > width {
				who := visit.Ask[string](v, fmt.Sprintf(`[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > %d + 1 && !e.closest(".scroll, .unseen")).slice(0, 3).map(e => e.outerHTML.slice(0, 120)).join("\n")`, width))
				t.Errorf("%s is %d wide on a screen of %d:\n%s", path, wide, width, who)
			}
		}
	}
}
