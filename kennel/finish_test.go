package kennel

import (
	"errors"
	"reflect"
	"slices"
	"testing"
)

func finishOf(name string, work Skill, minutes, from, to, lasts float64) FinishLine {
	return FinishLine{Name: name, Work: work, Minutes: figureOf(minutes), From: figureOf(from), To: figureOf(to), Lasts: figureOf(lasts)}
}

// finishPattern brings care and undercoat every week, four lines before shows and one at them.
func finishPattern() Pattern {
	p := keptPattern()
	p.Care, p.Undercoat = Care{figureOf(15), figureOf(1)}, Care{figureOf(6), figureOf(1)}
	p.Finish = []FinishLine{
		finishOf("ears", SkillClose, 10, 14, 7, 17), finishOf("feet", SkillDuties, 12, 7, 2, 10), finishOf("nails", SkillDuties, 8, 7, 2, 10),
		finishOf("legs washed", SkillFurnishings, 15, 3, 1, 3), finishOf("chalk", SkillClose, 15, 0, 0, 0),
	}
	return p
}

// What is due together and for the same hands is one visit to the table; what the kennel says of a line of its own counts, once.
func TestWhatAPatternBringsIsGathered(t *testing.T) {
	weekly, feet := BeforeShow{From: 14, To: 7}, BeforeShow{From: 7, To: 2}
	on := NewDate(2027, 1, 20)
	care := Duty{Name: "legs and beard, undercoat", Minutes: 21, Every: 1, Work: SkillFurnishings}
	ears := Duty{Name: "ears", Minutes: 10, Before: &weekly, Work: SkillClose}
	both := Duty{Name: "feet, nails", Minutes: 20, Before: &feet, Work: SkillDuties}
	wash := Duty{Name: "legs washed", Minutes: 15, Before: &BeforeShow{From: 3, To: 1}, Work: SkillFurnishings}
	nails := Duty{Name: "Nails", Minutes: 10, Every: 2}
	for name, c := range map[string]struct {
		own     []Duty
		minutes Minutes
		want    []Duty
	}{
		"nothing of its own":         {nil, 75, []Duty{care, ears, both, wash}},
		"a duty of that name":        {[]Duty{nails}, 75, []Duty{nails, care, ears, with(both, "feet", 12, 0), wash}},
		"left out":                   {[]Duty{{Name: "feet", LeaveOut: true}}, 75, []Duty{care, ears, with(both, "nails", 8, 0), wash}},
		"other minutes":              {[]Duty{{Name: "FEET", Minutes: 20}}, 75, []Duty{care, ears, with(both, "feet, nails", 28, 0), wash}},
		"one of two done":            {[]Duty{{Name: "feet", Done: on}}, 75, []Duty{care, ears, both, wash}},
		"both done":                  {[]Duty{{Name: "feet", Done: on + 1}, {Name: "nails, ears", Done: on}}, 75, []Duty{care, with(ears, "ears", 10, on), with(both, "feet, nails", 20, on), wash}},
		"short sessions":             {nil, 19, []Duty{with(care, "legs and beard", 15, 0), with(care, "undercoat", 6, 0), ears, with(both, "feet", 12, 0), with(both, "nails", 8, 0), wash}},
		"its own care of kept hair":  {[]Duty{{Name: "beard bath", Minutes: 20, Every: 2}}, 75, []Duty{{Name: "beard bath", Minutes: 20, Every: 2}, with(care, "undercoat", 6, 0), ears, both, wash}},
		"a duty of its own left out": {[]Duty{{Name: "bath", Minutes: 20, Every: 2, LeaveOut: true}}, 75, []Duty{care, ears, both, wash}},
	} {
		got := Dog{Duties: c.own, Table: Table{Minutes: c.minutes}}.WithCare(finishPattern())
		if !reflect.DeepEqual(got.Duties, c.want) {
			t.Errorf("%s: %+v\nwant %+v", name, got.Duties, c.want)
		}
		if slices.ContainsFunc(c.own, func(x Duty) bool { return x.LeaveOut }) {
			continue // the second time nothing says that it is left out
		}
		if again := got.WithCare(finishPattern()); !reflect.DeepEqual(again, got) {
			t.Errorf("%s: twice is not once: %+v", name, again.Duties)
		}
	}
}

func with(d Duty, name string, minutes Minutes, done Date) Duty {
	d.Name, d.Minutes, d.Done = name, minutes, done
	return d
}

func TestWhatIsDoneAtAShowIsNoDutyAtHome(t *testing.T) {
	d := Dog{Duties: []Duty{{Name: "chalk", Minutes: 9}}}
	if got := d.AtRing(finishPattern()); len(got) != 1 || got[0].Name != "chalk" || got[0].Minutes != 9 {
		t.Errorf("at the show: %+v", got)
	}
	d.Duties[0].LeaveOut = true
	if got := d.AtRing(finishPattern()); len(got) != 0 {
		t.Errorf("left out, at the show: %+v", got)
	}
	if names := d.WithCare(finishPattern()).DutyNames(); slices.Contains(names, "chalk") {
		t.Errorf("at home: %v", names)
	}
}

// A line can be written down by its own name, with others, or as the visit that it is planned in.
func TestLinesAreWrittenDownOneByOneOrTogether(t *testing.T) {
	d := Dog{Name: "Moss", Table: Table{Minutes: 75}}.Recordable(finishPattern())
	for said, want := range map[string]Duty{
		"feet, nails": {Name: "feet, nails", Minutes: 20}, "Feet": {Name: "feet", Minutes: 12}, "nails, fee": {}, "feet, nail": {Name: "feet, nails", Minutes: 20}, "legs and": {}, "nails, ears": {Name: "nails, ears", Minutes: 18},
		"chalk": {Name: "chalk", Minutes: 15}, "hoofs": {}, "feet, hoofs": {},
	} {
		name, minutes, err := d.MatchDuty(said)
		if name != want.Name || minutes != want.Minutes || (err == nil) != (want.Name != "") {
			t.Errorf("%q is %q, %v min, %v", said, name, minutes, err)
		}
	}
}

func TestADutyWithoutDaysMustBeOneThatThePatternBrings(t *testing.T) {
	for name, c := range map[string]struct {
		duty Duty
		want string
	}{
		"minutes of a line":      {Duty{Name: "Feet", Minutes: 9}, ""},
		"a line left out":        {Duty{Name: "feet, nails", LeaveOut: true}, ""},
		"a line that was done":   {Duty{Name: "legs and beard", Done: NewDate(2027, 1, 4)}, ""},
		"too many minutes":       {Duty{Name: "feet", Minutes: 999}, "dogs[0].duties[0].minutes"},
		"a slip of the pen":      {Duty{Name: "feets", LeaveOut: true}, "dogs[0].duties[0].name"},
		"one of two":             {Duty{Name: "feet, hoofs", Done: NewDate(2027, 1, 4)}, "dogs[0].duties[0].name"},
		"nothing said":           {Duty{Name: "feet"}, "dogs[0].duties[0]"},
		"neither":                {Duty{Name: "bath", Minutes: 9}, "dogs[0].duties[0]"},
		"nothing to be done":     {Duty{Name: "bath", Every: 2}, "dogs[0].duties[0].minutes"},
		"work that is no duty's": {Duty{Name: "bath", Minutes: 9, Every: 2, Work: SkillJacket}, "dogs[0].duties[0].work"},
	} {
		k := Kennel{Dogs: []Dog{UsualDog()}}
		k.Dogs[0].Name, k.Dogs[0].Pattern, k.Dogs[0].All, k.Dogs[0].Duties = "Moss", "kept", []Layer{{1, NewDate(2026, 12, 1)}}, []Duty{c.duty}
		err := Check(k, Patterns{"kept": finishPattern()})
		if c.want == "" {
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
			continue
		}
		var wrong *InputError
		if !errors.As(err, &wrong) || wrong.Field != c.want || wrong.Try == "" {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
	}
}
