package fields

import "tuckup/kennel"

// Show is what people give of a show.
var Show = Thing[kennel.Show]{
	Is: "a show", Usual: kennel.UsualShow,
	Fields: []Field[kennel.Show]{
		{Key: "name", Says: "its name", Need: "the show's name", Label: "Name", At: func(x *kennel.Show) any { return &x.Name }},
		{Key: "on", Says: "its first day", Need: "a date like 2027-03-20", Label: "First day", At: func(x *kennel.Show) any { return &x.On }},
		{Key: "days", Says: "how many days", Label: "Days", Bounds: kennel.ShowDaysBounds, At: func(x *kennel.Show) any { return &x.Days }},
		{
			Key: "entries_close", Says: "when entries close; shown beside shows that are not entered yet", Range: "a date, not after the show", Label: "Entries close",
			At: func(x *kennel.Show) any { return &x.EntriesClose },
		},
		{
			Key: "weight", Says: "how much it matters", Label: "Weight", Hint: "1 is usual, 3 matters three times as much", Bounds: kennel.WeightBounds,
			At: func(x *kennel.Show) any { return &x.Weight },
		},
		{
			Key: "chance", Says: "1 is entered; below 1 is hoped for, and counts for that much", Label: "Chance, %", Hint: "100 = entered; below, hoped for",
			Bounds: kennel.ChanceBounds, Reads: &chances, Percent: true, At: func(x *kennel.Show) any { return &x.Chance },
		},
		{
			Key: "away", Says: "when the first pair of hands and the dogs shown are travelling: `from` and `to`", Range: "dates", Default: "the show's days",
			At: func(x *kennel.Show) any { return &x.Away },
		},
		{Key: "dogs", Says: "which dogs of the kennel are shown", Range: "names", Default: "no dogs", At: func(x *kennel.Show) any { return &x.Dogs }},
	},
}
