package main

import (
	"context"
	"encoding/json"
	"strings"
	"testing"

	"tuckup/reports/desk/visit"
)

// done is one line of work as the list has it.
type doneLine struct {
	Dog     string
	Minutes float64
	Stopped bool
	Areas   []struct {
		Area  string
		Share float64
	}
}

// lastDone is what was written down last.
func lastDone(t *testing.T, book string) doneLine {
	t.Helper()
	code, out, said := program(context.Background(), "work", "list", "--book", book, "--format", "json")
	var list []doneLine
	if err := json.Unmarshal([]byte(out), &list); code != codeDone || err != nil || len(list) == 0 {
		t.Fatal(code, err, said, out)
	}
	return list[0]
}

// The clock starts with the first tap, runs on over pages that are opened in between, and fills in the minutes; a clock that was begun
// at the end of the work, or forgotten, fills in nothing.
func TestTheClockFillsInTheMinutes(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	book, s := phoneDesk(t)
	v := phoneOn(t, s.base)
	v.Shot("wet-card-390")
	planned := visit.Ask[float64](v, `Number(document.querySelector("[data-timer]").dataset.planned)`)
	v.Click(".did label", "less")
	v.Until(`document.querySelector("[data-timer] output").innerText.includes("The clock runs: 0 min")`)
	shift := func(minutes string) {
		visit.Ask[bool](v, `(() => { const c = JSON.parse(localStorage.getItem("desk-clock")); c.at -= `+minutes+` * 60000; localStorage.setItem("desk-clock", JSON.stringify(c)); return true })()`)
	}
	minutes := func() string { return visit.Ask[string](v, `document.querySelector("[data-timer] input").value`) }
	shift("1")
	v.Open("/week")
	v.Open("/today")
	if got := minutes(); got != "" || !strings.Contains(v.Says(), "min as planned are written down unless you change them") {
		t.Errorf("a clock of a minute fills in %q", got)
	}
	shift("29")
	v.Open("/today")
	if got := minutes(); got != "30" {
		t.Errorf("after half an hour of %v planned the field holds %q", planned, got)
	}
	v.Click("[data-clock]", "Hold the clock")
	shift("200") // while it is held
	v.Open("/today")
	if got := minutes(); got != "30" {
		t.Errorf("held, it holds %q", got)
	}
	v.Click("[data-timer] button", "5 minutes more")
	if got := minutes(); got != "35" {
		t.Errorf("a tap on more makes it %q", got)
	}
	v.Shot("wet-clock-390")
	dog := firstDog(v)
	v.Leaves(func() { v.Type("[data-timer] input", "36\r") }) // the enter key writes it down as done
	if w := lastDone(t, book); w.Dog != dog || w.Minutes != 36 || w.Stopped {
		t.Errorf("written down: %+v", w)
	}
	if kept := visit.Ask[string](v, `String(localStorage.getItem("desk-clock"))`); kept != "null" {
		t.Errorf("the clock still runs: %s", kept)
	}
	v.Quiet()
}

// Stopped after an area is one tap on the card; on the page of the work shares are stepped without asking the desk.
func TestStoppedAfterAnAreaAndStepsOnAPhone(t *testing.T) {
	long(t, "opens a browser on a string that is planned")
	visit.Browser(t)
	book, s := phoneDesk(t)
	n := between(t, s.base)
	v := phoneOn(t, n.URL)
	dog := firstDog(v)
	areas := visit.Ask[int](v, `document.querySelectorAll(".task:has([data-timer]) details[open] .areas li").length`)
	if areas < 2 {
		t.Fatalf("%d areas: %s", areas, v.Says())
	}
	v.Leaves(func() { v.Click(".did button", "after") })
	untilSays(v, ".day-thumb .now", dog+" written down")
	untilSays(v, ".left", dog+": what is left")
	if w := lastDone(t, book); w.Dog != dog || !w.Stopped || len(w.Areas) != 1 {
		t.Errorf("written down: %+v", w)
	}
	v.Shot("wet-stopped-390")
	v.Open("/work?dog=" + dog + "&on=2027-01-04&hands=" + visit.Ask[string](v, `document.querySelector("[name=hands]").value`))
	n.do("drop") // nothing is sent by a step
	field := `document.querySelector(".share.planned input").value`
	v.Type(".share.planned input", "1 in 17")
	v.Click(".steps button", "more of the")
	if got := visit.Ask[string](v, field); got != "1 in 16" {
		t.Errorf("more than 1 in 17 is %q", got)
	}
	v.Type(".share.planned input", "0,125")
	v.Click(".steps button", "less of the")
	if got := visit.Ask[string](v, field); got != "1 in 9" {
		t.Errorf("less than an eighth is %q", got)
	}
	v.Click(".after button", "stopped after")
	if got := visit.Ask[string](v, `[...document.querySelectorAll(".share input")].map(f => f.value).join("|")`); !strings.HasPrefix(got, "1 in 9|0|") {
		t.Errorf("the fields hold %q", got)
	}
	v.Shot("wet-steps-390")
	v.Quiet()
}
