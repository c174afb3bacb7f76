package optimize

// The defaults of a plan. The values of a point are settings of taste; what is sourced says so.
const (
	defaultWeeks       = 26
	defaultStanding    = 0.05
	defaultBalance     = 0.5
	defaultSessionCost = 0.002
	defaultStay        = 0.05
	defaultPick        = 2    // common practice, 1.5 to 3: living hair is found, lifted, gripped and looked at again
	defaultUneven      = 0.05 // with hours to spare rolling is weekly; C20 (every area worked weekly; seen)
	defaultStripHours  = 4    // E1: hand-activity limits concern hand work of 4 h a day and more (ACGIH hand activity TLV; seen)
	defaultPuppyTable  = 30   // common practice: young dogs tire, short sessions
	defaultCrumbShare  = 0.03 // common practice: a touch is worth making from about 3 % of an area
	defaultCrumbTime   = 3    // common practice: or from about 3 minutes
	defaultDays        = 7
	defaultDayStart    = 9
	defaultFreeDays    = 1   // common practice: a free day between two jacket sessions
	defaultBathTime    = 20  // common practice: wetting, washing and rinsing the jacket of a terrier
	defaultGrowthSD    = 0.1 // common practice: breeders' calendars for one coat differ by weeks (C2, C3, C4)
	defaultMissed      = 0.1 // common practice: one session in ten is not done
)

const minutesAnHour = 60

// Bounds of the season's length in weeks.
const (
	leastWeeks = 4
	mostWeeks  = 104
)

// DefaultOptions are the settings of a plan that nobody has changed. On is zero: the kennel's own first day of
// planning is then taken, and a caller with a clock sets today's date.
func DefaultOptions() Options {
	return Options{
		Weeks:       defaultWeeks,
		Standing:    defaultStanding,
		Balance:     defaultBalance,
		SessionCost: defaultSessionCost,
		Stay:        defaultStay,
		Pick:        defaultPick,
		Uneven:      defaultUneven,
		StripHours:  defaultStripHours,
		PuppyTable:  defaultPuppyTable,
		CrumbShare:  defaultCrumbShare,
		CrumbTime:   defaultCrumbTime,
		Days:        defaultDays,
		DayStart:    defaultDayStart,
		FreeDays:    defaultFreeDays,
		BathTime:    defaultBathTime,
		GrowthSD:    defaultGrowthSD,
		Missed:      defaultMissed,
	}
}
