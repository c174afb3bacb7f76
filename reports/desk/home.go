package desk

import (
	"net/http"
	"net/url"

	"tuckup/kennel"
	"tuckup/reports/html"
	"tuckup/reports/say"
)

type homePage struct {
	frame
	Dog, Path, When string
	Form            *form
	Parts           []html.Part
}

// homePath is the address of a dog's card.
func homePath(dog string) string { return "/home/" + url.PathEscape(dog) }

// home is the card for whoever has a dog at home, for the days that the address says, or the next that it is not in hand.
func (d *Desk) home(w http.ResponseWriter, r *http.Request) error {
	l, err := d.look(r.Context())
	if err != nil {
		return err
	}
	dog, ok := l.dogNamed(r.PathValue("name"))
	if !ok {
		return notFound("dog")
	}
	p := homePage{frame: d.frame(l, r, dog.Name+" at home"), Dog: dogPath(dog.Name), Path: homePath(dog.Name), Form: newForm("home", l.version)}
	p.Form.Values = r.URL.Query()
	days := kennel.Span{From: p.Form.date("from", false), To: p.Form.date("to", false)}
	if days.To != 0 && days.From > days.To {
		p.Form.wrong("to", "is before the first day")
	}
	if days == (kennel.Span{}) {
		days, _ = dog.AtHome(l.today)
		p.Form.set("from", days.From.String())
		p.Form.set("to", days.To.String())
	}
	if !p.Form.Bad() {
		card := say.Home(l.state.Kennel, dog, d.opt.Patterns[dog.Pattern], days, l.today)
		p.When = say.FirstUpper(card.DaysWords(l.today))
		if p.Parts, err = html.HomeParts(card); err != nil {
			return err
		}
	}
	d.render(w, p.Form.status(), "home", p)
	return nil
}
