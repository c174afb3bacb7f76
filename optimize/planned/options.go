package planned

import "tuckup/kennel"

// Options are the settings of a plan. Zero values are not defaults: take DefaultOptions and change it.
type Options struct {
	On          kennel.Date        // today: the first day that can be worked
	Weeks       kennel.Weeks       // length of the season where the kennel names none
	Standing    float64            // points a week for a dog of priority 1 that is fully ready without a show
	Balance     float64            // points, times the number of dogs shown, for the least mean show readiness
	SessionCost float64            // points a session
	Pick        float64            // how many times as long as dead hair takes living hair, which is picked hair by hair
	Uneven      float64            // points for a whole coat short of even work in two weeks; work beyond it in a week costs a multiple
	Stay        float64            // points for each session left or added in the next weeks, by what was accepted and by Begin; moved shares go by it too
	StripHours  kennel.Hours       // most hours of pulling a day where a pair of hands names none
	PuppyTable  kennel.Minutes     // longest session of a dog under 12 months
	CrumbShare  kennel.Share       // a touch is worth making from this share ..
	CrumbTime   kennel.Minutes     // .. or from this many minutes
	Days        int                // days of the timetable, 0 to 14; it runs on to the end of the last one's week; 0 = none
	DayStart    kennel.Hours       // when a day's work begins, hours after midnight
	FreeDays    int                // least free days between two jacket sessions on a dog
	BathTime    kennel.Minutes     // of a lifting bath
	Accepted    []kennel.Session   // agreed for the coming days; pinned ones are never moved
	Over        []kennel.Show      // of a book: shows that were over before today; the kennel planned does not hold them
	Done        []kennel.Work      // done since Monday of this week: its sessions, duties and minutes are spent
	GrowthSD    float64            // relative standard deviation of a dog's growth around its estimate
	GrowthSDs   map[string]float64 // the same by dog, for those with records of their own
	Missed      float64            // part of the sessions planned that will not be done, 0 to 0.5
	Begin       *Result            `cbor:"-"` // a plan made before, whose sessions the search begins with: it is mended, not sought afresh; nil = none
	Seed        uint64
	TimeLimit   float64                                 // seconds; 0 = none
	Seconds     func() float64                          `cbor:"-"` // stopwatch from the start of the plan; nil = no clock
	Progress    func(objective, bound, seconds float64) `cbor:"-"`
}

// Still are the settings without what belongs to one run: its stopwatch, where its progress is told, and the plan that it
// began with.
func (o Options) Still() Options {
	o.Seconds, o.Progress, o.Begin = nil, nil, nil
	return o
}
