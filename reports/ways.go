package reports

import (
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// waysList says in a line how each dog is worked, and why.
func waysList(p *layout.Page, r optimize.Result, ways []optimize.Way) {
	if len(ways) == 0 {
		return
	}
	t := layout.Table{}
	for _, w := range ways {
		t.Add(say.Plain(w.Dog), say.Way(w, r.On))
	}
	p.Heading("HOW EACH DOG IS WORKED", "")
	p.Table(2, t)
}

type wayDoc struct {
	Dog    string     `json:"dog"`
	Way    string     `json:"way"`
	Held   bool       `json:"held"`
	LetGo  bool       `json:"let_go"`
	Words  string     `json:"words"`
	Spells []spellDoc `json:"spells"`
	Other  *otherDoc  `json:"other"`
}

type spellDoc struct {
	Way  string `json:"way"`
	From string `json:"from"`
	To   string `json:"to"`
}

type otherDoc struct {
	Way         string         `json:"way"`
	From        string         `json:"from,omitempty"`
	Shows       []otherShowDoc `json:"shows"`
	InCoat      int            `json:"weeks_in_coat"`
	OtherInCoat int            `json:"weeks_in_coat_other"`
}

type otherShowDoc struct {
	Show  string  `json:"show"`
	On    string  `json:"on"`
	Score float64 `json:"score"`
	Other float64 `json:"other"`
}

func wayDocs(r optimize.Result) []wayDoc {
	docs := make([]wayDoc, 0, len(r.Ways))
	for _, w := range r.Ways {
		d := wayDoc{Dog: w.Dog, Way: string(w.Kind), Held: w.Held, LetGo: w.LetGo, Words: say.Way(w, r.On), Spells: []spellDoc{}}
		for _, s := range w.Spells {
			d.Spells = append(d.Spells, spellDoc{string(s.Kind), s.From.String(), s.To.String()})
		}
		if o := w.Other; o != nil {
			d.Other = &otherDoc{string(o.Kind), o.From.String(), []otherShowDoc{}, o.InCoat, o.OtherInCoat}
			for _, s := range o.Shows {
				d.Other.Shows = append(d.Other.Shows, otherShowDoc{s.Show, s.On.String(), layout.Points(s.Score), layout.Points(s.Other)})
			}
		}
		docs = append(docs, d)
	}
	return docs
}
