package kennel

import (
	"maps"
	"slices"
	"sort"
)

// AreaName names a part of the coat that is worked as one.
type AreaName string

// The areas of a hard-coated dog.
const (
	AreaBack        AreaName = "back"
	AreaRibs        AreaName = "ribs"
	AreaSkirtLine   AreaName = "skirt line" // lower side, where the jacket meets the skirt
	AreaLoin        AreaName = "loin"
	AreaNeck        AreaName = "neck"
	AreaWithers     AreaName = "withers" // where the neck meets the shoulder
	AreaShoulder    AreaName = "shoulder"
	AreaRump        AreaName = "rump"
	AreaThigh       AreaName = "thigh"
	AreaTail        AreaName = "tail"
	AreaSkull       AreaName = "skull"
	AreaCheeks      AreaName = "cheeks"
	AreaEars        AreaName = "ears"
	AreaThroat      AreaName = "throat"
	AreaForechest   AreaName = "forechest"
	AreaFurnishings AreaName = "furnishings"
)

// AreaNames lists every area in the order in which files and reports name them.
func AreaNames() []AreaName {
	return []AreaName{
		AreaBack, AreaRibs, AreaSkirtLine, AreaLoin, AreaNeck, AreaWithers, AreaShoulder, AreaRump,
		AreaThigh, AreaTail, AreaSkull, AreaCheeks, AreaEars, AreaThroat, AreaForechest, AreaFurnishings,
	}
}

// Jacket reports whether the area is part of the body coat.
func (a AreaName) Jacket() bool {
	switch a {
	case AreaBack, AreaRibs, AreaSkirtLine, AreaLoin, AreaWithers, AreaShoulder, AreaRump:
		return true
	}
	return false
}

// Mark says how well a number is attested.
type Mark string

// The marks, from best to weakest.
const (
	MarkSeen       Mark = "seen"            // the words were read in a stored copy or excerpt of the source
	MarkWithin     Mark = "within"          // a range was seen; the value lies inside it and was chosen
	MarkSecondHand Mark = "second-hand"     // on a page that repeats it
	MarkMemory     Mark = "memory"          // recalled, not read
	MarkDerived    Mark = "derived"         // arithmetic on seen rows
	MarkPractice   Mark = "common practice" // trade knowledge with no source
)

// Figure is a number with its range, its source and its mark. Low <= Value <= High.
type Figure struct {
	Value, Low, High float64
	Source           string
	Mark             Mark
}

// Pattern is how the coat of one kind of dog behaves and is worked.
type Pattern struct {
	Name     string // as the kennel file writes it, like wire-fox-terrier
	Title    string // as people say it
	Texture  Texture
	Short    bool   // short-legged; decides only how the dog is drawn
	RollMost Figure // largest share of an area that "roll only" dogs give up in one week
	Look     Figure // minutes of looking over the whole dog, in every session
	Care     Care   // of kept hair; zero where the pattern has none
	// Undercoat is raking or carding it; zero where the pattern has none. C18 says that undercoat left in shortens how long the coat
	// lasts, and not by how much: nothing of readiness is computed from it.
	Undercoat Care
	Finish    []FinishLine // what is done before a show beside the jacket, in working order
	Pack      []string     // what is packed for such a dog when it goes to a show
	Areas     []PatternArea
}

// Care is what comes round every few weeks: washing, combing and tipping kept hair, raking undercoat.
type Care struct {
	Minutes Figure
	Every   Figure // weeks from one care to the next
}

// FinishLine is one line of what is done on a dog before a show beside its jacket.
type FinishLine struct {
	Name     string
	Work     Skill  // who may do it: hands that do close work, furnishings or duties
	Minutes  Figure // in one go
	From, To Figure // days before the show's first day; both 0 = at the show, on each of its days
	Lasts    Figure // done so many days before a show it is still right on the day; From at least
}

// AtShow reports whether the line is done at the show itself.
func (f FinishLine) AtShow() bool { return f.From.Value < 1 }

// None reports whether there is no care to take.
func (c Care) None() bool { return c.Minutes.Value <= 0 || c.Every.Value <= 0 }

// Area returns the pattern's area of that name.
func (p Pattern) Area(name AreaName) (PatternArea, bool) {
	for _, a := range p.Areas {
		if a.Name == name {
			return a, true
		}
	}
	return PatternArea{}, false
}

// PatternArea is one area of a pattern.
type PatternArea struct {
	Name        AreaName
	Work        Skill   // jacket, close or furnishings
	Kept        bool    // kept hair (legs, beard, whiskers, eyebrows): never pulled, never too long
	Weight      Figure  // part of the dog's readiness; the weights of a pattern sum to 1
	Ready       Figure  // weeks from the pull until the hair is long enough to show
	Hold        Figure  // weeks that it then stays right
	Grip        Figure  // weeks below which hair can't be gripped
	Minutes     Figure  // minutes to take the whole area down when all of its hair comes off at once
	FinishWeeks Figure  // in so many weeks before a show ...
	FinishShare Figure  // ... the area may give up only this share a week
	ShowLength  *Figure // millimetres in the show ring; nil = no published number
}

// Patterns is a set of patterns by name.
type Patterns map[string]Pattern

// Clone is a copy that shares nothing with p.
func (p Patterns) Clone() Patterns {
	all := maps.Clone(p)
	for name, of := range all {
		of.Finish, of.Pack, of.Areas = slices.Clone(of.Finish), slices.Clone(of.Pack), slices.Clone(of.Areas)
		for i, a := range of.Areas {
			if a.ShowLength != nil {
				of.Areas[i].ShowLength = new(*a.ShowLength)
			}
		}
		all[name] = of
	}
	return all
}

// Named is the name of the pattern that is meant: by its name or by its title, whatever the capitals, blanks and hyphens.
func (p Patterns) Named(said string) (name string, known bool) {
	if _, known := p[said]; known {
		return said, true
	}
	want := lettersOf(said)
	for _, n := range p.Names() {
		if want != "" && (lettersOf(n) == want || lettersOf(p[n].Title) == want) {
			return n, true
		}
	}
	return said, false
}

// NamePatterns gives dogs whose pattern is told by its title, like Irish Terrier, the name of the pattern instead.
func (k *Kennel) NamePatterns(pats Patterns) {
	for i, d := range k.Dogs {
		if name, known := pats.Named(d.Pattern); known && name != d.Pattern {
			k.Dogs = slices.Clone(k.Dogs)
			k.Dogs[i].Pattern = name
		}
	}
}

// Names lists the patterns' names, sorted.
func (p Patterns) Names() []string {
	names := make([]string, 0, len(p))
	for n := range p {
		names = append(names, n)
	}
	sort.Strings(names)
	return names
}

// ReadyOn is how many weeks after the pull the area's hair shows on a coat.
func (a PatternArea) ReadyOn(c Coat) float64 {
	if c.Growth <= 0 {
		return a.Ready.Value
	}
	return a.Ready.Value / c.Growth
}

// RuleFor is how ready the area is by what is on it, on a dog with the growth factor.
func (a PatternArea) RuleFor(growth float64) Rule {
	if a.Kept {
		return newKeptRule(a.Ready.Value, a.Hold.Value, growth)
	}
	return NewRule(a.Ready.Value, a.Hold.Value, growth)
}
