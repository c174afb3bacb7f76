package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// longSeason writes a kennel whose search takes much longer than a person waits.
func longSeason(t *testing.T) (name string) {
	t.Helper()
	const dogs, weeks = 12, 104
	var b strings.Builder
	fmt.Fprintf(&b, "kennel: Longmeadow\nplan_from: 2027-01-04\nweeks: %d\nhands:\n", weeks)
	b.WriteString("  - name: Maeve\n    hours: {mon: 4, tue: 4, wed: 4, thu: 4, fri: 4}\n")
	b.WriteString("  - name: Jonas\n    does: [jacket, furnishings]\n    hours: {mon: 3, wed: 3, fri: 3}\nshows:\n")
	for i := range 12 {
		on := time.Date(2027, 2, 20, 0, 0, 0, 0, time.UTC).AddDate(0, 0, 50*i)
		fmt.Fprintf(&b, "  - {name: Show %d, on: %s, dogs: [Dog %d]}\n", i+1, on.Format("2006-01-02"), 1+5*i%dogs)
	}
	b.WriteString("dogs:\n")
	for i := range dogs {
		fmt.Fprintf(&b, "  - name: Dog %d\n    pattern: border-terrier\n    areas:\n      all: [{share: 1.0, pulled: 2026-%02d-01}]\n", i+1, 5+i%8)
	}
	name = "longmeadow.yaml"
	if err := os.WriteFile(name, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// listener is standard error that does something once it is told of a plan worth having.
type listener struct {
	mu   sync.Mutex
	b    bytes.Buffer
	then func()
}

var worthTold = regexp.MustCompile(`planning: (-?\d+)\.\d\d points`)

// worthHaving is more points than the long season has when nothing is done: work that goes undone costs about a hundred.
const worthHaving = -40

func (l *listener) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, m := range worthTold.FindAllSubmatch(p, -1) {
		if v, _ := strconv.Atoi(string(m[1])); v >= worthHaving {
			l.then()
		}
	}
	return l.b.Write(p)
}

func (l *listener) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// stoppedOnceThereIsAPlan runs the program with a clock that hurries, and calls it off when it tells of a plan worth having.
func stoppedOnceThereIsAPlan(t *testing.T, args ...string) (code int, out, said string) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	var o bytes.Buffer
	e := &listener{then: cancel}
	var mu sync.Mutex
	clock := time.Date(2027, 1, 5, 11, 30, 0, 0, time.UTC)
	hurry := func() time.Time {
		mu.Lock()
		defer mu.Unlock()
		clock = clock.Add(10 * time.Second)
		return clock
	}
	code = newApp(&o, e, hurry).run(ctx, args)
	return code, o.String(), e.String()
}

// A person who has waited long enough presses Ctrl-C and gets the best plan so far, marked as cut short, with status 0.
func TestAnInterruptedSearchGivesThePlanItHas(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	c := exec.Command("tuckup", "plan", "--kennel", longSeason(t), "--format", "json") // TestMain has put it there
	var out bytes.Buffer
	said := &listener{then: sync.OnceFunc(func() {
		if err := c.Process.Signal(os.Interrupt); err != nil {
			t.Error(err)
		}
	})}
	c.Stdout, c.Stderr = &out, said
	if err := c.Run(); err != nil {
		t.Fatalf("ended with %v, said %q", err, said)
	}
	if !strings.Contains(said.String(), "the search was stopped; this is the best plan that it had") {
		t.Errorf("said %q", said)
	}
	var doc struct {
		Season struct{ Cut bool }
		Weeks  []struct {
			Dogs []struct{ Minutes float64 }
		}
	}
	if err := json.Unmarshal(out.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	minutes := 0.0
	for _, w := range doc.Weeks {
		for _, d := range w.Dogs {
			minutes += d.Minutes
		}
	}
	if hours := minutes / 60; !doc.Season.Cut || len(doc.Weeks) != 104 || hours < 100 {
		t.Errorf("cut %v, %d weeks with %.0f hours of pulling", doc.Season.Cut, len(doc.Weeks), hours)
	}
}

func TestEveryReportOfAnInterruptedSearchSaysThatItIs(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	file := longSeason(t)
	for _, args := range [][]string{{"plan"}, {"sheet"}, {"try", "dog", "retire", "Dog 5"}} {
		command := args[0]
		code, out, said := stoppedOnceThereIsAPlan(t, append(args, "--kennel", file)...)
		if code != codeDone || !strings.Contains(said, "the search was stopped; this is the best plan that it had") {
			t.Errorf("%s: code %d, said %q", command, code, said)
		}
		out = strings.Join(strings.Fields(out), " ")
		if !strings.Contains(out, "search was cut short") {
			t.Errorf("%s: not marked as cut short:\n%s", command, out)
		}
		if command == "plan" && !strings.Contains(out, "the search was stopped before the reason was found") {
			t.Errorf("it gives reasons that it can't know:\n%s", out)
		}
	}
}

// What was stopped is not taken.
func TestAnInterruptedPlanIsNotTaken(t *testing.T) {
	long(t, "plans whole seasons")
	inExamples(t)
	if code, _, err := program(context.Background(), "import", longSeason(t)); code != codeDone {
		t.Fatal(err)
	}
	code, out, said := stoppedOnceThereIsAPlan(t, "plan", "--accept")
	if code != codeFailed || !strings.Contains(said, "it was not taken") || out == "" {
		t.Errorf("code %d, said %q", code, said)
	}
	if _, list, _ := program(context.Background(), "history"); strings.Contains(list, "took the plan") {
		t.Errorf("the history says\n%s", list)
	}
}

// Called off before there is anything to show, a command says so and fails.
func TestAdviceThatIsCalledOffAtOnceSaysSo(t *testing.T) {
	long(t, "plans whole seasons")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if code, out, said := program(ctx, "try", "entries", "--demo"); code != codeFailed || out != "" || !strings.Contains(said, "stopped") {
		t.Errorf("code %d, wrote %q, said %q", code, out, said)
	}
}

// Where standard error is no terminal a line every ten seconds says how far the search is, and nothing before.
func TestALongSearchSaysNowAndThenHowFarItIs(t *testing.T) {
	w := &listener{then: func() {}}
	now := 0
	p := newProgress(w, false, func() float64 { return float64(now) })
	for now = range 35 {
		p.show(10, 12.5, float64(now))
		p.line()
	}
	p.end()
	want := "planning: 10.00 points, none can pass 12.50 (20.0 %), 10 s\n" +
		"planning: 10.00 points, none can pass 12.50 (20.0 %), 20 s\n" +
		"planning: 10.00 points, none can pass 12.50 (20.0 %), 30 s\n"
	if got := w.String(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
