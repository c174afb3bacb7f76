package desk

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/filled"
)

// filledRoom is a desk on a book in which every field of the kennel is set. It plans nothing.
func filledRoom(t *testing.T, round int) *room {
	t.Helper()
	k, err := filled.Kennel(round)
	if err != nil {
		t.Fatal(err)
	}
	r := open(t, kennel.Kennel{})
	r.hold = make(chan struct{})
	r.change(func(s *book.State) { s.Replace(k, monday) })
	return r
}

func dogForm(do string) func(*room) url.Values {
	return func(r *room) url.Values {
		return r.get(dogPath(r.state().Kennel.Dogs[0].Name)).form("main", do)
	}
}

func showForm(r *room) url.Values {
	form := r.get("/shows?show="+url.QueryEscape(showKey(r.state().Kennel.Shows[0]))).form("section[aria-labelledby=edit]", "try")
	form.Set("do", "save")
	return form
}

func handsForm(r *room) url.Values { return r.get("/hours").form("main", "save") }

// A form that is sent as it was shown changes nothing.
func TestAFormSavedAsItWasShownLosesNothing(t *testing.T) {
	for name, form := range map[string]struct {
		page string
		of   func(*room) url.Values
	}{
		"dog": {dogPath("Sorrel"), dogForm("facts")}, "show": {"/shows", showForm}, "hands": {"/hours", handsForm},
	} {
		r := filledRoom(t, 0)
		was := r.state()
		r.send(form.page, form.of(r))
		for _, lost := range filled.Differences(was, r.state()) {
			t.Errorf("the form of a %s: %s", name, lost)
		}
	}
}

// Every field that a form is about comes into the book: what another kennel's form holds makes this kennel's thing the same.
func TestEveryFieldOfAFormIsSaved(t *testing.T) {
	other := filledRoom(t, 1)
	want := other.state().Kennel
	named := func(form url.Values, more ...string) url.Values {
		for i := 0; i < len(more); i += 2 {
			form.Set(more[i], more[i+1])
		}
		return form
	}
	sent := func(page string, form url.Values, r *room) kennel.Kennel {
		form.Set("version", fmt.Sprint(r.version()))
		r.send(page, form)
		return r.state().Kennel
	}
	left := func(name string, was, is any, notCarried map[string]string) {
		t.Helper()
		for _, lost := range filled.Left(filled.Differences(was, is), notCarried) {
			t.Errorf("the form of a %s: %s", name, lost)
		}
	}

	r := filledRoom(t, 0)
	got := sent(dogPath("Sorrel"), dogForm("facts")(other), r)
	left("dog", want.Dogs[0], got.Dogs[0], map[string]string{
		"Pattern": "is chosen with the dog and stays", "All": "has a form of its own", "Areas": "has a form of its own", "Duties": "has a form of its own", "Spells": "has a form of its own", "Outlines": "has a form of its own",
		"Here[0]": "the form is about the last run of days", "Here[1].Why": "the form keeps the note that is there",
	})

	r = filledRoom(t, 0)
	form := named(showForm(other), "was", showKey(r.state().Kennel.Shows[0]))
	form["dogs"] = []string{"Moss"}
	got = sent("/shows", form, r)
	want.Shows[0].Dogs = []string{"Moss"}
	left("show", want.Shows[0], got.Shows[0], map[string]string{"Away.Why": "the form keeps the note that is there"})

	r = filledRoom(t, 0)
	got = sent("/hours", named(handsForm(other), "was", "Handler"), r)
	left("pair of hands", want.Hands[0], got.Hands[0], map[string]string{"Away": "has a form of its own"})

	r = filledRoom(t, 0)
	for _, s := range want.Hands[0].Away {
		form := named(r.get("/hours").form("main", "away"), "from", s.From.String(), "to", s.To.String(), "why", s.Why)
		got = sent("/hours", form, r)
	}
	left("run of days away", want.Hands[0].Away, got.Hands[0].Away[2:], nil)

	r = filledRoom(t, 0)
	dog := want.Dogs[0]
	for _, a := range append([]kennel.AreaCoat{{Layers: dog.All}}, dog.Areas...) {
		words := make([]string, len(a.Layers))
		for i, l := range a.Layers {
			words[i] = fmt.Sprintf("%g %s", l.Share, l.Pulled)
		}
		got = sent(dogPath("Sorrel"), named(dogForm("coat")(r), "area", string(a.Area), "coat", strings.Join(words, " ")), r)
	}
	left("coat", dog.All, got.Dogs[0].All, nil)
	left("coat", dog.Areas, got.Dogs[0].Areas, nil)

	r = filledRoom(t, 0)
	for _, x := range got.Dogs[0].Duties {
		sent(dogPath("Sorrel"), url.Values{"do": {"drop-duty"}, "duty": {x.Name}}, r)
	}
	for _, x := range dog.Duties {
		when := fmt.Sprintf("every %dw", x.Every)
		if x.Before != nil {
			when = fmt.Sprintf("before %dd %dd", x.Before.From, x.Before.To)
		}
		if x.LeaveOut {
			when += " out"
		}
		got = sent(dogPath("Sorrel"), named(dogForm("duty")(r), "duty", fmt.Sprintf("%s %g %s by %s done %s", x.Name, x.Minutes, when, x.Work, x.Done)), r)
	}
	left("duty", dog.Duties, got.Dogs[0].Duties, nil)

	r = filledRoom(t, 0)
	for _, x := range got.Dogs[0].Outlines {
		sent(dogPath("Sorrel"), url.Values{"do": {"drop-outline"}, "outlined": {string(x.Area)}}, r)
	}
	for _, x := range dog.Outlines {
		got = sent(dogPath("Sorrel"), named(dogForm("outline")(r), "outlined", string(x.Area), "wanted", x.Note, "least", fmt.Sprintf("%gmm", float64(x.Least))), r)
	}
	left("outline", dog.Outlines, got.Dogs[0].Outlines, nil)

	r = filledRoom(t, 0)
	for _, x := range got.Dogs[0].Spells {
		sent(dogPath("Sorrel"), url.Values{"do": {"drop-spell"}, "from": {x.From.String()}}, r)
	}
	for _, x := range dog.Spells {
		got = sent(dogPath("Sorrel"), named(dogForm("spell")(r), "from", x.From.String(), "to", x.To.String(), "what", string(x.What),
			"growth", fmt.Sprint(x.Growth), "table", string(x.Table)), r)
	}
	left("spell", dog.Spells, got.Dogs[0].Spells, nil)
}

// A new dog has on it what its form asks for; all else is asked for on its own page.
func TestEveryFieldOfTheFormOfANewDogIsSaved(t *testing.T) {
	r := filledRoom(t, 1)
	k, err := filled.Kennel(0)
	if err != nil {
		t.Fatal(err)
	}
	want := k.Dogs[0]
	form := r.get("/string").form("main", "add")
	for name, value := range map[string]string{
		"name": "Moss", "pattern": want.Pattern, "born": want.Born.String(), "owner": want.Owner,
		"coat": fmt.Sprintf("%g %s %g %s", want.All[0].Share, want.All[0].Pulled, want.All[1].Share, want.All[1].Pulled),
	} {
		if _, asked := form[name]; !asked {
			t.Errorf("the form does not ask for %q", name)
		}
		form.Set(name, value)
	}
	r.send("/string", form)
	dogs := r.state().Kennel.Dogs
	want.Name = "Moss"
	for _, lost := range filled.Left(filled.Differences(want, dogs[len(dogs)-1]), map[string]string{
		"RingName": "on its own page", "Coat.Texture": "on its own page", "Coat.Growth": "on its own page", "Coat.Pace": "on its own page", "Coat.RollOnly": "on its own page",
		"Table": "on its own page", "Priority": "on its own page", "Here": "on its own page", "Areas": "on its own page", "Duties": "on its own page", "Spells": "on its own page", "Outlines": "on its own page",
	}) {
		t.Errorf("the form of a new dog: %s", lost)
	}
}

// A form that is sent late is refused when a field of what it is about has changed: what a form saves, its version is held to.
func TestAChangeOfAnyFieldMakesAnOpenFormStale(t *testing.T) {
	first, err := filled.Kennel(0)
	if err != nil {
		t.Fatal(err)
	}
	all, err := filled.Each[kennel.Kennel](filled.KennelValues())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		within string
		facts  func(kennel.Kennel) []fact
		not    map[string]string
	}{
		{"Dogs[0].", func(k kennel.Kennel) []fact { return dogFacts(book.State{Kennel: k}, "Sorrel") }, map[string]string{
			"Dogs[0].Pattern": "no form changes it", "Dogs[0].Here[0].From": "the form is about the last run of days", "Dogs[0].Here[0].To": "as from",
			"Dogs[0].Here[0].Why": "as from", "Dogs[0].Here[1].Why": "the form keeps it",
		}},
		{"Shows[0].", func(k kennel.Kennel) []fact { return showFacts(k, showKey(first.Shows[0])) }, map[string]string{"Shows[0].Away.Why": "the form keeps it"}},
		{"Hands[0].", func(k kennel.Kennel) []fact { return handsFacts(k, "Handler") }, nil},
	} {
		was, met := fmt.Sprint(c.facts(first)), map[string]bool{}
		for _, one := range all {
			if !strings.HasPrefix(one.Path, c.within) || fmt.Sprint(c.facts(one.Thing)) != was {
				continue
			}
			if met[one.Path] = true; c.not[one.Path] == "" {
				t.Errorf("a change of %s goes unnoticed", one.Path)
			}
		}
		for path := range c.not {
			if !met[path] {
				t.Errorf("a change of %s is noticed after all", path)
			}
		}
	}
}

// Work, and a length, are written down with every field that the forms have.
func TestEveryFieldOfWorkAndOfALengthIsWrittenDown(t *testing.T) {
	var want struct {
		Work     []kennel.Work
		Measures []kennel.Measure
	}
	if err := filled.Fill(&want, filled.RecordValues(), 0); err != nil {
		t.Fatal(err)
	}
	r := filledRoom(t, 0)
	r.turn(monday + 10)
	for _, w := range want.Work {
		form := r.get("/work?dog="+w.Dog).form("main", "save")
		for name, value := range map[string]string{
			"on": w.On.String(), "hands": w.Hands, "minutes": fmt.Sprint(w.Minutes), "duty": w.Duty, "note": w.Note,
		} {
			form.Set(name, value)
		}
		if w.Stopped {
			form.Set("stopped", "yes")
		}
		for _, a := range w.Areas {
			form.Set("share."+string(a.Area), fmt.Sprint(a.Share))
		}
		for _, x := range w.Looks {
			form.Set("seen."+string(x.Area), string(x.Long))
		}
		r.send("/work", form)
	}
	for _, m := range want.Measures {
		form := r.get(dogPath(m.Dog)).form("main", "measure")
		for name, value := range map[string]string{
			"measured": string(m.Area), "length": fmt.Sprint(float64(m.Length)) + "mm", "measured_on": m.On.String(), "note": m.Note,
		} {
			form.Set(name, value)
		}
		r.send(dogPath(m.Dog), form)
	}
	got := r.state()
	for i := range want.Work {
		slices.Reverse(want.Work[i].Areas)  // the form has the areas in their working order
		for j := range want.Work[i].Looks { // the share follows from what the coat was
			want.Work[i].Looks[j].Share = got.Work[i].Looks[min(j, len(got.Work[i].Looks)-1)].Share
		}
		for _, lost := range filled.Differences(want.Work[i], got.Work[i].Work) {
			t.Errorf("work: %s", lost)
		}
		for _, lost := range filled.Differences(want.Measures[i], got.Measures[i].Measure) {
			t.Errorf("a length: %s", lost)
		}
	}
}
