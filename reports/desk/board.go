package desk

import (
	"cmp"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"slices"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// boardPage is the season on one screen: dogs down, weeks across.
type boardPage struct {
	frame
	Line     string // the day, and how full its week is
	Troubles []trouble
	More     []trouble
	Ask      *form // how the dogs are ordered, and which are shown
	Orders   []option
	Owners   []option
	Shows    []option
	Only     []option
	Asked    bool // not all dogs are shown, or not in the usual order
	Shown    string
	Weeks    []boardWeek
	Rows     []boardRow
	Hours    []boardHours
	Empty    bool // there is no dog
}

// boardWeek is the head of a column.
type boardWeek struct {
	Month, Long, Day string // Month is empty where it is that of the week before
	Now              bool
}

// boardRow is one dog. Its cells are drawn once for a plan.
type boardRow struct {
	Name, Path   string
	Next, Figure string // its next show and how ready it is then; without one, how ready it is today
	Said         string // the figure as it is read out
	Bad          bool   // it is not in coat for its next show
	Trouble      bool
	Cells        template.HTML // empty = the plan does not have it

	owner, show string
	on          kennel.Date
	score       kennel.Score
	trouble     kennel.Date // day of its first trouble; 0 = none
}

// boardHours is the foot of a column.
type boardHours struct {
	Path, Planned, There, Label string
	Fill                        int // tenths of the hours that are planned
	Full                        bool
}

// The orders of the board.
const (
	orderTrouble = "trouble"
	orderShow    = "show"
	orderReady   = "readiness"
	orderOwner   = "owner"
	orderName    = "name"
)

// Which dogs the board shows.
const (
	onlyTrouble = "trouble"
	onlyBelow   = "below"
	onlyReady   = "ready"
)

func (d *Desk) board(w http.ResponseWriter, r *http.Request) error {
	q := r.URL.Query()
	if q.Has("day") || q.Has("hands") || q.Has("said") {
		return d.wasToday(w, r)
	}
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := boardPage{frame: d.frame(l, r, "Board"), Line: say.Day(l.today, l.today), Ask: newForm("board", l.version)}
	p.Behind = p.Plan.Behind
	p.Refresh = l.plan == nil && l.status.Running
	p.Stream = streamTo(l, "/")
	all := troubles(l)
	for i := range all {
		all[i].Why = "" // which is beside the show and on the dog's page
	}
	p.Troubles, p.More = all[:min(len(all), mostTroubles)], all[min(len(all), mostTroubles):]
	rows := d.boardRows(l, all)
	p.Empty = len(rows) == 0
	p.asked(q, rows)
	if l.plan != nil {
		p.weeks(l)
	}
	d.render(w, http.StatusOK, "board", p)
	return nil
}

// wasToday leads to the day's page an address from when that was the first one.
func (d *Desk) wasToday(w http.ResponseWriter, r *http.Request) error {
	to := url.URL{Path: todayPath, RawQuery: r.URL.RawQuery}
	http.Redirect(w, r, to.String(), http.StatusSeeOther)
	return nil
}

// weeks are the heads and feet of the columns.
func (p *boardPage) weeks(l look) {
	month := 0
	for _, w := range l.plan.Weeks {
		day := w.Week.Time()
		v := boardWeek{Long: day.Format("January"), Day: day.Format("2"), Now: w.Week == l.today.Monday()}
		if int(day.Month()) != month {
			v.Month, month = day.Format("Jan"), int(day.Month())
		}
		p.Weeks = append(p.Weeks, v)
		h := boardHours{
			Path: weekPath(w.Week, ""), Planned: hoursOfWeek(w.Planned), There: hoursOfWeek(w.Hours), Full: say.FullWeek(l.plan.Result, w),
		}
		h.Label = h.Planned // as is seen, first; a phone leaves out the hours that there are
		if h.Full {
			h.Label += " full"
		}
		h.Label += " of " + h.There + " hours planned, week of " + say.Week(w.Week, l.today)
		for _, x := range handsAway(l.state.Kennel, w.Week) {
			h.Label += "; " + x
		}
		if w.Hours > 0 {
			h.Fill = int(10*min(1, float64(w.Planned/w.Hours)) + 0.5)
		}
		p.Hours = append(p.Hours, h)
		if v.Now {
			p.Line += fmt.Sprintf(", %s of %s h this week", h.Planned, h.There)
		}
	}
}

// boardRows are all dogs in hand.
func (d *Desk) boardRows(l look, wrong []trouble) (rows []boardRow) {
	for _, dog := range l.dogs() {
		row := boardRow{Name: dog.Name, Path: dogPath(dog.Name), owner: dog.Owner}
		if t, ok := troubleOf(wrong, dog.Name); ok {
			row.trouble, row.Trouble = t.On, true
		}
		if l.plan != nil {
			row.next(l)
			row.Cells = l.plan.views.boardRow(dog.Name, func() template.HTML { return d.boardRow(l, dog) })
		}
		rows = append(rows, row)
	}
	return rows
}

// next sets what is beside the dog's name.
func (r *boardRow) next(l look) {
	for _, x := range l.plan.Readiness {
		if x.Dog == r.Name && x.On >= l.today {
			r.Next, r.on, r.show, r.score = say.WithYear(x.On, l.today, "2 Jan"), x.On, x.Show, x.Score
			r.Figure = kennel.ScoreWords(x.Score)
			r.Said = fmt.Sprintf("%s at %s on %s", r.Figure, x.Show, say.Day(x.On, l.today))
			if r.Bad = notReady(x); r.Bad {
				r.Said += ", not in coat"
			}
			return
		}
	}
	for _, o := range l.plan.Outlooks {
		if o.Dog == r.Name {
			r.Figure, r.score = kennel.ScoreWords(o.Score), o.Score
			r.Said = fmt.Sprintf("%s today, %s; no show ahead", r.Figure, o.State)
		}
	}
}

// asked orders the rows and leaves out those that are not asked for.
func (p *boardPage) asked(q url.Values, rows []boardRow) {
	for _, name := range []string{"order", "owner", "show", "only"} {
		p.Ask.set(name, q.Get(name))
		p.Asked = p.Asked || q.Get(name) != ""
	}
	p.Orders = []option{
		{Value: "", Words: "trouble first"},
		{Value: orderShow, Words: "next show"},
		{Value: orderReady, Words: "readiness, least first"},
		{Value: orderOwner, Words: "owner"},
		{Value: orderName, Words: "name"},
	}
	p.Only = []option{
		{Value: "", Words: "all dogs"},
		{Value: onlyTrouble, Words: "in trouble"},
		{Value: onlyBelow, Words: "below 80"},
		{Value: onlyReady, Words: "80 and over"},
	}
	p.Owners, p.Shows = []option{{Value: "", Words: "all owners"}}, []option{{Value: "", Words: "any show"}}
	for _, r := range rows {
		p.Owners, p.Shows = withChoice(p.Owners, r.owner), withChoice(p.Shows, r.show)
	}
	all := len(rows)
	for _, r := range rows {
		switch only := p.Ask.get("only"); {
		case p.Ask.get("owner") != "" && r.owner != p.Ask.get("owner"),
			p.Ask.get("show") != "" && r.show != p.Ask.get("show"),
			only == onlyTrouble && !r.Trouble,
			only == onlyBelow && r.score >= kennel.ReadyScore,
			only == onlyReady && r.score < kennel.ReadyScore:
			continue
		}
		p.Rows = append(p.Rows, r)
	}
	slices.SortStableFunc(p.Rows, rowOrder(cmp.Or(p.Ask.get("order"), orderTrouble)))
	p.Shown = say.Plural(all, "dog")
	if len(p.Rows) < all {
		p.Shown = fmt.Sprintf("%d of %s", len(p.Rows), p.Shown)
	}
}

// withChoice are the options with one more, where it is not there yet.
func withChoice(all []option, words string) []option {
	if words == "" || slices.ContainsFunc(all, func(o option) bool { return o.Value == words }) {
		return all
	}
	return append(all, option{Value: words, Words: words})
}

// rowOrder sets two dogs in order. What has no day comes last.
func rowOrder(order string) func(a, b boardRow) int {
	late := func(d kennel.Date) kennel.Date {
		if d == 0 {
			return kennel.Date(1 << 30)
		}
		return d
	}
	show := func(a, b boardRow) int {
		return cmp.Or(cmp.Compare(late(a.on), late(b.on)), cmp.Compare(a.score, b.score))
	}
	name := func(a, b boardRow) int { return cmp.Compare(a.Name, b.Name) }
	switch order {
	case orderShow:
		return show
	case orderReady:
		return func(a, b boardRow) int { return cmp.Compare(a.score, b.score) }
	case orderOwner:
		return func(a, b boardRow) int {
			return cmp.Or(cmp.Compare(btoi(a.owner == ""), btoi(b.owner == "")), cmp.Compare(a.owner, b.owner), name(a, b))
		}
	case orderName:
		return name
	}
	return func(a, b boardRow) int { return cmp.Or(cmp.Compare(late(a.trouble), late(b.trouble)), show(a, b)) }
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// weekPath is the page of a week, at a dog where one is named.
func weekPath(monday kennel.Date, dog string) string {
	v := url.Values{"of": {monday.String()}}
	if dog == "" {
		return "/week?" + v.Encode()
	}
	v.Set("dog", dog)
	return "/week?" + v.Encode() + "#at"
}

// showPath is the page of a show.
func showPath(s kennel.Show) string {
	return "/shows?" + url.Values{"show": {showKey(s)}}.Encode() + "#edit"
}

// handsAway are the hands that are away in a week, with the reason.
func handsAway(k kennel.Kennel, monday kennel.Date) (all []string) {
	for _, h := range k.Hands {
		for _, s := range h.Away {
			if days := daysIn(s, monday); days > 0 {
				all = append(all, awayWords(h.Name+" is away", s, days))
			}
		}
	}
	return all
}

// awayWords say who is away, for how many days of a week and why.
func awayWords(who string, s kennel.Span, days int) string {
	if days < kennel.DaysAWeek {
		who += " for " + say.Plural(days, "day")
	}
	if s.Why != "" {
		who += ": " + s.Why
	}
	return who
}

// daysIn is how many days of the week are in the span; a side of 0 is open.
func daysIn(s kennel.Span, monday kennel.Date) (n int) {
	for d := monday; d < monday.AddDays(kennel.DaysAWeek); d++ {
		if s.Holds(d) {
			n++
		}
	}
	return n
}

// dogAway is how many days of the week the dog is away or not as usual, and why.
func dogAway(k kennel.Kennel, dog kennel.Dog, monday kennel.Date) (days int, why []string) {
	if len(dog.Here) > 0 {
		out := kennel.DaysAWeek
		for _, s := range dog.Here {
			out -= daysIn(s, monday)
		}
		if out > 0 {
			days += out
			why = append(why, awayWords("not in hand", kennel.Span{}, out))
		}
	}
	for _, s := range dog.Spells {
		if n := daysIn(kennel.Span{From: s.From, To: s.To}, monday); n > 0 {
			days += n
			why = append(why, awayWords(s.What.Words(), kennel.Span{}, n))
		}
	}
	for _, s := range k.Shows {
		if !s.Has(dog.Name) {
			continue
		}
		n := daysIn(s.AwayDays(), monday)
		if n > daysIn(kennel.Span{From: s.On, To: s.Last()}, monday) { // the days of the show itself have its mark
			days += n
			why = append(why, awayWords("away", kennel.Span{Why: s.Name}, n))
		}
	}
	return min(days, kennel.DaysAWeek), why
}

// weekMinutes are the sessions of a dog by week, in minutes with set-up: those of the days that are laid out, else as the week has them.
func weekMinutes(l look, dog string, w optimize.Week) (all []kennel.Minutes) {
	if w.Week <= l.plan.whole.LastDay() {
		for _, d := range l.plan.days(l.today) {
			if d.On.Monday() != w.Week {
				continue
			}
			for _, s := range d.Sessions() {
				if s.Dog == dog {
					all = append(all, s.Minutes())
				}
			}
		}
		return all
	}
	for _, x := range w.Dogs {
		for range x.Sessions {
			if x.Dog == dog {
				all = append(all, (x.Minutes+x.SetUp)/kennel.Minutes(x.Sessions))
			}
		}
	}
	return all
}

// hoursOfWeek are hours as they fit below a week of the board: without tenths where they are a hundred and more.
func hoursOfWeek(h kennel.Hours) string {
	const hundred = 99.95 // which is 100.0 in tenths
	if h >= hundred {
		return fmt.Sprintf("%.0f", float64(h))
	}
	return fmt.Sprintf("%.1f", float64(h))
}
