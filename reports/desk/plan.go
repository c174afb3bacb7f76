package desk

import (
	"fmt"
	"net/http"

	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/reports/say"
)

type planPage struct {
	frame
	Use, Next  string // how good the plans are
	Changes    *changesView
	Cannot     []optimize.Cannot
	Begun      bool
	Objective  string
	Bound      string
	Seconds    string
	Percent    int
	CanStart   bool
	WasStopped bool
	Looking    bool // for a better plan than the one in use
}

func (d *Desk) plan(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := planPage{frame: d.frame(l, r, "Plan"), CanStart: !l.status.Running && len(l.dogs()) > 0 && len(l.state.Kennel.Hands) > 0, WasStopped: l.status.Stopped}
	if l.status.Begun {
		p.Begun = true
		p.Objective, p.Bound, p.Seconds = figures(l.status)
		p.Percent = percentOf(l.status)
	}
	if l.plan != nil {
		p.Use, p.Cannot = say.Worth(l.plan.Result), l.plan.Cannot
	}
	if l.next != nil {
		p.Next = say.Worth(l.next.Result)
		var use optimize.Result
		if l.plan != nil {
			use = l.plan.whole
		}
		v := l.next.views.changes(use, l.next.Result)
		p.Changes = &v
	}
	if l.status.Running {
		p.Stream = "/progress?go=%2Fplan"
		p.Refresh = true
	}
	p.Looking = l.status.Better
	d.render(w, http.StatusOK, "plan", p)
	return nil
}

func figures(s status) (objective, bound, seconds string) {
	if !s.Begun {
		return "", "", ""
	}
	return fmt.Sprintf("%.2f", s.Objective), fmt.Sprintf("%.2f", s.Bound), fmt.Sprintf("%.0f", s.Seconds)
}

// percentOf is how near the plan is to the bound, in percent.
func percentOf(s status) int {
	if !s.Begun || s.Bound <= 0 || s.Objective <= 0 {
		return 0
	}
	return int(100 * min(1, s.Objective/s.Bound))
}

func (d *Desk) savePlan(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "plan")
	if err != nil {
		return err
	}
	to := f.get("back")
	if to == "" {
		to = "/plan"
	}
	switch f.get("do") {
	case "start":
		d.plans.again(l)
		back(w, r, to, "started")
	case "stop":
		d.plans.stop()
		back(w, r, to, "stopped")
	case "throw away":
		d.plans.throwAway()
		back(w, r, to, "refused")
	case "take":
		return d.take(w, r, l, f, to)
	default:
		return notFound("thing to do with a plan")
	}
	return nil
}

// take makes the plan that waits the plan in use.
func (d *Desk) take(w http.ResponseWriter, r *http.Request, l look, f *form, to string) error {
	x := l.next
	if x == nil {
		return notFound("plan that waits")
	}
	done, _, err := d.carry(r.Context(), edit{
		version: f.Version,
		key:     f.Key,
		lands:   func(book.Done) string { return address(r, to, "taken") },
		about:   func(book.State) []fact { return nil }, // what has changed since is said beside it
		do:      func(s *book.State) (string, error) { return tookWords(x.Result), s.Take(x.Result, x.On, x.ask.version) },
	})
	if err != nil {
		return err
	}
	if !done.Again {
		d.plans.taken()
	}
	lead(w, r, done.Answer)
	return nil
}
