package desk

import (
	"fmt"
	"sync"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// advice is what to enter, worked out when it is asked for and for one plan.
type advice struct {
	mu      sync.Mutex
	asking  bool
	version int64
	on      kennel.Date
	entries []optimize.Entry
	full    bool
	err     error
}

// ask works the advice out in the background, once.
func (a *advice) ask(d *Desk, l look) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.asking || d.opt.Advise == nil || a.full && a.version == l.version && a.on == l.today {
		return
	}
	a.asking, a.full, a.version, a.on = true, false, l.version, l.today
	d.plans.all.Go(func() {
		entries, err := d.opt.advise(d.plans.ctx, Wish{State: l.state, On: l.today, Begin: l.plan.begin()})
		a.mu.Lock()
		defer a.mu.Unlock()
		a.asking, a.full, a.entries, a.err = false, true, entries, err
	})
}

// forget has the advice worked out again when it is asked for.
func (a *advice) forget() {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.full = false
}

// advice fills in what is said of entries.
func (p *showsPage) advice(d *Desk, l look) {
	a := &d.advice
	a.mu.Lock()
	defer a.mu.Unlock()
	p.Asking = a.asking
	hoped := false
	for _, s := range l.state.Kennel.Shows {
		hoped = hoped || !s.Entered() && s.On >= l.today
	}
	p.Advise = d.opt.Advise != nil && hoped && !a.asking
	if !a.full || a.version != l.version || a.on != l.today {
		return
	}
	p.Advise = false
	if a.err != nil {
		p.AskErr, _ = errorWords(a.err, l.state.Kennel)
		return
	}
	for _, e := range a.entries {
		row := adviceRow{
			Show: e.Show, Dog: e.Dog, Day: say.Day(e.On, l.today), Advice: say.Advice(e), Reason: e.Reason, Score: kennel.ScoreWords(e.Score),
		}
		if e.Cure != nil {
			row.Reason = say.Cure(e.Cure, l.today) + ": " + e.Reason
		}
		if e.Closes != 0 {
			row.Closes = say.Day(e.Closes, l.today)
		}
		if e.High > 0 {
			row.Range = fmt.Sprintf("%s to %s", kennel.ScoreWords(e.Low), kennel.ScoreWords(e.High))
		}
		p.Advice = append(p.Advice, row)
	}
}
