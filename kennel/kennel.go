// Package kennel holds the trade: the string of dogs, their coats, the patterns, the shows, the hours and the
// rules that say how ready a coat is. It is pure: it reads no file, no clock and writes no log, and imports
// nothing else of the project.
package kennel

// Share is a part of an area's hairs, 0 to 1 ("1 in 17 hairs" is 0.059).
type Share float64

// Minutes is a stretch of work in minutes.
type Minutes float64

// Hours is a stretch of work in hours.
type Hours float64

// Weeks is a whole number of weeks.
type Weeks int

// Millimetres is a length of hair.
type Millimetres float64

// Score is a readiness, 0 (out of coat) to 100 (right everywhere).
type Score float64

// ReadyScore is the readiness from which a coat counts as in coat: the trade's "fit to show". Common practice,
// no source; the checks of the published calendars in testdata use the same value.
const ReadyScore Score = 80

// Units is how lengths are shown to people; inside, lengths are always millimetres.
type Units string

// The units that a kennel may choose for display.
const (
	UnitsMillimetres Units = "mm"
	UnitsInches      Units = "in"
)

// Kennel is everything that the handler has told: who works, which dogs, which shows.
type Kennel struct {
	Name     string
	PlanFrom Date   // first day to plan; zero means today
	Weeks    Weeks  // length of the season planned, 4 to 104; zero means the configured default
	TimeZone string // IANA name; empty means the machine's zone
	Units    Units
	Dates    DateOrder // of the pages; empty = as they are anyway
	Hands    []Hands
	Dogs     []Dog
	Shows    []Show
}

// Skill is a kind of work that a pair of hands may be let near.
type Skill string

// The kinds of work. Every area of a pattern names one of the first three; duties are baths, nails and the like.
const (
	SkillJacket      Skill = "jacket"
	SkillClose       Skill = "close"
	SkillFurnishings Skill = "furnishings"
	SkillDuties      Skill = "duties"
)

// Skills lists all kinds of work in the order in which the kennel file writes them.
func Skills() []Skill { return []Skill{SkillJacket, SkillClose, SkillFurnishings, SkillDuties} }

// Hands is one pair of hands: a person who works on the dogs.
type Hands struct {
	Name           string
	Hours          [DaysAWeek]Hours // grooming hours by weekday, Monday first; 0 = does not work that day
	StripHoursADay Hours            // most hours of pulling a day (hand load); zero means the configured default
	Does           []Skill          // empty means all
	Away           []Span
}

// Can reports whether these hands are let near work of the kind.
func (h Hands) Can(s Skill) bool {
	if len(h.Does) == 0 {
		return true
	}
	for _, d := range h.Does {
		if d == s {
			return true
		}
	}
	return false
}

// Dog is one dog of the string.
type Dog struct {
	Name     string
	Pattern  string // name of a coat pattern
	Born     Date   // zero = not told
	Owner    string
	RingName string // the name that it is registered and shown under; empty = not given
	Coat     Coat
	Table    Table
	Priority float64    // weight of this dog against the others, > 0; 1 is usual
	Here     []Span     // when the dog is in hand; empty = always
	All      []Layer    // what is on every area that Areas does not name
	Areas    []AreaCoat // what is on single areas, in the order of AreaNames
	Duties   []Duty
	Spells   []Spell   // when it is not as usual: in season, ill
	Outlines []Outline // what is wanted of single areas, in the order of AreaNames
}

// Texture is how a coat's hair is.
type Texture string

// The textures. They decide the tool and whether a lifting bath gains anything.
const (
	TextureHard Texture = "hard"
	TextureFine Texture = "fine"
	TextureSoft Texture = "soft"
)

// Coat is what is known of one dog's hair.
type Coat struct {
	Texture  Texture
	Growth   float64 // growth factor, 0.5 to 2: divides the pattern's ready and hold weeks
	Pace     float64 // work factor, 0.25 to 4: multiplies the pattern's minutes
	RollOnly bool    // never more than the pattern's roll_most share of an area in one week
}

// Table is what one dog stands for on the table.
type Table struct {
	SetUp   Minutes // per session: fetching, brushing out, powder; 0 to 60
	Minutes Minutes // longest session with its set-up, 10 to 300
	AWeek   int     // most sessions a week, 0 to 7
}

// Layer is hair of one age on one area.
type Layer struct {
	Share  Share // of the area's hairs
	Pulled Date  // when its hair was last pulled
}

// AreaCoat is what is on one area. The shares sum to 1 at the most; what is missing from 1 is hair older than
// any pull that is known of.
type AreaCoat struct {
	Area   AreaName
	Layers []Layer
}

// Duty is timed work on a dog that is not pulling. At most one of Every and Before is set. With neither it says something of
// what the dog's pattern brings under that name: other minutes, when it was done, or that the dog has none of it.
type Duty struct {
	Name     string      // several lines of the pattern that are done in one go are one name, with ", " between
	Minutes  Minutes     // in one go; 0 = as the pattern says
	Every    Weeks       // once in so many weeks, 1 to 52
	Before   *BeforeShow // once before each show of the dog
	Work     Skill       // who may do it: hands that do close work, furnishings or duties; empty = by its name
	LeaveOut bool        // it is not done on this dog
	Done     Date        // the last day on which it was done, beside the records of a book; zero = not said
}

// Timed reports whether the duty says itself when it is due.
func (d Duty) Timed() bool { return d.Every > 0 || d.Before != nil }

// BeforeShow is a window counted back from a show's first day: from From days before it to To days before it,
// From >= To >= 0.
type BeforeShow struct{ From, To int }

// Show is a date at which dogs are judged.
type Show struct {
	Name         string
	On           Date
	Days         int     // length in days, 1 to 14
	EntriesClose Date    // zero = not told
	Weight       float64 // how much it matters, > 0
	Chance       float64 // 1 = entered; below 1 = hoped for
	Away         *Span   // days on which the first pair of hands and the dogs shown are travelling; nil = show days only
	Dogs         []string
}

// Entered reports whether the show is certain.
func (s Show) Entered() bool { return s.Chance >= 1 }

// Last is the show's last day.
func (s Show) Last() Date { return s.On.AddDays(max(s.Days, 1) - 1) }

// AwayDays is the span in which the first pair of hands and the dogs shown are not at the table.
func (s Show) AwayDays() Span {
	if s.Away != nil {
		return *s.Away
	}
	return Span{From: s.On, To: s.Last(), Why: s.Name}
}

// Has reports whether the dog is named for the show.
func (s Show) Has(dog string) bool {
	for _, d := range s.Dogs {
		if d == dog {
			return true
		}
	}
	return false
}
