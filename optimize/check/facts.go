package check

// What a plan keeps to, said again: were these read from the planner, a slip there would not be found.
const (
	countedOn  = 0.5 // from this chance on, a show's travelling days are away from the table, and its dogs must be in coat
	breakFor   = 10  // minutes that hands rest ..
	breakAfter = 50  // .. after so many of pulling
	mealFor    = 30  // minutes that hands eat ..
	mealAfter  = 360 // .. on a day of more than so many
	leastSetUp = 5   // minutes of a day that are never pulling
	agreedDays = 14  // days from today for which a plan is agreed on
)
