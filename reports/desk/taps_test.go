package desk

import (
	"net/http"
	"strings"
	"testing"

	"tuckup/kennel"
)

func TestStoppedAfterAnAreaIsOneTap(t *testing.T) {
	r := inUseOf(t, rolled())
	p, s := r.workday()
	if len(s.Areas) < 3 {
		t.Fatalf("only %d areas are planned", len(s.Areas))
	}
	form := p.form(".thumb", "tick")
	second := s.Areas[1].Area
	if n := p.Find(`button[form="` + nextForm + `"][value="stop ` + string(second) + `"]`).Length(); n != 1 {
		t.Fatalf("%d buttons stop after the %s", n, second)
	}
	form.Set("do", "stop "+string(second))
	p = r.send("/work", form)
	p.says(".left", s.Dog+": what is left")
	p.says(".left", string(s.Areas[2].Area))
	p.says(".task.done", "Stopped early after")
	w := r.state().Work[0]
	if !w.Stopped || len(w.Areas) != 2 || w.Areas[0].Share != s.Areas[0].Share || w.Areas[1].Area != second || w.Areas[1].Share != s.Areas[1].Share {
		t.Errorf("written down: %+v, planned %+v", w, s.Areas)
	}
	var whole, left kennel.Minutes
	for i, a := range s.Areas {
		whole += a.Minutes
		if i > 1 {
			left += a.Minutes
		}
	}
	planned, _ := kennel.ParseMinutes(form.Get("planned"))
	if want := planned - left; w.Minutes < want-1 || w.Minutes > want+1 || left < 2 || w.Minutes >= planned {
		t.Errorf("it took %v; %v were planned, %v of them for the areas, %v for those that were left", w.Minutes, planned, whole, left)
	}
}

func TestAnAreaIsDoneLessOrLeftInOneTap(t *testing.T) {
	r := inUseOf(t, rolled())
	p, s := r.workday()
	form := p.form(".thumb", "tick")
	less, left := s.Areas[0], s.Areas[1]
	beside := p.Find(`input[form="` + nextForm + `"][name="did.` + string(less.Area) + `"][value=less]`).Parent()
	if got := squeezed(beside); got != "less "+shareWords(less.Share/2) {
		t.Errorf("to tap stands %q", got)
	}
	form.Set("did."+string(less.Area), "less")
	form.Set("did."+string(left.Area), "left")
	form.Set("seen."+string(less.Area), "thick") // less is less, whatever was seen
	form.Set("minutes", "33")
	r.send("/work", form)
	w := r.state().Work[0]
	if w.Stopped || w.Minutes != 33 || len(w.Areas) != len(s.Areas)-1 || w.Areas[0].Share != less.Share/2 {
		t.Errorf("written down: %+v, planned %+v", w, s.Areas)
	}
	for _, a := range w.Areas {
		if a.Area == left.Area {
			t.Errorf("%v of the %s was written down, which was left", a.Share, a.Area)
		}
	}
	for _, bad := range []struct{ field, said string }{{"did." + string(less.Area), "plenty"}, {"do", "stop tail of another dog"}, {"minutes", "soon"}} {
		form.Set("minutes", "20")
		form.Set("key", "another"+bad.field)
		form.Set(bad.field, bad.said)
		if p := r.ask(http.MethodPost, "/work", form); p.status != http.StatusUnprocessableEntity || p.Find(".error").Length() == 0 {
			t.Errorf("%s %q is answered with %d", bad.field, bad.said, p.status)
		}
		form.Set("did."+string(less.Area), "less")
		form.Set("do", "tick")
	}
	if n := len(r.state().Work); n != 1 {
		t.Errorf("%d lines of work", n)
	}
}

// Without a script the desk steps shares and empties the areas behind the one that was stopped after, and writes nothing.
func TestSharesAreSteppedByTheDesk(t *testing.T) {
	r := inUseOf(t, rolled())
	p, s := r.workday()
	link, _ := p.Find(".task a[href*='dog=']").First().Attr("href")
	form := r.get(link).form("main", "save")
	first, last := s.Areas[0].Area, s.Areas[len(s.Areas)-1].Area
	field := func(p page, a kennel.AreaName) string {
		return p.Find(`[name="share.`+string(a)+`"]`).AttrOr("value", "")
	}
	form.Set("share."+string(first), "1 in 17")
	form.Set("note", "kept")
	for do, want := range map[string]string{"less": "1 in 18", "more": "1 in 16"} {
		form.Set("do", do+" "+string(first))
		p := r.ask(http.MethodPost, "/work", form)
		if got := field(p, first); p.status != http.StatusOK || got != want || p.Find("[name=note]").AttrOr("value", "") != "kept" {
			t.Errorf("%s of 1 in 17 is %q, %d", do, got, p.status)
		}
	}
	form.Set("do", "after "+string(first))
	p = r.ask(http.MethodPost, "/work", form)
	_, stopped := p.Find("[name=stopped]").Attr("checked")
	if field(p, first) != "1 in 17" || field(p, last) != "0" || !stopped {
		t.Errorf("after the %s the fields hold %q and %q", first, field(p, first), field(p, last))
	}
	if do := p.Find("main form button[name=do]").First().AttrOr("value", ""); do != "save" {
		t.Errorf("the enter key presses %q", do)
	}
	if n := len(r.state().Work); n != 0 {
		t.Errorf("%d lines of work are written", n)
	}
}

func TestTheLadderOfSharesIsReadAndWalked(t *testing.T) {
	for i, r := range ladder {
		s, err := kennel.ParseShare(r.words)
		if err != nil || shareWords(s) != shareWords(r.share) {
			t.Errorf("%q reads as %v: %v", r.words, s, err)
		}
		if i > 0 && r.share <= ladder[i-1].share {
			t.Errorf("%q is not more than %q", r.words, ladder[i-1].words)
		}
	}
	for _, c := range []struct{ said, less, more string }{
		{"1 in 17", "1 in 18", "1 in 16"},
		{"", "0", "1 in 60"},
		{"0", "0", "1 in 60"},
		{"all", "9 in 10", "all of it"},
		{"6%", "1 in 17", "1 in 16"},
		{"half", "1 in 3", "2 in 3"},
		{"1 in 3", "1 in 4", "half"},
		{"1/90", "0", "1 in 60"},
		{"plenty", "plenty", "plenty"},
	} {
		if less, more := stepped(c.said, false), stepped(c.said, true); less != c.less || more != c.more {
			t.Errorf("less than %q is %q, more is %q", c.said, less, more)
		}
	}
	if steps := (workPage{}).Steps(); strings.Count(steps, "|") != len(ladder)-1 {
		t.Error(steps)
	}
}

// Work that waited on a phone was sent from one page: the second of a dog's stretches of a day is no other version of the first.
func TestASessionAndADutyOfOnePageAreBothWrittenDown(t *testing.T) {
	r := opened(t)
	p, s := r.workday()
	session, duty := p.form(".thumb", "tick"), p.form(".thumb", "tick")
	duty.Set("duty", "nails")
	duty.Set("minutes", "10")
	duty.Set("key", "another")
	r.send("/work", session)
	r.send("/work", duty)
	if got := r.state().Work; len(got) != 2 || got[1].Duty != "nails" || got[1].Dog != s.Dog {
		t.Errorf("written down: %+v", got)
	}
	session.Set("key", "a third")
	if p := r.ask(http.MethodPost, "/work", session); p.status != http.StatusConflict {
		t.Errorf("the same session again is answered with %d", p.status)
	}
}
