package planned

import "tuckup/kennel"

// WayKind is how a dog's jacket is worked.
type WayKind string

// The ways in which a jacket is worked.
const (
	WayRolled   WayKind = "rolled"       // a little of the longest layer, week after week
	WayStaged   WayKind = "staged"       // whole areas taken down, one after another
	WayStripped WayKind = "stripped out" // the jacket, or what is dead of it, taken down at once
	WayRested   WayKind = "rested"       // nothing of the jacket is pulled
)

// Way is how one dog's jacket is worked over the season, and what working it the next best way would have brought.
type Way struct {
	Dog    string
	Kind   WayKind // the heaviest of Spells
	Held   bool    // the dog is held to rolling
	LetGo  bool    // little or nothing of its jacket is pulled, and by the last week it is out of coat
	Spells []Spell // in order of time; empty when nothing of the jacket is pulled
	Other  *Other  // nil where no other way was tried, or it brings the same
}

// Spell is a run of weeks in which a jacket is worked one way.
type Spell struct {
	Kind     WayKind
	From, To kennel.Date // Monday of the first week and Sunday of the last, no day before today
}

// Other is what another way of working a dog's jacket would bring, in the same minutes, at the shows where it differs most.
type Other struct {
	Kind  WayKind     // rolled or stripped out
	From  kennel.Date // of stripping: its first day
	Shows []OtherShow // by date; at most two, none where it differs at none
	// Weeks in coat, with the plan and with the other way.
	InCoat, OtherInCoat int
}

// OtherShow is a dog at a show with the plan and when its jacket is worked another way.
type OtherShow struct {
	Show  string
	On    kennel.Date
	Score kennel.Score // with the plan
	Other kennel.Score
}
