package optimize

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize/hours"
	"tuckup/optimize/season"
)

// Entry is the advice on entering one dog for one show that is only hoped for.
type Entry struct {
	Show, Dog  string
	On, Closes kennel.Date // Closes is zero where it is not told
	Chance     float64     // as the kennel has it now
	Named      bool        // the kennel names the dog for the show; else the show names no dog yet
	// If it is entered: how ready it will be, with its range and the chance of being in coat.
	Score, Low, High kennel.Score
	Likely           float64
	WorstArea        kennel.AreaName
	WorstScore       kennel.Score
	Why              string // of the worst area
	// What entering changes, against leaving the dog out of the show, in points.
	Gain  float64      // all dogs together, with the balance
	Own   float64      // of that, the dog's
	Dogs  []DogChange  // of the others, those who pay most first; those for whom nothing changes are left out
	Hours kennel.Hours // more work on the dog up to the show
	Out   []OutOfCoat  // shows that are counted on for which another dog would no longer be in coat
	Cure  *Cure        // what would bring it in coat where the plan with the entry does not
	// The advice and its reason.
	Advice Advice
	Reason string
}

// OutOfCoat is a dog that would no longer be in coat for a show.
type OutOfCoat struct {
	Dog, Show     string
	Before, After kennel.Score
}

// Advice is whether to enter.
type Advice string

// The advice. The bounds are settings of taste: enter what is likely to be right and costs nobody a show, leave out what
// is more likely not to be right or costs more than it brings.
const (
	AdviceEnter    Advice = "enter"
	AdviceWait     Advice = "wait"
	AdviceLeaveOut Advice = "leave out"
	AdviceWork     Advice = "do the work" // of Entry.Cure; then enter
)

// The chances of being in coat that advice goes by, and the least points that count.
const (
	enterFrom     = 0.8
	leaveOutBelow = 0.5
	leastCost     = 0.05 // points; two searches that begin with one plan may end as far apart
)

// rivals are the dogs that are planned anew with the one that may be entered: those whose work lies most in the hours
// that it would want. The others keep their sessions.
const rivals = 3

// Entries is the advice on every show that is only hoped for and still ahead: for each dog that it names, or for every
// dog in hand where it names none. Each dog is planned with the show as entered, and without it, together with the
// dogs it takes hours from. Sorted by the day on which entries close, then by show and dog. Errors are those of Plan;
// an ended context is one, and the advice that was finished by then comes with it.
func Entries(ctx context.Context, k kennel.Kennel, pats kennel.Patterns, opt Options) ([]Entry, error) {
	base, err := layOut(k, pats, opt)
	if err != nil {
		return nil, err
	}
	solved, _, err := base.solve(ctx)
	if err != nil {
		return nil, err
	}
	return base.entries(ctx, solved.Plan, func(string) bool { return true })
}

// EntriesOf is the advice on the dogs that of picks, against the plan that was made.
func EntriesOf(ctx context.Context, r Result, of func(dog string) bool) ([]Entry, error) {
	base, err := layOut(r.Kennel, r.Patterns, r.Options)
	if err != nil {
		return nil, err
	}
	return base.entries(ctx, r.Solved.Answer.Plan, of)
}

func (l *layout) entries(ctx context.Context, plan season.Plan, of func(dog string) bool) ([]Entry, error) {
	var all []Entry
	for i, s := range l.k.Shows {
		if s.Entered() || s.On < l.opt.On {
			continue
		}
		for d, dog := range l.k.Dogs {
			named := s.Has(dog.Name)
			if !of(dog.Name) || !named && len(s.Dogs) > 0 || hours.DayNotInHand(dog, s) != 0 || hours.InSpell(dog, s) {
				continue
			}
			e, err := l.entry(ctx, plan, i, d)
			if err != nil {
				return nil, err
			}
			if err := ctx.Err(); err != nil { // what was planned for it was cut short
				return inOrder(all), fmt.Errorf("the advice was not finished: %w", err)
			}
			e.Named = named
			all = append(all, e)
		}
	}
	return inOrder(all), nil
}

// inOrder sorts advice by the day on which to decide, then by show.
func inOrder(all []Entry) []Entry {
	slices.SortStableFunc(all, func(a, b Entry) int {
		return cmp.Or(cmp.Compare(a.decided(), b.decided()), cmp.Compare(a.On, b.On), cmp.Compare(a.Show, b.Show))
	})
	return all
}

// decided is the last day on which to decide.
func (e Entry) decided() kennel.Date {
	if e.Closes != 0 {
		return e.Closes
	}
	return e.On
}

// entry is the advice on dog d and a show. plan is the string's plan as the kennel is.
func (l *layout) entry(ctx context.Context, plan season.Plan, show, d int) (Entry, error) {
	s := l.k.Shows[show]
	e := Entry{Show: s.Name, Dog: l.k.Dogs[d].Name, On: s.On, Closes: s.EntriesClose, Chance: s.Chance}
	t := kennel.ReadinessWeek(s.On, l.diary.Week0)
	if t >= l.diary.Weeks {
		e.Advice, e.Reason = AdviceWait, "it is after the weeks planned; plan more weeks to count it"
		return e, nil
	}
	if t < 0 || e.closed(l.opt.On) {
		e.ready(l.shown(d, s, plan)) // no plan can change it any more, or none need
		e.advise(l.opt.On, t < 0)
		return e, nil
	}
	with, err := layOut(enteredFor(l.k, show, d, true), l.pats, l.opt)
	if err != nil {
		return e, err
	}
	without, err := layOut(enteredFor(l.k, show, d, false), l.pats, l.opt)
	if err != nil {
		return e, err
	}
	dogs := l.together(plan, d, t)
	if !fits(with, plan, dogs) || !fits(without, plan, dogs) {
		dogs = l.allDogs() // the show takes hours from the others too
	}
	in, err := with.anew(ctx, plan, dogs)
	if err != nil {
		return e, err
	}
	out, err := without.anew(ctx, plan, dogs)
	if err != nil {
		return e, err
	}
	e.ready(with.shown(d, s, in))
	if e.Score < kennel.ReadyScore {
		e.Cure = with.cure(d, s, in)
	}
	e.compare(with, without, in, out, d, t)
	e.advise(l.opt.On, false)
	return e, nil
}

// enteredFor is the kennel with the dog entered for the show, or not named for it, and nothing else changed. The show
// is there twice: once for this dog and once for the others with the chance that it has.
func enteredFor(k kennel.Kennel, show, d int, enter bool) kennel.Kennel {
	shows := slices.Clone(k.Shows)
	dog := k.Dogs[d].Name
	others := shows[show]
	others.Dogs = slices.DeleteFunc(slices.Clone(others.Dogs), func(name string) bool { return name == dog })
	shows[show] = others
	if enter {
		own := k.Shows[show]
		own.Name, own.Chance, own.Dogs = own.Name+" for "+dog, 1, []string{dog}
		for slices.ContainsFunc(shows, func(s kennel.Show) bool { return s.Name == own.Name }) {
			own.Name += "'"
		}
		shows = append(shows, own)
	}
	k.Shows = shows
	return k
}

func (l *layout) allDogs() (dogs []int) {
	for d := range l.k.Dogs {
		dogs = append(dogs, d)
	}
	return dogs
}

// together are dog d and the dogs whose sessions, up to week t, take most of the minutes that are short: in weeks with
// a row that d's work counts in.
func (l *layout) together(plan season.Plan, d, t int) []int {
	minutes := make([]float64, len(l.k.Dogs))
	for _, row := range l.problem.Rows {
		if row.Week > t || l.problem.Dogs[d].Most[row.Week] == 0 {
			continue
		}
		for other := range minutes {
			minutes[other] += l.use(plan, other, row)
		}
	}
	minutes[d] = 0
	order := l.allDogs()
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(minutes[b], minutes[a]) })
	dogs := []int{d}
	for _, other := range order {
		if minutes[other] > 0 && len(dogs) <= rivals {
			dogs = append(dogs, other)
		}
	}
	slices.Sort(dogs)
	return dogs
}

// use is how many of the row's minutes the plan takes for dog d.
func (l *layout) use(plan season.Plan, d int, row season.Row) (minutes float64) {
	dog := &l.problem.Dogs[d]
	for a := range dog.Areas {
		if area := &dog.Areas[a]; row.Kinds>>area.Kind&1 == 1 {
			minutes += area.MinutesIn(row.Week, plan.Shares[d][a])
		}
	}
	if row.SetUps {
		minutes += dog.SetUp * float64(plan.Sessions[d][row.Week])
	}
	return minutes
}

// handsSlack is the part of a row's minutes by which arithmetic may miss it.
const handsSlack = 1e-6

// fits reports whether all dogs but those named can keep their part of the plan.
func fits(l *layout, plan season.Plan, but []int) bool {
	for d, dog := range l.problem.Dogs {
		if slices.Contains(but, d) {
			continue
		}
		for t, most := range dog.Most {
			if plan.Sessions[d][t] > most {
				return false
			}
		}
	}
	for _, row := range l.problem.Rows {
		if left(l, plan, row, but) < -handsSlack*max(1, row.Capacity) {
			return false
		}
	}
	return true
}

// left is what all dogs but those named leave of the row's minutes.
func left(l *layout, plan season.Plan, row season.Row, but []int) float64 {
	minutes := row.Capacity
	for d := range l.problem.Dogs {
		if !slices.Contains(but, d) {
			minutes -= l.use(plan, d, row)
		}
	}
	return minutes
}

// anew is the plan with the dogs planned anew in the minutes that all others leave them.
func (l *layout) anew(ctx context.Context, plan season.Plan, dogs []int) (season.Plan, error) {
	p := l.problem
	p.Dogs, p.Rows = nil, nil
	for _, d := range dogs {
		p.Dogs = append(p.Dogs, l.problem.Dogs[d])
	}
	for _, row := range l.problem.Rows {
		row.Capacity = max(0, left(l, plan, row, dogs))
		p.Rows = append(p.Rows, row)
	}
	if len(dogs) < len(l.k.Dogs) {
		p.Balance = 0 // the least mean may be that of a dog that isn't planned anew
	}
	start := season.Plan{}
	for _, d := range dogs {
		start.Sessions = append(start.Sessions, plan.Sessions[d])
		start.Shares = append(start.Shares, plan.Shares[d])
	}
	opt := l.seasonOptions(l.opt.TimeLimit)
	opt.Start = &start
	r, err := season.Solve(ctx, &p, opt)
	if err != nil {
		return season.Plan{}, fmt.Errorf("the string could not be planned again with the entry: %w", err)
	}
	n := season.Plan{Sessions: slices.Clone(plan.Sessions), Shares: slices.Clone(plan.Shares)}
	for i, d := range dogs {
		n.Sessions[d], n.Shares[d] = r.Plan.Sessions[i], r.Plan.Shares[i]
	}
	return n, nil
}

// ready fills in how ready the dog is if it is entered.
func (e *Entry) ready(s shown) {
	e.Score, e.Low, e.High, e.Likely = s.Score, s.Low, s.High, s.Likely
	e.WorstArea, e.WorstScore, e.Why = s.WorstArea, s.WorstScore, s.Why
}

// compare fills in what entering dog d changes.
func (e *Entry) compare(with, without *layout, in, out season.Plan, d, t int) {
	gained, balance := with.points(in)
	left, balanceLeft := without.points(out)
	e.Gain = balance - balanceLeft
	for i := range gained {
		c := DogChange{Dog: gained[i].Dog, InBefore: true, InAfter: true, Before: left[i].Sum(0), After: gained[i].Sum(0)}
		e.Gain += c.Gain()
		switch {
		case i == d:
			e.Own = c.Gain()
		case c.Gain() < -leastCost || c.Gain() > leastCost:
			e.Dogs = append(e.Dogs, c)
		}
	}
	slices.SortStableFunc(e.Dogs, func(a, b DogChange) int { return cmp.Compare(a.Gain(), b.Gain()) })
	for week := range max(0, t+1) {
		e.Hours += kennel.Hours((with.minutes(in, d, week) - without.minutes(out, d, week)) / minutesAnHour)
	}
	for i, dog := range with.k.Dogs {
		if i == d {
			continue
		}
		for _, s := range with.shows(i) {
			if s.Chance < kennel.CountedOn {
				continue
			}
			if without.followed(i, s, out) >= kennel.ReadyScore && with.followed(i, s, in) < kennel.ReadyScore {
				e.Out = append(e.Out, OutOfCoat{
					Dog: dog.Name, Show: s.Name, Before: without.shown(i, s, out).Score, After: with.shown(i, s, in).Score,
				})
			}
		}
	}
}

// minutes are what the plan takes for dog d in week t, sessions with their set-ups.
func (l *layout) minutes(plan season.Plan, d, t int) float64 {
	sum := l.problem.Dogs[d].SetUp * float64(plan.Sessions[d][t])
	for a := range l.problem.Dogs[d].Areas {
		sum += l.problem.Dogs[d].Areas[a].MinutesIn(t, plan.Shares[d][a])
	}
	return sum
}

// Cost is what entering takes from the other dogs, points.
func (e Entry) Cost() (points float64) {
	for _, d := range e.Dogs {
		points += max(0, -d.Gain())
	}
	return points
}

// closed reports whether entries have closed.
func (e *Entry) closed(today kennel.Date) bool { return e.Closes != 0 && e.Closes < today }

// advise says whether to enter, and why. asIs is a show so near that the dog is shown in the coat it has.
func (e *Entry) advise(today kennel.Date, asIs bool) {
	right := fmt.Sprintf("%.0f %% likely to be in coat", 100*e.Likely)
	worst := fmt.Sprintf("%s (%s: %s)", right, e.WorstArea, e.Why)
	if e.WorstScore >= kennel.ReadyScore {
		worst = right + ", as sessions may be missed and it may grow slower or faster than thought"
	}
	switch {
	case e.closed(today):
		e.Advice, e.Reason = AdviceLeaveOut, "entries closed on "+e.Closes.String()
	case e.Likely < enterFrom && e.Cure != nil:
		e.Advice, e.Reason = AdviceWork, worst+"; with that work it is "+kennel.ScoreWords(e.Cure.Score)
	case e.Likely < leaveOutBelow:
		e.Advice, e.Reason = AdviceLeaveOut, worst
	case asIs:
		e.Advice, e.Reason = AdviceEnter, right+", in the coat it has"
	case e.Gain <= leastCost && e.Cost() > leastCost:
		e.Advice, e.Reason = AdviceLeaveOut, fmt.Sprintf("it costs the others %.2f points and brings no more; %s pays most", e.Cost(), e.Dogs[0].Dog)
	case e.Gain <= leastCost:
		e.Advice, e.Reason = AdviceLeaveOut, "it brings nothing: its coat is wanted more on other dates"
	case len(e.Out) > 0:
		e.Advice = AdviceWait
		e.Reason = fmt.Sprintf("%s would no longer be in coat for %s (%s)", e.Out[0].Dog, e.Out[0].Show, kennel.ScoreWords(e.Out[0].After))
	case e.Likely < enterFrom:
		e.Advice, e.Reason = AdviceWait, worst+"; measure, and decide when entries close"
	case e.Cost() > leastCost:
		e.Advice = AdviceEnter
		e.Reason = fmt.Sprintf("%s; it costs the others %.2f points, %s most, and brings %.2f", right, e.Cost(), e.Dogs[0].Dog, e.Gain+e.Cost())
	default:
		e.Advice, e.Reason = AdviceEnter, right+" and it costs the others nothing"
	}
}
