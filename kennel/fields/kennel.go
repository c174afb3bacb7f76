package fields

import "tuckup/kennel"

// Kennel is what people give of the whole: its settings, and who and what belongs to it.
var Kennel = Thing[kennel.Kennel]{
	Is: "at the top", Usual: func() kennel.Kennel { return kennel.Kennel{Units: kennel.UnitsMillimetres} },
	Fields: []Field[kennel.Kennel]{
		{Key: "kennel", Column: "name", Says: "the kennel's name", Need: "its name", Label: "Kennel's name", At: func(x *kennel.Kennel) any { return &x.Name }},
		{Key: "plan_from", Says: "the first day to plan", Default: "today", At: func(x *kennel.Kennel) any { return &x.PlanFrom }},
		{
			Key: "weeks", Says: "how long a season to plan", Default: "the setting `weeks`, 26", Bounds: kennel.SeasonBounds,
			Label: "Weeks to plan", Hint: "empty: 26",
			At: func(x *kennel.Kennel) any { return &x.Weeks },
		},
		{
			Key: "time_zone", Says: "where the kennel is, for what day it is today", Range: "a name like Europe/Dublin", Default: "the machine's",
			Label: "Time zone", Hint: "a name like Europe/Dublin; empty: that of this machine",
			At: func(x *kennel.Kennel) any { return &x.TimeZone },
		},
		{
			Key: "units", Says: "how lengths are to be shown; only patterns hold lengths so far, and `pattern show` gives them in mm", Range: "`mm` or `in`",
			Default: "`mm`", Label: "Lengths in", Hint: "mm or in", At: func(x *kennel.Kennel) any { return &x.Units },
		},
		{
			Key: "dates", Says: "the order of day and month on the pages of the desk, and of dates that are typed there", Range: "`day-first`, `month-first` or `iso`",
			Default: "4 January", Among: []string{string(kennel.DayFirst), string(kennel.MonthFirst), string(kennel.ISODates)},
			Label: "Dates", Hint: "on pages and where you type; fields with a calendar follow your browser",
			At: func(x *kennel.Kennel) any { return &x.Dates },
		},
		{Key: "hands", Says: "who works on the dogs", Range: "a list", Default: "nobody", At: func(x *kennel.Kennel) any { return &x.Hands }},
		{Key: "dogs", Says: "the string", Range: "a list", Default: "no dogs", At: func(x *kennel.Kennel) any { return &x.Dogs }},
		{Key: "shows", Says: "where dogs are judged", Range: "a list", Default: "no shows", At: func(x *kennel.Kennel) any { return &x.Shows }},
	},
}

// Hands is what people give of a pair of hands.
var Hands = Thing[kennel.Hands]{
	Is: "a pair of `hands`", Usual: func() kennel.Hands { return kennel.Hands{} },
	Fields: []Field[kennel.Hands]{
		{Key: "name", Says: "who it is", Need: "who it is", Label: "Name", At: func(x *kennel.Hands) any { return &x.Name }},
		{
			Key: "hours", Says: "grooming hours by weekday: `mon`, `tue`, `wed`, `thu`, `fri`, `sat`, `sun`", Default: "0 on a day that is left out",
			Bounds: kennel.HoursBounds, At: func(x *kennel.Hands) any { return &x.Hours },
		},
		{
			Key: "strip_hours_a_day", FlagName: "strip", Says: "most hours of pulling on a day that is worked", Default: "the setting `strip_hours`, 4",
			Label: "Most hours of pulling a day", Hint: "empty: 4, where the limits for hand work begin",
			Bounds: kennel.Bounds{Above: true, Most: kennel.HoursBounds.Most, Unit: kennel.HoursBounds.Unit}, // 0 = not given
			At:     func(x *kennel.Hands) any { return &x.StripHoursADay },
		},
		{
			Key: "does", Says: "kinds of work that these hands may do: `jacket`, `close`, `furnishings`, `duties`", Range: "one or more", Default: "all",
			At: func(x *kennel.Hands) any { return &x.Does },
		},
		{
			Key: "away", Says: "when these hands are away: a list of `from`, `to` and `why`; the last is a note", Range: "dates, both days included; one may be left out",
			Default: "never", At: func(x *kennel.Hands) any { return &x.Away },
		},
	},
}
