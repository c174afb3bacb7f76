package desk

import (
	"net/http"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/help"
	"tuckup/reports/say"
)

const (
	helpPath = "/help"
	whyPath  = "/why"
)

type helpIndex struct {
	frame
	Pages []help.Page
}

type helpPage struct {
	frame
	Page  help.Page
	Pages []help.Page
}

// help lists the pages on how a plan thinks.
func (d *Desk) help(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	d.render(w, http.StatusOK, "help", helpIndex{d.frame(l, r, "How a plan thinks"), help.Pages(d.opt.Patterns)})
	return nil
}

func (d *Desk) helpOn(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p, ok := help.Find(d.opt.Patterns, r.PathValue("page"))
	if !ok {
		return notFound("page of help")
	}
	d.render(w, http.StatusOK, "helpon", helpPage{d.frame(l, r, p.Title), p, help.Pages(d.opt.Patterns)})
	return nil
}

type whyPage struct {
	frame
	There bool
	Days  []whyDay
}

type whyDay struct {
	Day   string
	Items []whyItem
}

// whyItem is a session of the sheet.
type whyItem struct {
	Dog, Path, Hands, Why, Pattern, PatternPath string
	Lines                                       []whyLine
}

// whyLine is one line of the sheet: an area, and what is behind it.
type whyLine struct {
	Area, Share, Minutes string
	Figures              []whyFigure
}

// whyFigure is a rule with its figure, where that comes from, and how well it is attested.
type whyFigure struct{ Says, Source, Mark string }

// why shows the sheet of the plan in use with the rules and figures behind each of its lines.
func (d *Desk) why(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	p := whyPage{frame: d.frame(l, r, "Why this?"), There: l.plan != nil}
	if l.plan != nil {
		for _, day := range l.plan.days(l.today) {
			if v := d.whyDay(l, day); day.On >= l.today && len(v.Items) > 0 {
				p.Days = append(p.Days, v)
			}
		}
	}
	d.render(w, http.StatusOK, "why", p)
	return nil
}

func (d *Desk) whyDay(l look, day optimize.Day) whyDay {
	v := whyDay{Day: say.LongDay(day.On)}
	for _, h := range say.Busy(day) {
		for _, i := range h.Items {
			dog, ok := l.dogNamed(i.Dog)
			if i.Kind != optimize.ItemSession || !ok {
				continue
			}
			p := d.opt.Patterns[dog.Pattern]
			x := whyItem{Dog: i.Dog, Path: dogPath(i.Dog), Hands: h.Hands, Why: i.Why, Pattern: p.Title, PatternPath: patternsPath + "/" + dog.Pattern}
			for _, a := range i.Areas {
				x.Lines = append(x.Lines, whyLine{
					Area: string(a.Area), Share: kennel.ShareWords(a.Share), Minutes: say.Minutes(a.Minutes), Figures: whyFigures(p, a.Area, dog.Coat),
				})
			}
			v.Items = append(v.Items, x)
		}
	}
	return v
}

// whyFigures are the rules behind work on an area, each with its figure on the dog.
func whyFigures(p kennel.Pattern, name kennel.AreaName, coat kennel.Coat) (all []whyFigure) {
	a, ok := p.Area(name)
	if !ok {
		return nil
	}
	add := func(says string, f kennel.Figure) {
		source := f.Source
		if source == "" {
			source = "no source"
		}
		all = append(all, whyFigure{says, source, string(f.Mark)})
	}
	weeks := func(x float64) string { return kennel.Number(x) + " weeks" }
	grows := ""
	if coat.Growth != 0 && coat.Growth != 1 {
		grows = "; its growth of " + kennel.Number(coat.Growth) + " divides that"
	}
	add("Its hair is long enough to show "+weeks(a.Ready.Value)+" after the pull"+grows, a.Ready)
	add("and then right for "+weeks(a.Hold.Value), a.Hold)
	add("Hair below "+weeks(a.Grip.Value)+" can't be gripped, so the longest is pulled", a.Grip)
	add("All of it at once would take "+say.Minutes(kennel.Minutes(a.Minutes.Value)), a.Minutes)
	add("In the last "+weeks(a.FinishWeeks.Value)+" before a show it gives up no more than "+kennel.ShareWords(kennel.Share(a.FinishShare.Value))+" a week", a.FinishShare)
	return all
}

// helpRoutes are the pages that explain.
func (d *Desk) helpRoutes() map[string]handler {
	return map[string]handler{"GET " + helpPath: d.help, "GET " + helpPath + "/{page}": d.helpOn, "GET " + whyPath: d.why}
}
