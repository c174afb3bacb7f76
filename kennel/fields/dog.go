package fields

import (
	"fmt"

	"tuckup/kennel"
)

// Areas are the two fields that hold what is on a dog.
type Areas struct {
	All   *[]kennel.Layer
	Named *[]kennel.AreaCoat
}

// Dog is what people give of a dog.
var Dog = Thing[kennel.Dog]{
	Is: "a dog", Usual: kennel.UsualDog,
	Fields: []Field[kennel.Dog]{
		{Key: "name", Says: "its name", Need: "the dog's name", Label: "Name", At: func(x *kennel.Dog) any { return &x.Name }},
		{
			Key: "pattern", Says: "its coat pattern: one that `tuckup pattern list` names", Need: "one that `tuckup pattern list` names",
			At: func(x *kennel.Dog) any { return &x.Pattern },
		},
		{Key: "born", Says: "its birthday; sessions are short below 12 months", Label: "Born", At: func(x *kennel.Dog) any { return &x.Born }},
		{
			Key: "ring_name", Says: "the name that it is registered and shown under; reports to its owner have it", Range: letters(kennel.LongestName),
			Label: "Ring name", At: func(x *kennel.Dog) any { return &x.RingName },
		},
		{Key: "owner", Says: "who gets the account of its hours", Label: "Owner", At: func(x *kennel.Dog) any { return &x.Owner }},
		{
			Key: "coat.texture", Says: "`hard`, `fine` or `soft`: decides tool and lift", Default: "the pattern's", Label: "Texture",
			Among: []string{string(kennel.TextureHard), string(kennel.TextureFine), string(kennel.TextureSoft)},
			At:    func(x *kennel.Dog) any { return &x.Coat.Texture },
		},
		{
			Key: "coat.growth", Says: "growth factor: 1.1 comes in, and goes over, a tenth sooner", Label: "Growth factor", Hint: "1.1 grows a tenth faster",
			Bounds: kennel.GrowthBounds, At: func(x *kennel.Dog) any { return &x.Coat.Growth },
		},
		{
			Key: "coat.pace", Says: "work factor: 1.2 takes a fifth longer", Label: "Work factor", Hint: "1.2 takes a fifth longer",
			Bounds: kennel.PaceBounds, At: func(x *kennel.Dog) any { return &x.Coat.Pace },
		},
		{
			Key: "coat.roll_only", Says: "never more than a rolling share of an area in a week",
			Label: "Roll only: never more than a rolling share of an area in a week", At: func(x *kennel.Dog) any { return &x.Coat.RollOnly },
		},
		{
			Key: "table.set_up", Says: "fetching, brushing out, powder: for each session", Label: "Minutes of set-up", Bounds: kennel.SetUpBounds,
			At: func(x *kennel.Dog) any { return &x.Table.SetUp },
		},
		{
			Key: "table.minutes", Says: "longest session, with its set-up", Label: "Longest session, minutes", Bounds: kennel.SessionBounds,
			At: func(x *kennel.Dog) any { return &x.Table.Minutes },
		},
		{
			Key: "table.a_week", Says: "most sessions a week", Label: "Sessions a week at most", Bounds: kennel.AWeekBounds,
			At: func(x *kennel.Dog) any { return &x.Table.AWeek },
		},
		{
			Key: "priority", Says: "weight of this dog against the others", Label: "Priority", Hint: "1 is usual", Bounds: kennel.WeightBounds,
			At: func(x *kennel.Dog) any { return &x.Priority },
		},
		{Key: "here", Says: "when the dog is in hand: a list of `from` and `to`", Range: "dates", Default: "always", At: func(x *kennel.Dog) any { return &x.Here }},
		{
			Key: "areas", Says: "what is on the dog: `all`, or an area by name, each a list of layers",
			Default: "every area of the pattern needs layers, its own or those of `all`; `furnishings` are whole unless a line says what was lost", At: func(x *kennel.Dog) any { return &Areas{&x.All, &x.Areas} },
		},
		{Key: "outline", Says: "what is wanted of single areas beside readiness", Range: "a list", Default: "nothing", At: func(x *kennel.Dog) any { return &x.Outlines }},
		{Key: "spells", Says: "when it is in season, whelping, ill or hurt", Range: "a list", Default: "no spells", At: func(x *kennel.Dog) any { return &x.Spells }},
		{Key: "duties", Says: "other timed work", Range: "a list", Default: "no duties", At: func(x *kennel.Dog) any { return &x.Duties }},
	},
}

// Layer is what people give of hair of one age on an area.
var Layer = Thing[kennel.Layer]{
	Is: "a layer", Usual: func() kennel.Layer { return kennel.Layer{} },
	Fields: []Field[kennel.Layer]{
		{
			Key: "share", Says: "the part of the area's hairs; those of an area add up to at most 1, and what is missing is older than any pull that is known",
			Need: "a part of the area, above 0, at most 1", Bounds: kennel.ShareBounds, At: func(x *kennel.Layer) any { return &x.Share },
		},
		{Key: "pulled", Says: "the day when its hair was last pulled", Need: "a date like 2027-03-20", At: func(x *kennel.Layer) any { return &x.Pulled }},
	},
}

// Duty is what people give of a duty.
var Duty = Thing[kennel.Duty]{
	Is: "a duty", Usual: func() kennel.Duty { return kennel.Duty{} },
	Fields: []Field[kennel.Duty]{
		{Key: "name", Says: "what it is", Need: "what it is, like nails", At: func(x *kennel.Duty) any { return &x.Name }},
		{
			Key: "minutes", Says: "how long it takes, in one go; on the sheet in whole minutes, at least one", Default: "those of the pattern's line of that name, else required",
			Bounds: kennel.DutyBounds, At: func(x *kennel.Duty) any { return &x.Minutes },
		},
		{
			Key: "every", Says: "every N weeks", Range: fmt.Sprintf("`%gw` to `%gw`", kennel.EveryBounds.Least, kennel.EveryBounds.Most), Default: "as the pattern's line of that name, else this or `before_show` is required", Bounds: kennel.EveryBounds, Reads: &everies,
			At: func(x *kennel.Duty) any { return &x.Every },
		},
		{
			Key: "before_show", Says: "once before each show of the dog: `from` and `to`", Range: "days before it, like `10d`, " + kennel.BeforeBounds.Words(),
			Default: "as the pattern's line of that name, else this or `every` is required", Bounds: kennel.BeforeBounds, At: func(x *kennel.Duty) any { return &x.Before },
		},
		{
			Key: "work", Says: "who may do it: hands that do `close` work, `furnishings` or `duties`", Range: "one of them", Among: []string{string(kennel.SkillClose), string(kennel.SkillFurnishings), string(kennel.SkillDuties)},
			Default: "`furnishings` if its name speaks of legs, beard, whiskers or eyebrows, else `duties`", At: func(x *kennel.Duty) any { return &x.Work },
		},
		{Key: "leave_out", Says: "it is not done on this dog; for a line of its pattern too", At: func(x *kennel.Duty) any { return &x.LeaveOut }},
		{
			Key: "done", Says: "the last day on which it was done: it is due again `every` N weeks later, or before the next show", Range: "a date", Default: "not done yet",
			At: func(x *kennel.Duty) any { return &x.Done },
		},
	},
}

// Outline is what people give of the outline of one area.
var Outline = Thing[kennel.Outline]{
	Is: "an outline", Usual: func() kennel.Outline { return kennel.Outline{} },
	Fields: []Field[kennel.Outline]{
		{Key: "area", Says: "an area of the coat", Need: "an area of the coat, like neck", Reads: &areaNames, At: func(x *kennel.Outline) any { return &x.Area }},
		{
			Key: "note", Says: "in your words, like \"leave the base long\": it is beside the area on every sheet", Default: "this or `least` is required", Range: letters(kennel.LongestName),
			Label: "Note", Hint: "leave the base long", At: func(x *kennel.Outline) any { return &x.Note },
		},
		{
			Key: "least", Says: "the length that may not be undercut: half of the area's hair stays so long or longer, whatever is pulled", Default: "this or `note` is required",
			Bounds: kennel.LeastBounds, Label: "Not shorter than", Hint: "30 or 1.25in", Reads: &lengths, At: func(x *kennel.Outline) any { return &x.Least },
		},
	},
}

// Spell is what people give of a spell.
var Spell = Thing[kennel.Spell]{
	Is: "a spell", Usual: kennel.UsualSpell,
	Fields: []Field[kennel.Spell]{
		{Key: "from", Says: "its first day", Need: "a date like 2027-03-20", Label: "First day", At: func(x *kennel.Spell) any { return &x.From }},
		{Key: "to", Says: "its last day", Default: "until further notice", Label: "Last day", At: func(x *kennel.Spell) any { return &x.To }},
		{
			Key: "what", Says: "`season`, `whelping`, `illness`, `injury` or `other`", Need: "season, whelping, illness, injury or other", Label: "What",
			Among: spellKinds(), At: func(x *kennel.Spell) any { return &x.What },
		},
		{
			Key: "growth", Says: "how fast the coat grows in these days, as the handler sees it: nothing is published", Bounds: kennel.SpellBounds,
			Label: "Growth", Hint: "1 grows as ever, 0.5 half as fast", At: func(x *kennel.Spell) any { return &x.Growth },
		},
		{
			Key: "table", Says: "`yes` or `no`: whether it is worked at the table in these days", Default: "no where the vet decides (whelping, illness, injury), else yes",
			Label: "At the table", Among: []string{string(kennel.AnswerYes), string(kennel.AnswerNo)}, Reads: &answers, At: func(x *kennel.Spell) any { return &x.Table },
		},
	},
}

func spellKinds() (all []string) {
	for _, k := range kennel.SpellKinds() {
		all = append(all, string(k))
	}
	return all
}

func letters(most int) string { return fmt.Sprintf("at most %d letters", most) }
