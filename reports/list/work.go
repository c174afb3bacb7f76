package list

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// WorkRow is one stretch of work with its number in the book.
type WorkRow struct {
	ID int64
	kennel.Work
}

// WorkDone is the work that was written down, and a week of it against what was agreed.
type WorkDone struct {
	Day  kennel.Date // a day of the week that is told
	Week []kennel.DogDone
	Rows []WorkRow // the newest first
}

type toldWork struct {
	ID      int64      `json:"number"`
	Dog     string     `json:"dog"`
	On      string     `json:"on"`
	Hands   string     `json:"hands,omitempty"`
	Minutes float64    `json:"minutes"`
	Duty    string     `json:"duty,omitempty"`
	Areas   []toldPull `json:"areas,omitempty"`
	Looks   []toldLook `json:"seen,omitempty"`
	Stopped bool       `json:"stopped,omitempty"`
	Note    string     `json:"note,omitempty"`
}

type toldPull struct {
	Area  string  `json:"area"`
	Share float64 `json:"share"`
}

type toldLook struct {
	Area  string  `json:"area"`
	Long  string  `json:"long"`
	Share float64 `json:"share"`
}

func toldWorks(rows []WorkRow) []toldWork {
	docs := []toldWork{}
	for _, w := range rows {
		doc := toldWork{
			ID: w.ID, Dog: w.Dog, On: w.On.String(), Hands: w.Hands, Minutes: float64(w.Minutes), Duty: w.Duty, Stopped: w.Stopped, Note: w.Note,
		}
		for _, a := range w.Areas {
			doc.Areas = append(doc.Areas, toldPull{string(a.Area), layout.Rounded(float64(a.Share), layout.ShareDecimals)})
		}
		for _, x := range w.Looks {
			doc.Looks = append(doc.Looks, toldLook{string(x.Area), string(x.Long), layout.Rounded(float64(x.Share), layout.ShareDecimals)})
		}
		docs = append(docs, doc)
	}
	return docs
}

// doneWords is what was done in words.
func doneWords(w kennel.Work) string {
	said := say.Plain(w.Duty)
	if said == "" {
		said = cmp.Or(pulledWords(w.Areas), "nothing pulled")
	}
	if len(w.Looks) > 0 {
		said += "; long layer seen: " + say.Looks(w.Looks)
	}
	if w.Stopped {
		said += ", stopped early"
	}
	if w.Note != "" {
		said += " (" + say.Plain(w.Note) + ")"
	}
	return said
}

func pulledWords(areas []kennel.Pulled) string {
	all := make([]string, len(areas))
	for i, a := range areas {
		all[i] = string(a.Area) + " " + kennel.ShareWords(a.Share)
	}
	return strings.Join(all, ", ")
}

// Work writes work as a page of text: the week against what was agreed, then every line.
func Work(w io.Writer, told WorkDone, l layout.Look) error {
	p := layout.NewPage(w, l)
	if len(told.Week) > 0 {
		p.Strong("THIS WEEK", "as it was agreed and as it was done")
		for _, d := range told.Week {
			weekDone(p, d)
		}
		p.Blank()
	}
	if len(told.Rows) == 0 {
		p.Say(0, "", "no work is written down yet: tuckup work add DOG AREA SHARE .., 50 min")
		return p.Done()
	}
	t := layout.Table{Right: map[int]bool{0: true, 3: true}}
	for _, r := range told.Rows {
		t.Add(strconv.FormatInt(r.ID, 10), r.On.String(), say.Plain(r.Dog), say.Minutes(r.Minutes), doneWords(r.Work))
	}
	p.Table(0, t)
	return p.Done()
}

func weekDone(p *layout.Page, d kennel.DogDone) {
	agreed := say.Plural(d.Agreed, "session")
	if !d.Stranger {
		agreed += ", " + say.Minutes(d.AgreedMinutes)
	}
	done := fmt.Sprintf("%s, %s", say.Plural(d.Done, "session"), say.Minutes(d.DoneMinutes))
	if d.Stopped > 0 {
		done += fmt.Sprintf(", %d stopped early", d.Stopped)
	}
	p.Say(2, "", "%s: agreed %s; done %s", say.Plain(d.Dog), agreed, done)
	var t layout.Table
	for _, a := range d.Areas {
		t.Add(string(a.Area), "agreed "+kennel.ShareWords(a.Agreed), "done "+kennel.ShareWords(a.Done))
	}
	p.Table(6, t)
	if len(d.Duties) > 0 {
		duties := make([]string, len(d.Duties))
		for i, x := range d.Duties {
			duties[i] = say.Plain(x)
		}
		p.Say(6, "", "duties done: %s, %s", strings.Join(duties, ", "), say.Minutes(d.DutyMinutes))
	}
}

// WorkJSON writes a list of objects, one for each stretch of work, the newest first.
func WorkJSON(w io.Writer, told WorkDone) error { return layout.JSON(w, toldWorks(told.Rows)) }

// WorkCSV writes one row for each area that was pulled or looked at and for each duty, the newest work first. Minutes stand in the
// first row of their stretch of work.
func WorkCSV(w io.Writer, told WorkDone) error {
	var rows [][]string
	for _, r := range told.Rows {
		minutes := kennel.Number(float64(r.Minutes))
		line := func(area kennel.AreaName, share string, seen kennel.Look) {
			long := ""
			if seen.Long != "" {
				long = layout.Number(float64(seen.Share), layout.ShareDecimals)
			}
			rows = append(rows, []string{
				strconv.FormatInt(r.ID, 10), r.On.String(), layout.Cell(r.Dog), layout.Cell(r.Hands), string(area), share, layout.Cell(r.Duty), minutes,
				strconv.FormatBool(r.Stopped), layout.Cell(r.Note), string(seen.Long), long,
			})
			minutes = ""
		}
		look := func(area kennel.AreaName) (seen kennel.Look) {
			if i := slices.IndexFunc(r.Looks, func(x kennel.Look) bool { return x.Area == area }); i >= 0 {
				seen = r.Looks[i]
			}
			return seen
		}
		for _, a := range r.Areas {
			line(a.Area, layout.Number(float64(a.Share), layout.ShareDecimals), look(a.Area))
		}
		for _, x := range r.Looks {
			if !slices.ContainsFunc(r.Areas, func(a kennel.Pulled) bool { return a.Area == x.Area }) {
				line(x.Area, "", x)
			}
		}
		if len(r.Areas)+len(r.Looks) == 0 {
			line("", "", kennel.Look{})
		}
	}
	return layout.CSV(w, []string{"number", "on", "dog", "hands", "area", "share", "duty", "minutes", "stopped", "note", "seen", "seen_share"}, rows)
}
