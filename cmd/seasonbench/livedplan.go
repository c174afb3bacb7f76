package main

import (
	"context"
	"slices"
	"sync/atomic"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/lived"
	"tuckup/optimize/planned"
)

// promise is what a plan said of a dog at a show.
type promise struct {
	Week   int     `json:"week"` // of the plan
	Dog    int     `json:"dog"`
	Show   int     `json:"show"`
	Score  float64 `json:"score"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Likely float64 `json:"likely"`
	Came   float64 `json:"came"` // the readiness that came of it
}

// planner is a handler that plans every Monday from what is on the dogs, beginning with the last plan.
type planner struct {
	ctx    context.Context
	kennel kennel.Kennel
	pats   kennel.Patterns
	opt    optimize.Options
	effort float64

	first    *optimize.Result // the season's first plan, also where it was made before
	last     *optimize.Result
	done     []kennel.Work // duties
	promises []promise
	same     float64 // shares of the coming three weeks that two plans running have alike ..
	all      float64 // .. of half the sum of both
	left     float64 // minutes of the weeks' work that the days left out ..
	had      float64 // .. of all that they had
}

// seen is the kennel as it is on a Monday, with what is on the dogs then.
func (p *planner) seen(w lived.Week) kennel.Kennel {
	k := p.kennel
	k.PlanFrom = livedMonday.AddDays(w.Day())
	k.Weeks = max(4, kennel.Weeks(w.Weeks-w.Week))
	k.Dogs = slices.Clone(k.Dogs)
	for d := range k.Dogs {
		k.Dogs[d].All, k.Dogs[d].Areas = nil, nil
		for a, area := range w.Dogs[d].Areas {
			if area.Kept {
				continue
			}
			coat := kennel.AreaCoat{Area: kennel.AreaName(area.Name)}
			for _, t := range w.Coats[d][a] {
				coat.Layers = append(coat.Layers, kennel.Layer{Share: kennel.Share(t.Share), Pulled: livedMonday.AddDays(t.Pulled)})
			}
			k.Dogs[d].Areas = append(k.Dogs[d].Areas, coat)
		}
	}
	return k
}

// plan plans from a Monday on.
func (p *planner) plan(w lived.Week) (optimize.Result, error) {
	opt := p.opt
	opt.Begin, opt.Done = p.last, p.done
	if p.last != nil {
		opt.Accepted = slices.DeleteFunc(p.last.SessionsAhead(), func(s kennel.Session) bool { return s.On < livedMonday.AddDays(w.Day()) })
	}
	if p.effort > 0 {
		var looks atomic.Int64 // counted instead of seconds, so that no plan hangs on how busy the machine is
		most := p.effort
		if p.last == nil {
			most *= firstEffort
		}
		opt.Seconds = func() float64 { return float64(looks.Add(1)) / most }
		opt.TimeLimit = 1
	}
	return optimize.Plan(p.ctx, p.seen(w), p.pats, opt)
}

// firstEffort is how many times as long the first plan is sought as those that begin with it.
const firstEffort = 12

// Monday plans and is the week's sessions.
func (p *planner) Monday(w lived.Week) (all []lived.Session, err error) {
	r, err := p.planOn(w)
	if err != nil {
		return nil, err
	}
	p.compare(r)
	p.last = &r
	for _, s := range r.Readiness {
		p.promises = append(p.promises, promise{
			Week: w.Week, Dog: p.dog(s.Dog), Show: slices.IndexFunc(p.kennel.Shows, func(x kennel.Show) bool { return x.Name == s.Show }),
			Score: float64(s.Score), Low: float64(s.Low), High: float64(s.High), Likely: s.Likely,
		})
	}
	return p.sessions(w, r), nil
}

// planOn is the plan of a Monday; the first is made once.
func (p *planner) planOn(w lived.Week) (optimize.Result, error) {
	if p.last == nil && p.first != nil {
		return *p.first, nil
	}
	r, err := p.plan(w)
	if p.first == nil {
		p.first = &r
	}
	return r, err
}

// sessions are those of the week's days.
func (p *planner) sessions(w lived.Week, r optimize.Result) (all []lived.Session) {
	for _, day := range r.Timetable.Days {
		n := int(day.On - livedMonday)
		if n >= w.Day()+kennel.DaysAWeek {
			break
		}
		for _, s := range day.Sessions() {
			x := lived.Session{Dog: p.dog(s.Dog), Day: n, Minutes: float64(s.Pulling())}
			for _, area := range s.Areas {
				x.Takes = append(x.Takes, lived.Take{Area: areaOf(w, x.Dog, area.Area), Share: float64(area.Share)})
			}
			p.had += x.Minutes
			all = append(all, x)
		}
		for _, hands := range day.Hands {
			for _, i := range hands.Items {
				if i.Kind == planned.ItemDuty {
					p.done = append(p.done, kennel.Work{Dog: i.Dog, On: day.On, Hands: hands.Hands, Minutes: kennel.Minutes(i.End - i.Start), Duty: i.What})
				}
			}
		}
	}
	for _, x := range r.Timetable.LeftOut {
		if x.Week == r.Week0 && x.Area != "" {
			p.left += float64(x.Minutes)
			p.had += float64(x.Minutes)
		}
	}
	return all
}

func (p *planner) dog(name string) int {
	return slices.IndexFunc(p.kennel.Dogs, func(d kennel.Dog) bool { return d.Name == name })
}

func areaOf(w lived.Week, dog int, name kennel.AreaName) int {
	return slices.IndexFunc(w.Dogs[dog].Areas, func(a lived.Area) bool { return a.Name == string(name) })
}

// comparedWeeks is over how many coming weeks two plans are compared.
const comparedWeeks = 3

// compare counts which shares of the weeks after the one under way the new plan has as the last one had them.
func (p *planner) compare(r optimize.Result) {
	if p.last == nil {
		return
	}
	was, is := sharesOf(*p.last, r.Week0), sharesOf(r, r.Week0)
	for at, x := range is {
		p.same += min(x, was[at])
		p.all += x / 2
	}
	for _, x := range was {
		p.all += x / 2
	}
}

// shareAt is an area of a dog in a week.
type shareAt struct {
	week kennel.Date
	dog  string
	area kennel.AreaName
}

func sharesOf(r optimize.Result, from kennel.Date) map[shareAt]float64 {
	all := map[shareAt]float64{}
	for _, w := range r.Weeks {
		if w.Week < from || w.Week >= from.AddDays(comparedWeeks*kennel.DaysAWeek) {
			continue
		}
		for _, d := range w.Dogs {
			for _, a := range d.Areas {
				all[shareAt{w.Week, d.Dog, a.Area}] += float64(a.Share)
			}
		}
	}
	return all
}

// blind is a handler that plans once and does that, whatever comes of it.
type blind struct {
	planner
}

// Monday is what the first plan has in the week, laid into its days one after another.
func (b *blind) Monday(w lived.Week) ([]lived.Session, error) {
	if b.last == nil {
		return b.planner.Monday(w)
	}
	week := b.last.Weeks[w.Week]
	left := w.Hours
	for _, d := range week.Duties {
		for n := range left { // care is short: the fullest day takes it
			if left[n] == slices.Max(left[:]) {
				left[n] -= float64(d.Minutes)
				break
			}
		}
	}
	var all []lived.Session
	for _, d := range week.Dogs {
		all = append(all, b.lay(w, d, &left)...)
	}
	return all, nil
}

// lay lays a dog's sessions of a week into its days, with a free day between: each as early as it finds room, and where no day has enough of it, as much
// as the day with most room holds.
func (b *blind) lay(w lived.Week, of optimize.DogWeek, left *[kennel.DaysAWeek]float64) (all []lived.Session) {
	dog := b.dog(of.Dog)
	next := 0
	for range of.Sessions {
		minutes := float64(of.Minutes) / float64(of.Sessions)
		day, most := -1, 0.0
		for n := next; n < kennel.DaysAWeek; n++ {
			if b.tooNear(w, dog, w.Day()+n) {
				continue
			}
			if room := roomIn(left[n]-w.Dogs[dog].SetUp, minutes); room > most {
				day, most = n, room
			}
		}
		if day < 0 {
			break
		}
		x := lived.Session{Dog: dog, Day: w.Day() + day, Minutes: most}
		for _, a := range of.Areas {
			x.Takes = append(x.Takes, lived.Take{Area: areaOf(w, dog, a.Area), Share: float64(a.Share) / float64(of.Sessions)})
		}
		left[day] -= w.Dogs[dog].SetUp + most + lived.Breaks(most) + betweenDogs
		all = append(all, x)
		next = day + 2
	}
	return all
}

// roomIn is how many of some minutes of pulling fit a day that has some left, with their breaks.
func roomIn(left, minutes float64) float64 {
	for room := min(left, minutes); room > 0; room-- {
		if room+lived.Breaks(room) <= left {
			return room
		}
	}
	return 0
}

// betweenDogs is a break between two dogs, in minutes, that is kept free.
const betweenDogs = 10

// tooNear reports whether the day is one of the last two before a show of the dog, or its day.
func (b *blind) tooNear(w lived.Week, dog, day int) bool {
	return slices.ContainsFunc(w.Shows, func(s lived.Show) bool {
		return slices.Contains(s.Dogs, dog) && s.Day >= day && s.Day-day <= 2
	})
}
