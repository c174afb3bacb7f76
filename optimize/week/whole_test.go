package week

import (
	"math"
	"slices"
	"testing"
)

// oneDay is a week of one day with one pair of hands, free for so many minutes, and one session of parts of so many minutes.
func oneDay(free float64, parts ...float64) *Problem {
	p := &Problem{
		Days: 1, Apart: 2, BreakAfter: 50, Break: 10, Past: 5,
		Hands: []Hands{{
			Does: Kind(0) | Kind(1) | SkillSetUp | SkillDuties,
			Days: []HandsDay{{Strip: 600, Stretches: []Stretch{{Start: 540, Minutes: free}}}},
		}},
		Dogs: []Dog{{Days: []DogDay{{There: true, Longest: 600, With: -1}}}},
	}
	s := Session{SetUp: 10}
	for _, m := range parts {
		s.Parts = append(s.Parts, Part{Minutes: m, Value: m})
	}
	p.Sessions = []Session{s}
	return p
}

// pieces are the minutes of a session's parts between breaks.
func pieces(t *testing.T, p *Problem) (all [][]float64) {
	t.Helper()
	r, err := Solve(p, DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range r.Lines {
		for _, it := range l.Items {
			if it.Session >= 0 {
				var now []float64
				for _, d := range it.Parts {
					now = append(now, math.Round(d.Minutes))
				}
				all = append(all, now)
			}
		}
	}
	return all
}

func TestBreaksFallBetweenAreasWhereThereIsTime(t *testing.T) {
	for _, c := range []struct {
		free  float64
		parts []float64
		want  [][]float64
	}{
		{300, []float64{30, 30, 30}, [][]float64{{30}, {30}, {30}}},
		{300, []float64{20, 25, 30}, [][]float64{{20, 25}, {30}}},
		{300, []float64{60, 20}, [][]float64{{50}, {10, 20}}}, // longer than hands pull without a rest
		{300, []float64{20, 60}, [][]float64{{20}, {50}, {10}}},
		{110, []float64{30, 30, 30}, [][]float64{{30, 20}, {10, 30}}}, // no time for a second break
	} {
		got := pieces(t, oneDay(c.free, c.parts...))
		if !slices.EqualFunc(got, c.want, func(a, b []float64) bool { return slices.Equal(a, b) }) {
			t.Errorf("%v in %v minutes: %v, want %v", c.parts, c.free, got, c.want)
		}
	}
}

// Nobody rests before the last minutes of a session: the break comes after them.
func TestAFewMinutesThatAreLeftOfASessionAreDoneBeforeTheBreak(t *testing.T) {
	for _, c := range []struct {
		free  float64
		parts []float64
		want  [][]float64
	}{
		{300, []float64{54}, [][]float64{{54}}},
		{300, []float64{30, 21, 4}, [][]float64{{30, 21, 4}}},
		{300, []float64{30, 26}, [][]float64{{30}, {26}}},
		{300, []float64{50, 50, 4}, [][]float64{{50}, {50, 4}}},
		{300, []float64{56}, [][]float64{{50}, {6}}},
		{120, []float64{40, 25, 28}, [][]float64{{40}, {25, 28}}}, // no time for a second break
	} {
		got := pieces(t, oneDay(c.free, c.parts...))
		if !slices.EqualFunc(got, c.want, func(a, b []float64) bool { return slices.Equal(a, b) }) {
			t.Errorf("%v in %v minutes: %v, want %v", c.parts, c.free, got, c.want)
		}
	}
	p := oneDay(300, 54)
	p.Dogs = append(p.Dogs, p.Dogs[0])
	second := p.Sessions[0]
	second.Dog, p.Sessions[0].Urgency = 1, 1
	p.Sessions = append(p.Sessions, second)
	r, err := Solve(p, DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	var got []int
	for _, it := range r.Lines[0].Items {
		got = append(got, it.Session)
	}
	if want := []int{0, -1, 1}; !slices.Equal(got, want) {
		t.Errorf("sessions %v with -1 for a break, want %v", got, want)
	}
}

// A break that a session needs soon comes before its set-up, and none comes where the session ends within its time.
func TestNobodyRestsBetweenASetUpAndItsSession(t *testing.T) {
	for _, c := range []struct {
		first, second []float64
		want          [][]float64 // set-up and pulling between breaks
	}{
		{[]float64{27}, []float64{36, 17}, [][]float64{{10, 27}, {10, 36, 17}}},
		{[]float64{50}, []float64{60}, [][]float64{{10, 50}, {10, 50}, {10}}},
		{[]float64{11}, []float64{20, 21}, [][]float64{{10, 11, 10, 20, 21}}},
		{[]float64{30}, []float64{15, 30}, [][]float64{{10, 30}, {10, 15, 30}}},
	} {
		p := oneDay(400, c.first...)
		p.Dogs = append(p.Dogs, p.Dogs[0])
		second := Session{Dog: 1, SetUp: 10}
		for _, m := range c.second {
			second.Parts = append(second.Parts, Part{Minutes: m, Value: m})
		}
		p.Sessions[0].Urgency = 1
		p.Sessions = append(p.Sessions, second)
		r, err := Solve(p, DefaultOptions())
		if err != nil {
			t.Fatal(err)
		}
		got := [][]float64{nil}
		for _, it := range r.Lines[0].Items {
			if it.Session < 0 {
				got = append(got, nil)
				continue
			}
			now := &got[len(got)-1]
			if it.SetUp > 0 {
				*now = append(*now, it.SetUp)
			}
			for _, d := range it.Parts {
				*now = append(*now, math.Round(d.Minutes))
			}
		}
		if !slices.EqualFunc(got, c.want, func(a, b []float64) bool { return slices.Equal(a, b) }) {
			t.Errorf("%v and %v: %v, want %v", c.first, c.second, got, c.want)
		}
	}
}

// A dog that is on the table has its duties done before it is taken down; those of other dogs come after all sessions.
func TestDutiesFollowTheSessionOfTheirDog(t *testing.T) {
	p := oneDay(300, 20)
	p.Dogs = append(p.Dogs, p.Dogs[0], p.Dogs[0])
	second := p.Sessions[0]
	second.Dog, p.Sessions[0].Urgency = 1, 1
	p.Sessions = append(p.Sessions, second)
	for _, dog := range []int{2, 1, 0, 0} {
		p.Duties = append(p.Duties, Duty{Dog: dog, Minutes: 10, Value: 4, Days: []bool{true}})
	}
	r, err := Solve(p, DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	var dogs []int
	for _, it := range r.Lines[0].Items {
		switch {
		case it.Session >= 0:
			dogs = append(dogs, p.Sessions[it.Session].Dog)
		case it.Duty >= 0:
			dogs = append(dogs, p.Duties[it.Duty].Dog)
		}
	}
	if want := []int{0, 0, 0, 1, 1, 2}; len(r.Lines) != 1 || !slices.Equal(dogs, want) {
		t.Errorf("the dogs come in order %v, want %v", dogs, want)
	}
}

func TestAPartIsNotDoneOnADayOnWhichItIsBarred(t *testing.T) {
	p := oneDay(300, 30, 20)
	p.Sessions[0].Parts[0].Barred = []bool{true}
	if got := pieces(t, p); len(got) != 1 || !slices.Equal(got[0], []float64{20}) {
		t.Errorf("%v", got)
	}
	p.Sessions[0].Parts[1].Barred = []bool{true}
	if got := pieces(t, p); len(got) != 0 {
		t.Errorf("all is barred: %v", got)
	}
}

func TestWorkIsGivenToTheHandsThatMayDoLeast(t *testing.T) {
	p := oneDay(300, 20, 20)
	p.Sessions[0].Parts[1].Kind = 1
	p.Hands[0].Dear = 0.0005
	p.Hands = append(p.Hands, Hands{Does: Kind(1) | SkillDuties, Days: []HandsDay{{Strip: 600, Stretches: []Stretch{{Start: 540, Minutes: 240}}}}})
	r, err := Solve(p, DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	if by := r.Sessions[0].By; !slices.Equal(by, []int{0, 1}) {
		t.Errorf("by hands %v, want 0 and 1", by)
	}
}
