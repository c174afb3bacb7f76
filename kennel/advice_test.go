package kennel

import (
	"strings"
	"testing"
)

func TestToolSparesHairThatBreaks(t *testing.T) {
	hard := plainPattern()
	fine := hard
	fine.Texture = TextureFine
	adult, puppy := NewDate(2024, 5, 2), NewDate(2026, 5, 2)
	for _, c := range []struct {
		name  string
		dog   Dog
		p     Pattern
		knife bool
	}{
		{"hard adult", Dog{Born: adult}, hard, true},
		{"birth not told", Dog{}, hard, true},
		{"puppy", Dog{Born: puppy}, hard, false},
		{"fine pattern", Dog{Born: adult}, fine, false},
		{"soft dog of a hard pattern", Dog{Born: adult, Coat: Coat{Texture: TextureSoft}}, hard, false},
		{"hard dog of a fine pattern", Dog{Born: adult, Coat: Coat{Texture: TextureHard}}, fine, true},
		{"no texture anywhere", Dog{Born: adult}, Pattern{}, true},
	} {
		got := Tool(c.dog, c.p, week0)
		if knife := !strings.Contains(got, "no metal knife"); knife != c.knife || !strings.Contains(got, "fingers") {
			t.Errorf("%s: %q", c.name, got)
		}
	}
}

func TestPuppyUntilItsFirstBirthday(t *testing.T) {
	d := Dog{Born: NewDate(2026, 3, 20)}
	if !d.Puppy(NewDate(2027, 3, 19)) || d.Puppy(NewDate(2027, 3, 20)) {
		t.Error("the year ends on the birthday")
	}
	leap := Dog{Born: NewDate(2028, 2, 29)}
	if !leap.Puppy(NewDate(2029, 2, 28)) || leap.Puppy(NewDate(2029, 3, 1)) {
		t.Error("born on a leap day, a year old on 1 March")
	}
}

// C15 (common practice) and D3 (Kennel Club show regulations, preparation for exhibition; seen).
func TestLiftKnowsTheShowAndTheTexture(t *testing.T) {
	hard := plainPattern()
	soft := hard
	soft.Texture = TextureSoft
	sunday := week0.AddDays(6)
	for _, c := range []struct {
		name         string
		p            Pattern
		show         Date
		bath, warned bool
	}{
		{"no show", hard, 0, true, false},
		{"show past", hard, week0.AddDays(-1), true, false},
		{"show this week", hard, week0.AddDays(2), false, false},
		{"14 days after the week", hard, sunday.AddDays(14), false, false},
		{"15 days after the week", hard, sunday.AddDays(15), false, true},
		{"21 days after the week", hard, sunday.AddDays(21), false, true},
		{"22 days after the week", hard, sunday.AddDays(22), true, false},
		{"soft coat without a show", soft, 0, false, false},
	} {
		got := Lift(Dog{}, c.p, c.show, week0)
		if strings.HasPrefix(got, "lifting bath") != c.bath || strings.Contains(got, "may not lie flat") != c.warned {
			t.Errorf("%s: %q", c.name, got)
		}
		if !strings.Contains(got, "powder") {
			t.Errorf("%s: %q names no other way", c.name, got)
		}
		if !c.bath && !c.warned && !strings.Contains(got, "out before the ring") {
			t.Errorf("%s: %q leaves the powder in", c.name, got)
		}
	}
}

func TestALookOverIsNoMoreThanAFifthOfASession(t *testing.T) {
	p := Pattern{Look: Figure{Value: 12}}
	for longest, want := range map[Minutes]Minutes{75: 22, 60: 22, 40: 18, 30: 16, 0: 22} {
		if got := (Dog{Table: Table{SetUp: 10}}).SessionSetUp(p, longest); got != want {
			t.Errorf("%v of a session of %v minutes are not pulling, want %v", got, longest, want)
		}
	}
}
