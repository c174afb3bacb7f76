package check

// What a plan keeps to, said again: were these read from the planner, a slip there would not be found.
const (
	countedOn  = 0.5     // from this chance on, a show's travelling days are away from the table, and its dogs must be in coat
	breakFor   = 10      // minutes that hands rest ..
	breakAfter = 50      // .. after so many of pulling
	finishIn   = 5       // minutes that a session may have left when a break is due to be finished first
	mealFor    = 30      // minutes that hands eat ..
	mealWhole  = 5       // minutes to which its beginning is rounded
	mealAfter  = 360     // .. on a day of more than so many
	leastSetUp = 5       // minutes of a day that are never pulling
	agreedDays = 14      // days from today for which a plan is agreed on
	holeAllow  = 0.3     // of full readiness by which a dog may be ahead of its worst area at a show
	deadFirst  = 8       // weeks in which an area with dead hair may be taken down as fast as it can be
	noBathDays = 14      // days before a show on which no bath lifts a coat
	restDays   = 2       // days before a show on which a jacket is left alone
	nearMost   = 1.0 / 8 // most of an area's living hair in a week, near a show
)
