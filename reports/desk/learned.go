package desk

import (
	"fmt"
	"net/http"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize/learn"
	"tuckup/reports/say"
)

const learnPath = "/learned"

type learnedPage struct {
	frame
	Dogs   []learnedDog
	None   int    // dogs without records
	Missed string // what the records say of sessions that were missed; empty = nothing
	News   int    // factors that are new
	Unused []string
}

// learnedDog is what the records of one dog say.
type learnedDog struct {
	Dog  string
	Rows []learnedRow
}

type learnedRow struct {
	What, Now, Found, Range, Records string
	News                             bool
}

func (d *Desk) learnedDogs(l look) ([]learn.Dog, learn.Estimate, error) {
	if d.opt.Learn == nil {
		return nil, learn.Estimate{}, notFound("page")
	}
	return d.opt.Learn(l.state, l.today)
}

func (d *Desk) learned(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	dogs, missed, err := d.learnedDogs(l)
	if err != nil {
		return err
	}
	p := learnedPage{frame: d.frame(l, r, "What the records say")}
	for _, x := range dogs {
		if x.Growth.Records+x.Pace.Records == 0 {
			p.None++
			continue
		}
		v := learnedDog{Dog: x.Dog}
		v.add("growth", x.Growth)
		for _, a := range x.Areas {
			v.add("growth of the "+string(a.Area), a.Growth)
		}
		v.add("pace", x.Pace)
		v.add("pace with dead hair", x.Dead)
		for _, u := range x.Unused {
			p.Unused = append(p.Unused, fmt.Sprintf("%s, %s: %s", x.Dog, say.Day(u.On, l.today), u.Why))
		}
		for _, row := range v.Rows {
			if row.News {
				p.News++
			}
		}
		p.Dogs = append(p.Dogs, v)
	}
	if missed.Records > 0 {
		p.Missed = fmt.Sprintf("Of %s agreed on for days gone by plans count on %s as missed (%s to %s).",
			say.Plural(missed.Records, "session"), say.Percent(missed.Value), say.Percent(missed.Low), say.Percent(missed.High))
	}
	d.render(w, http.StatusOK, "learned", p)
	return nil
}

func (v *learnedDog) add(what string, e learn.Estimate) {
	if e.Records == 0 {
		return
	}
	row := learnedRow{What: what, Found: factorWords(e.Value), Range: factorWords(e.Low) + " to " + factorWords(e.High), Records: say.Plural(e.Records, "record")}
	if e.Told != 0 {
		row.Now, row.News = factorWords(e.Told), e.News() && (what == "growth" || what == "pace")
	}
	v.Rows = append(v.Rows, row)
}

func factorWords(x float64) string { return fmt.Sprintf("%.2f", x) }

func (d *Desk) saveLearned(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "learned")
	if err != nil {
		return err
	}
	if f.get("do") != "take" {
		return notFound("thing to do here")
	}
	dogs, _, err := d.learnedDogs(l)
	if err != nil {
		return err
	}
	trial := l.state.Kennel.Clone()
	n := learn.Adopt(&trial, dogs)
	done, conflict, err := d.carry(r.Context(), edit{
		version: f.Version,
		key:     f.Key,
		lands: func(done book.Done) string {
			if len(done.Changes) == 0 {
				return address(r, learnPath, "nothing")
			}
			return address(r, learnPath, "learned")
		},
		about: func(s book.State) (all []fact) {
			for _, x := range s.Kennel.Dogs {
				all = append(all, fact{x.Name, kennel.Number(x.Coat.Growth) + " " + kennel.Number(x.Coat.Pace)})
			}
			return append(all, fact{"records", fmt.Sprint(len(s.Work), len(s.Measures), len(s.Showables))})
		},
		do: func(s *book.State) (string, error) {
			s.Kennel = s.Kennel.Clone()
			learn.Adopt(&s.Kennel, dogs)
			return fmt.Sprintf("learned %d factors of growth and pace", n), nil
		},
	})
	if err != nil {
		return err
	}
	if conflict != nil {
		return &statusError{http.StatusConflict, "Records came in since you opened this page, so that something else would be taken than it said; nothing was changed.", "the page again"}
	}
	lead(w, r, done.Answer)
	return nil
}
