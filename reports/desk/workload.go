package desk

import (
	"bytes"
	"crypto/subtle"
	"net/http"
	"net/url"
	"strings"
	"sync"

	"tuckup/optimize"
	"tuckup/reports"
	"tuckup/reports/calendar"
	"tuckup/reports/html"
)

type workloadPage struct {
	frame
	Parts    []html.Part
	Calendar string // its path with the key; empty = there is none
}

func (d *Desk) workload(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := workloadPage{frame: d.frame(l, r, "Workload")}
	if l.plan != nil {
		if p.Parts, err = l.plan.views.workload(l.plan.Result); err != nil {
			return err
		}
	}
	if d.opt.CalendarKey != "" {
		p.Calendar = CalendarPath + "?key=" + url.QueryEscape(d.opt.CalendarKey)
	}
	p.Stream, p.Refresh = streamTo(l, "/workload"), l.plan == nil && l.status.Running
	d.render(w, http.StatusOK, "workload", p)
	return nil
}

// planInUse is the plan that files are made from.
func (d *Desk) planInUse(r *http.Request) (*planned, error) {
	l, err := d.look(r.Context())
	if err != nil {
		return nil, err
	}
	if l.plan == nil {
		return nil, &statusError{http.StatusServiceUnavailable, "There is no plan yet.", "again in a minute"}
	}
	return l.plan, nil
}

func (d *Desk) workloadCSV(w http.ResponseWriter, r *http.Request) error {
	x, err := d.planInUse(r)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := reports.WorkloadCSV(&b, x.Result); err != nil {
		return err
	}
	d.send(w, "text/csv; charset=utf-8", `attachment; filename="workload.csv"`, b.Bytes())
	return nil
}

// send answers with a file.
func (d *Desk) send(w http.ResponseWriter, kind, disposition string, content []byte) {
	if strings.HasPrefix(kind, "text/html") {
		content = d.reader().page(content)
	}
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Content-Disposition", disposition)
	h.Set("Cache-Control", "no-store")
	if _, err := w.Write(content); err != nil {
		d.opt.Log.Debug().Err(err).Msg("the reader has gone")
	}
}

// CalendarPath is where the calendar that follows the plan is fetched, with the key.
const CalendarPath = "/calendar.ics"

// published is the calendar as it was sent last, so that entries keep their names and their times of change.
type published struct {
	mu   sync.Mutex
	last []byte
}

func (d *Desk) calendar(w http.ResponseWriter, r *http.Request) error {
	key := r.URL.Query().Get("key")
	if d.opt.CalendarKey == "" || subtle.ConstantTimeCompare([]byte(key), []byte(d.opt.CalendarKey)) != 1 {
		return &statusError{http.StatusForbidden, "The address of the calendar has no key, or a wrong one.", "the address on the page Workload"}
	}
	x, err := d.planInUse(r)
	if err != nil {
		return err
	}
	content, err := d.cal.write(x.Result, d)
	if err != nil {
		return err
	}
	d.send(w, "text/calendar; charset=utf-8", `inline; filename="coat-work.ics"`, content)
	return nil
}

// write is the calendar of the plan.
func (p *published) write(r optimize.Result, d *Desk) ([]byte, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	var before calendar.Published
	if p.last != nil {
		var err error
		if before, err = calendar.Read(p.last, r.Kennel.Name); err != nil {
			before = calendar.Published{} // the kennel has another name now
		}
	}
	var b bytes.Buffer
	if err := calendar.Write(&b, r, before, d.opt.Now()); err != nil {
		return nil, err
	}
	p.last = b.Bytes()
	return p.last, nil
}
