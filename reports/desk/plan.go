package desk

import (
	"errors"
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
		v := l.next.views.changes(l.plan.Result, l.next.Result)
		p.Changes = &v
	}
	if l.status.Running {
		p.Stream = "/progress?go=%2Fplan"
		p.Refresh = true
	}
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
		d.plans.again(l.state, l.version, l.today)
		back(w, r, to, "started")
	case "stop":
		d.plans.stop()
		back(w, r, to, "stopped")
	case "refuse":
		d.plans.refuse()
		back(w, r, to, "refused")
	case "accept":
		return d.accept(w, r, l, f.Key, to)
	default:
		return notFound("thing to do with a plan")
	}
	return nil
}

// accept makes the plan that waits the plan in use, and agrees on its sessions in the book.
func (d *Desk) accept(w http.ResponseWriter, r *http.Request, l look, key, to string) error {
	x := l.next
	if x == nil {
		x = l.plan
	}
	if x == nil {
		return notFound("plan")
	}
	sessions := x.SessionsAhead()
	once := book.Once{Key: key, Answer: func(book.Done) string { return address(r, to, "accepted") }}
	done, err := d.opt.Book.CarryOnce(r.Context(), x.version, once, func(s *book.State) (string, error) {
		return fmt.Sprintf("agreed on %s from %s on", say.Plural(len(sessions), "session"), x.On), s.Take(x, x.On, x.version)
	})
	var stale *book.StaleError
	if errors.As(err, &stale) {
		return &statusError{http.StatusConflict, "The book was changed since that plan was made; it is being made again.", "the page again"}
	}
	if err != nil {
		return err
	}
	d.changed(done)
	if !done.Again {
		d.plans.take(x.Result, done.Version)
	}
	lead(w, r, done.Answer)
	return nil
}
