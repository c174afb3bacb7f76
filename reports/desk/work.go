package desk

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
	"tuckup/reports/say"
)

// workPage writes down one stretch of work.
type workPage struct {
	frame
	Form    *form
	Dog     string
	Dogs    []option
	Hands   []option
	Duties  []option
	Areas   []areaField
	Measure []option
	Back    string
	Planned bool
	Looked  bool // something was seen of a long layer
	Recent  []workRow
}

type areaField struct {
	Area    kennel.AreaName
	Planned string     // how much of it, in words; empty = none
	Seen    *fieldView // how its long layer was seen; nil for kept hair
	fieldView
}

type workRow struct {
	ID        int64
	Day, Dog  string
	What, How string
}

func (d *Desk) work(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	q := r.URL.Query()
	f := newForm("work", l.version)
	for _, name := range []string{"dog", "on", "hands", "stopped", "duty"} {
		f.set(name, q.Get(name))
	}
	if f.get("on") == "" {
		f.set("on", l.today.String())
	}
	if f.get("hands") == "" {
		f.set("hands", firstHands(l))
	}
	on, err := kennel.ParseDate(f.get("on"))
	if err != nil {
		return notFound("day")
	}
	planned := plannedFor(l, f.get("dog"), on, f.get("hands"))
	var minutes kennel.Minutes
	for _, a := range planned {
		f.set("share."+string(a.Area), shareWords(a.Share))
		minutes += a.Minutes
	}
	if dog, ok := l.dogNamed(f.get("dog")); ok && len(planned) > 0 && minutes > 0 {
		minutes += dog.Table.SetUp
		f.set("minutes", strconv.Itoa(int(minutes+0.5)))
	}
	d.renderWork(w, r, l, f)
	return nil
}

func (d *Desk) renderWork(w http.ResponseWriter, r *http.Request, l look, f *form) {
	title := "Write down work"
	dog, known := l.dogNamed(f.get("dog"))
	if known {
		title = dog.Name + ": write down work"
	}
	p := workPage{frame: d.frame(l, r, title), Form: f, Dog: dog.Name, Back: f.get("back")}
	on, _ := kennel.ParseDate(f.get("on"))
	if p.Back == "" {
		v := url.Values{}
		if on != l.today && on != 0 {
			v.Set("day", on.String())
		}
		if h := f.get("hands"); h != firstHands(l) {
			v.Set("hands", h)
		}
		p.Back = todayPath + "?" + v.Encode()
	}
	for _, x := range l.dogs() {
		p.Dogs = append(p.Dogs, option{Value: x.Name, Words: x.Name})
	}
	for _, h := range l.state.Kennel.Hands {
		p.Hands = append(p.Hands, option{Value: h.Name, Words: h.Name})
	}
	if known {
		planned := plannedFor(l, dog.Name, on, f.get("hands"))
		p.Planned = len(planned) > 0
		p.Areas = d.areaFields(f, dog, planned)
		p.Looked = slices.ContainsFunc(p.Areas, func(a areaField) bool { return a.Seen != nil && a.Seen.Value != "" })
		p.Measure = append(p.Measure, option{Value: "", Words: "no length"})
		for _, a := range p.Areas {
			p.Measure = append(p.Measure, option{Value: string(a.Area), Words: string(a.Area)})
		}
		p.Duties = append(p.Duties, option{Value: "", Words: "pulling"})
		for _, x := range dog.WithCare(d.opt.Patterns[dog.Pattern]).Duties {
			p.Duties = append(p.Duties, option{Value: x.Name, Words: x.Name})
		}
		p.Duties = append(p.Duties, option{Value: bathDuty, Words: bathDuty})
		for _, x := range slices.Backward(l.state.Work) {
			if x.Dog == dog.Name && len(p.Recent) < 5 {
				p.Recent = append(p.Recent, newWorkRow(x, l.today))
			}
		}
	}
	d.render(w, f.status(), "work", p)
}

func newWorkRow(w book.Work, today kennel.Date) workRow {
	return workRow{ID: w.ID, Day: say.Day(w.On, today), Dog: w.Dog, What: say.Work(w.Work), How: doneWords(w.Work)}
}

// areaFields are the areas of the dog's pattern, those of the plan first in their working order.
func (d *Desk) areaFields(f *form, dog kennel.Dog, planned []optimize.AreaWork) (all []areaField) {
	add := func(a kennel.AreaName, share kennel.Share) {
		x := areaField{Area: a, fieldView: newField(f, "share."+string(a), string(a))}
		if share > 0 {
			x.Planned = kennel.ShareWords(share)
		}
		if of, ok := d.opt.Patterns[dog.Pattern].Area(a); ok && !of.Kept {
			seen := newChoice(f, "seen."+string(a), string(a), longChoices())
			x.Seen = &seen
		}
		all = append(all, x)
	}
	for _, a := range planned {
		add(a.Area, a.Share)
	}
	for _, a := range d.opt.Patterns[dog.Pattern].Areas {
		if !slices.ContainsFunc(planned, func(x optimize.AreaWork) bool { return x.Area == a.Name }) {
			add(a.Name, 0)
		}
	}
	return all
}

// longChoices are the ways in which a long layer may be seen.
func longChoices() []option {
	all := []option{{Value: "", Words: "not looked at"}}
	for _, l := range kennel.LongSeens() {
		all = append(all, option{Value: string(l), Words: string(l)})
	}
	return all
}

// shareWords is a share as it is printed, which can be typed too: 1 in 17, half.
func shareWords(s kennel.Share) string { return strings.TrimPrefix(kennel.ShareWords(s), "about ") }

func (d *Desk) saveWork(w http.ResponseWriter, r *http.Request) error {
	f, l, err := d.posted(r, "work")
	if err != nil {
		return err
	}
	switch do := f.get("do"); {
	case do == "drop":
		return d.dropWork(w, r, l, f)
	case do == "look" || f.stepShare(do, l, d.opt.Patterns):
		f.Version = l.version
		d.renderWork(w, r, l, f)
		return nil
	}
	k := f.toWork(l, d.opt.Patterns)
	measure := f.toMeasure(l, k)
	if !f.Bad() {
		var id int64
		done, conflict, err := d.carry(r.Context(), edit{
			version: f.Version,
			key:     f.Key,
			adds:    true,
			lands: func(book.Done) string {
				said := "done"
				if k.Stopped {
					said = "left"
				}
				return address(r, f.get("back"), said, "work", strconv.FormatInt(id, 10))
			},
			about: func(s book.State) []fact { return dayFacts(s, k) },
			do: func(s *book.State) (string, error) {
				if _, err := s.Kennel.FindDog(k.Dog); err != nil {
					return "", err
				}
				s.Record(k)
				id = s.Work[len(s.Work)-1].ID
				if measure != nil {
					s.Measures = append(s.Measures, book.Measure{Measure: *measure})
				}
				return fmt.Sprintf("wrote down work on %s on %s", k.Dog, k.On), nil
			},
		})
		if conflict == nil && err == nil {
			lead(w, r, done.Answer)
			return nil
		}
		if conflict != nil {
			f.Conflict = conflict
		} else if err := f.take(err, map[string]string{"dog": "dog", "minutes": "minutes", "length": "length", "note": "note", "on": "on"}); err != nil {
			return err
		}
		if l, err = d.look(r.Context()); err != nil {
			return err
		}
	}
	f.Version = l.version
	d.renderWork(w, r, l, f)
	return nil
}

// dayFacts are what was written down of the dog of a stretch of work on its day that could be the same work: pulling, or the same duty.
func dayFacts(s book.State, k kennel.Work) (all []fact) {
	for _, w := range s.Work {
		if w.Dog == k.Dog && w.On == k.On && w.Duty == k.Duty {
			all = append(all, fact{fmt.Sprintf("work %d", w.ID), fmt.Sprintf("%s, %s, %s", say.Work(w.Work), say.Minutes(w.Minutes), w.Hands)})
		}
	}
	for _, d := range s.Kennel.Dogs {
		if d.Name == k.Dog {
			return all
		}
	}
	return append(all, fact{k.Dog, "is not in the book"})
}

// toWork reads what was done.
func (f *form) toWork(l look, pats kennel.Patterns) (k kennel.Work) {
	k.Dog = f.get("dog")
	dog, ok := l.dogNamed(k.Dog)
	if !ok {
		f.wrong("dog", "is not a dog of the string")
	}
	if k.On = f.date("on", true); k.On > l.today {
		f.wrong("on", "is after today: work is written down when it is done")
	}
	k.Hands = f.get("hands")
	if k.Hands != "" && !slices.Contains(l.state.Kennel.HandsNames(), k.Hands) {
		f.wrong("hands", "are not known")
	}
	planned := plannedFor(l, k.Dog, k.On, k.Hands)
	tap := f.tapped(planned)
	took := "minutes"
	if tap.on && f.get("minutes") == "" && f.get("planned") != "" {
		took = "planned" // nobody said how long it took
	}
	if f.get(took) == "" {
		f.wrong("minutes", "is missing: how long it took, like 50 or 1h10")
	} else {
		m, err := kennel.ParseMinutes(f.get(took))
		k.Minutes = parsed(f, "minutes", m, err)
		if k.Minutes <= 0 {
			f.wrong("minutes", "must be above 0")
		}
	}
	k.Note, k.Stopped, k.Duty = f.get("note"), f.get("stopped") != "" || tap.after != "", f.get("duty")
	if k.Duty != "" {
		if k.Duty != bathDuty && !slices.Contains(dog.Recordable(pats[dog.Pattern]).DutyNames(), k.Duty) {
			f.wrong("duty", "is not a duty of "+dog.Name)
		}
		k.Stopped = false
		return k
	}
	hair := l.state.LongHair(pats, k.Dog, k.On)
	for _, a := range orderOf(planned, pats[dog.Pattern]) {
		name := "share." + string(a)
		h, long := hair[a], f.long("seen."+string(a))
		if long != "" {
			k.Looks = append(k.Looks, kennel.Look{Area: a, Long: long, Share: h.Seen(long)})
		}
		if f.get(name) == "" {
			continue
		}
		share, err := kennel.ParseShare(f.get(name))
		share = parsed(f, name, share, err)
		for _, p := range planned {
			if p.Area == a && f.get(name) == shareWords(p.Share) {
				share = p.Share // as it was planned, to the last digit
			}
		}
		share = tap.share(f, a, long, h, share)
		if tap.on {
			f.set(name, shareWords(share)) // the form is shown with it, should anything be wrong
		}
		k.Areas = append(k.Areas, kennel.Pulled{Area: a, Share: share})
	}
	k.Areas = kennel.PulledOnly(k.Areas)
	if took == "planned" {
		k.Minutes = tap.minutes(k.Minutes, k.Areas)
		f.set("minutes", kennel.Number(float64(k.Minutes)))
	}
	if len(k.Areas)+len(k.Looks) == 0 && !f.Bad() {
		f.wrong("", "Nothing says what was done: give a share like 1/17 to an area, or choose a duty.")
	}
	return k
}

// stepShare carries out a button that steps the share of an area, or empties all areas behind it, and reports whether it was one.
func (f *form) stepShare(do string, l look, pats kennel.Patterns) bool {
	verb, area, _ := strings.Cut(do, " ")
	name := "share." + area
	switch verb {
	case "less", "more":
		f.set(name, stepped(f.get(name), verb == "more"))
		return true
	case "after":
		dog, _ := l.dogNamed(f.get("dog"))
		on, _ := kennel.ParseDate(f.get("on"))
		order := orderOf(plannedFor(l, dog.Name, on, f.get("hands")), pats[dog.Pattern])
		if i := slices.Index(order, kennel.AreaName(area)); i >= 0 {
			for _, a := range order[i+1:] {
				f.set("share."+string(a), "0")
			}
			f.set("stopped", "yes")
		}
		return true
	}
	return false
}

// long is how a long layer was seen; empty = nobody looked.
func (f *form) long(name string) kennel.LongSeen {
	said := kennel.LongSeen(f.get(name))
	if said != "" && !slices.Contains(kennel.LongSeens(), said) {
		f.wrong(name, "is not a way to see it")
		return ""
	}
	return said
}

func orderOf(planned []optimize.AreaWork, p kennel.Pattern) (areas []kennel.AreaName) {
	for _, a := range planned {
		areas = append(areas, a.Area)
	}
	for _, a := range p.Areas {
		if !slices.Contains(areas, a.Name) {
			areas = append(areas, a.Name)
		}
	}
	return areas
}

// toMeasure reads a length that was taken with the work; nil when there is none.
func (f *form) toMeasure(l look, k kennel.Work) *kennel.Measure {
	area, said := f.get("measured"), f.get("length")
	switch {
	case area == "" && said == "":
		return nil
	case area == "":
		f.wrong("measured", "is missing: which area was measured")
	case said == "":
		f.wrong("length", "is missing: the length that was taken")
	case !slices.Contains(kennel.AreaNames(), kennel.AreaName(area)):
		f.wrong("measured", "is not an area of the coat")
	}
	length, err := kennel.ParseLength(said, l.state.Kennel.Units)
	if said != "" {
		length = parsed(f, "length", length, err)
	}
	return &kennel.Measure{Dog: k.Dog, On: k.On, Area: kennel.AreaName(area), Length: length, Note: ""}
}

// dropWork takes work out that was written down by mistake.
func (d *Desk) dropWork(w http.ResponseWriter, r *http.Request, l look, f *form) error {
	id, err := strconv.ParseInt(f.get("work"), 10, 64)
	if err != nil {
		return notFound("work")
	}
	var was kennel.Work
	for _, x := range l.state.Work {
		if x.ID == id {
			was = x.Work
		}
	}
	done, conflict, err := d.carry(r.Context(), edit{
		version: f.Version,
		key:     f.Key,
		lands:   func(book.Done) string { return address(r, f.get("back"), "dropped", "dog", was.Dog) },
		about: func(s book.State) (all []fact) {
			for _, x := range s.Work {
				if x.ID == id {
					all = append(all, fact{fmt.Sprintf("work %d", id), say.Work(x.Work)})
				}
			}
			return all
		},
		do: func(s *book.State) (string, error) {
			if !s.DropWork(id) {
				return "", notFound("work")
			}
			return fmt.Sprintf("dropped work %d", id), nil
		},
	})
	if err != nil {
		return err
	}
	if conflict != nil {
		return &statusError{http.StatusConflict, "That work was taken out or changed already; nothing was changed now.", "the page again"}
	}
	lead(w, r, done.Answer)
	return nil
}
