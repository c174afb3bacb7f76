package patterns

import (
	"testing"
	"time"

	"tuckup/kennel"
)

// What is seen of a coat is what the coat then is: on every area of every pattern, in every state, whatever is seen of the others.
func TestACoatAsSeenIsInTheStatesThatWereSeen(t *testing.T) {
	ps, err := Builtin()
	if err != nil {
		t.Fatal(err)
	}
	today := kennel.NewDate(2027, time.January, 6)
	states := []kennel.State{kennel.StateComingIn, kennel.StateInCoat, kennel.StateGoingOver, kennel.StateBlown}
	for _, name := range ps.Names() {
		p := ps[name]
		for turn := range states {
			seen := map[kennel.AreaName]kennel.State{}
			if n := len(p.SeenAreas()); n != 5 {
				t.Errorf("%s has %d areas to look at", name, n)
			}
			for i, a := range p.SeenAreas() {
				seen[a] = states[(i+turn)%len(states)]
			}
			dog := kennel.UsualDog()
			dog.Name, dog.Pattern = "Moss", name
			dog.All, dog.Areas = p.CoatAsSeen(seen, today)
			for _, wrong := range kennel.Problems(kennel.Kennel{Dogs: []kennel.Dog{dog}}, ps) {
				t.Errorf("%s: %v", name, wrong)
			}
			coat, err := kennel.NewDogCoat(dog, p, today.Monday())
			if err != nil {
				t.Fatal(err)
			}
			for _, a := range coat.Areas {
				state := a.Rule.State(a.Curve, 0)
				if a.Kept {
					if state != kennel.StateInCoat {
						t.Errorf("%s: kept %s is %s", name, a.Name, state)
					}
					continue
				}
				if want, asked := seen[a.Name]; asked && state != want {
					t.Errorf("%s: the %s was seen %s and is %s", name, a.Name, want, state)
				}
			}
		}
	}
}

// Every area that is pulled takes its hair from one that is looked at.
func TestEveryAreaIsLikeOneThatIsLookedAt(t *testing.T) {
	ps, err := Builtin()
	if err != nil {
		t.Fatal(err)
	}
	today := kennel.NewDate(2027, time.January, 6)
	for _, name := range ps.Names() {
		p := ps[name]
		all := func(s kennel.State) map[kennel.AreaName]kennel.State {
			seen := map[kennel.AreaName]kennel.State{}
			for _, a := range p.SeenAreas() {
				seen[a] = s
			}
			return seen
		}
		for _, s := range []kennel.State{kennel.StateInCoat, kennel.StateBlown} {
			dog := kennel.UsualDog()
			dog.Pattern = name
			dog.All, dog.Areas = p.CoatAsSeen(all(s), today)
			coat, err := kennel.NewDogCoat(dog, p, today.Monday())
			if err != nil {
				t.Fatal(err)
			}
			for _, a := range coat.Areas {
				if got := a.Rule.State(a.Curve, 0); !a.Kept && got != s {
					t.Errorf("%s: all is seen %s, the %s is %s", name, s, a.Name, got)
				}
			}
		}
	}
}
