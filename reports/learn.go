package reports

import (
	"fmt"
	"io"

	"tuckup/kennel"
	"tuckup/optimize/learn"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// outOfLine is the trust below which a record is told as out of line with the others.
const outOfLine = 0.3

// Learned writes what the records say of growth and pace: the estimates beside what the kennel has, the records that are
// out of line, and those that say nothing, and how many of the sessions agreed on are missed.
func Learned(w io.Writer, kennelName string, dogs []learn.Dog, missed learn.Estimate, today kennel.Date, l layout.Look) error {
	p := layout.NewPage(w, l)
	p.Strong(say.Plain(kennelName), "learned from the records up to "+say.LongDay(today))
	p.Heading("GROWTH AND PACE", "what the kennel has, what the records say, the range that holds it 9 times in 10")
	t := layout.Table{Right: map[int]bool{2: true, 3: true}}
	none := 0
	for _, d := range dogs {
		if d.Growth.Records+d.Pace.Records == 0 {
			none++
			continue
		}
		rows := []estimateRow{{"growth", d.Growth}}
		for _, a := range d.Areas {
			rows = append(rows, estimateRow{say.Plain(string(a.Area)), a.Growth})
		}
		estimateRows(&t, say.Plain(d.Dog), append(rows, estimateRow{"pace", d.Pace}, estimateRow{"pace, dead hair", d.Dead}))
	}
	p.Table(2, t)
	if none > 0 {
		p.Say(2, "", "%s without records: its growth and pace are what its pattern says, or what you set.", say.Plural(none, "dog"))
	}
	if e := learn.Pick(dogs); e.Records > 0 && (e.Told < e.Low || e.Told > e.High) {
		p.Say(2, "", "Living hair takes %.1f times the minutes of a strip (%.1f to %.1f, from %s with dead hair); the plan counts on %.1f. "+
			"Where %.1f is right for your hands, set it: pick, or TUCKUP_PICK=%.1f; then learn again.",
			e.Value, e.Low, e.High, say.Plural(e.Records, "session"), e.Told, e.Value, e.Value)
	}
	if missed.Records > 0 {
		p.Say(2, "", "Of %s agreed on for days gone by plans count on %s as missed (%s to %s; the setting missed says %s): their promises and ranges know it.",
			say.Plural(missed.Records, "session"), say.Percent(missed.Value), say.Percent(missed.Low), say.Percent(missed.High), say.Percent(missed.Told))
	}
	outOfLineList(p, dogs, today)
	unusedList(p, dogs, today)
	p.Blank()
	p.Say(0, "", "Nothing changes until you say so: tuckup learn --accept writes what is new into the book. Growth divides the weeks of the "+
		"pattern, pace multiplies its minutes; it is the pace with living hair, which is most of the work. Hair that comes back slower than it used to may be a matter for the vet.")
	return p.Done()
}

// estimateRow is one factor of a dog.
type estimateRow struct {
	what string
	learn.Estimate
}

// estimateRows adds the factors that rest on records, the first with the dog's name.
func estimateRows(t *layout.Table, dog string, rows []estimateRow) {
	for _, e := range rows {
		if e.Records == 0 {
			continue
		}
		told := ""
		if e.Told != 0 {
			told = factor(e.Told)
		}
		news := ""
		if e.Told != 0 && e.News() {
			news = ", new"
		}
		t.Add(dog, e.what, told, factor(e.Value), fmt.Sprintf("%s to %s, from %s%s", factor(e.Low), factor(e.High), say.Plural(e.Records, "record"), news))
		dog = ""
	}
}

func factor(f float64) string { return fmt.Sprintf("%.2f", f) }

func outOfLineList(p *layout.Page, dogs []learn.Dog, today kennel.Date) {
	var t layout.Table
	for _, d := range dogs {
		for _, r := range d.Records {
			if r.Trust < outOfLine {
				t.Add(say.Plain(d.Dog), say.Day(r.On, today), recordWords(r.What, r.Area),
					fmt.Sprintf("%s, expected about %s", seenWords(r.What, r.Seen), seenWords(r.What, r.Expected)))
			}
		}
	}
	if len(t.Rows) == 0 {
		return
	}
	p.Heading("OUT OF LINE", "set aside; correct them if they are slips of the pen")
	p.Table(2, t)
}

func unusedList(p *layout.Page, dogs []learn.Dog, today kennel.Date) {
	var t layout.Table
	for _, d := range dogs {
		for _, u := range d.Unused {
			t.Add(say.Plain(d.Dog), say.Day(u.On, today), recordWords(u.What, u.Area), say.Plain(u.Why))
		}
	}
	if len(t.Rows) == 0 {
		return
	}
	p.Heading("NOT USED", "")
	p.Table(2, t)
}

func recordWords(w learn.What, a kennel.AreaName) string {
	if a == "" {
		return string(w)
	}
	return string(w) + ", " + say.Plain(string(a))
}

// seenWords is a number of a record with its unit.
func seenWords(w learn.What, x float64) string {
	switch w {
	case learn.WhatLength:
		return fmt.Sprintf("%.0f mm", x)
	case learn.WhatShowable, learn.WhatLook:
		return fmt.Sprintf("%.1f weeks", x)
	}
	return say.Minutes(kennel.Minutes(x))
}

type learnedDoc struct {
	Kennel string          `json:"kennel"`
	On     string          `json:"on"`
	Pick   estimateDoc     `json:"pick"`
	Missed estimateDoc     `json:"missed"`
	Dogs   []learnedDogDoc `json:"dogs"`
}

type learnedDogDoc struct {
	Dog     string            `json:"dog"`
	Growth  estimateDoc       `json:"growth"`
	Areas   []areaEstimateDoc `json:"areas"`
	Pace    estimateDoc       `json:"pace"`
	Dead    estimateDoc       `json:"dead_pace"`
	Records []recordDoc       `json:"records"`
	Unused  []unusedDoc       `json:"unused"`
}

type estimateDoc struct {
	Told    float64 `json:"set,omitempty"`
	Value   float64 `json:"value"`
	SD      float64 `json:"sd"`
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	Records int     `json:"records"`
	News    bool    `json:"new"`
}

type areaEstimateDoc struct {
	Area   string      `json:"area"`
	Growth estimateDoc `json:"growth"`
}

type recordDoc struct {
	On       string  `json:"on"`
	Area     string  `json:"area,omitempty"`
	What     string  `json:"what"`
	Seen     float64 `json:"seen"`
	Expected float64 `json:"expected"`
	Residual float64 `json:"residual"`
	Trust    float64 `json:"trust"`
}

type unusedDoc struct {
	On   string `json:"on"`
	Area string `json:"area,omitempty"`
	What string `json:"what"`
	Why  string `json:"why"`
}

const factorDecimals = 4

func newEstimateDoc(e learn.Estimate) estimateDoc {
	return estimateDoc{
		Told: layout.Rounded(e.Told, factorDecimals), Value: layout.Rounded(e.Value, factorDecimals), SD: layout.Rounded(e.SD, factorDecimals),
		Low: layout.Rounded(e.Low, factorDecimals), High: layout.Rounded(e.High, factorDecimals), Records: e.Records, News: e.Told != 0 && e.News(),
	}
}

// LearnedJSON writes what Learned writes, with every record that was used and what was expected of it: mm, weeks from the
// pull, or minutes.
func LearnedJSON(w io.Writer, kennelName string, dogs []learn.Dog, missed learn.Estimate, today kennel.Date) error {
	doc := learnedDoc{
		Kennel: kennelName, On: today.String(), Pick: newEstimateDoc(learn.Pick(dogs)), Missed: newEstimateDoc(missed), Dogs: []learnedDogDoc{},
	}
	for _, d := range dogs {
		x := learnedDogDoc{
			Dog: d.Dog, Growth: newEstimateDoc(d.Growth), Areas: []areaEstimateDoc{}, Pace: newEstimateDoc(d.Pace), Dead: newEstimateDoc(d.Dead),
			Records: []recordDoc{}, Unused: []unusedDoc{},
		}
		for _, a := range d.Areas {
			x.Areas = append(x.Areas, areaEstimateDoc{string(a.Area), newEstimateDoc(a.Growth)})
		}
		for _, r := range d.Records {
			x.Records = append(x.Records, recordDoc{
				r.On.String(), string(r.Area), string(r.What), layout.Rounded(r.Seen, layout.ScoreDecimals), layout.Rounded(r.Expected, layout.ScoreDecimals),
				layout.Rounded(r.Seen-r.Expected, layout.ScoreDecimals), layout.Rounded(r.Trust, factorDecimals),
			})
		}
		for _, u := range d.Unused {
			x.Unused = append(x.Unused, unusedDoc{u.On.String(), string(u.Area), string(u.What), u.Why})
		}
		doc.Dogs = append(doc.Dogs, x)
	}
	return layout.JSON(w, doc)
}

// LearnedCSV writes one row for each factor.
func LearnedCSV(w io.Writer, dogs []learn.Dog, missed learn.Estimate) error {
	var rows [][]string
	add := func(dog, what, area string, e learn.Estimate) {
		told := ""
		if e.Told != 0 {
			told = layout.Number(e.Told, factorDecimals)
		}
		rows = append(rows, []string{
			layout.Cell(dog), what, layout.Cell(area), told, layout.Number(e.Value, factorDecimals), layout.Number(e.SD, factorDecimals),
			layout.Number(e.Low, factorDecimals), layout.Number(e.High, factorDecimals), layout.Number(float64(e.Records), 0),
		})
	}
	for _, d := range dogs {
		add(d.Dog, "growth", "", d.Growth)
		for _, a := range d.Areas {
			add(d.Dog, "growth", string(a.Area), a.Growth)
		}
		add(d.Dog, "pace", "", d.Pace)
		add(d.Dog, "dead pace", "", d.Dead)
	}
	add("", "pick", "", learn.Pick(dogs))
	add("", "missed", "", missed)
	return layout.CSV(w, []string{"dog", "what", "area", "set", "value", "sd", "low", "high", "records"}, rows)
}
