package desk

import (
	"net/http"
	"strings"

	"tuckup/kennel"
	"tuckup/reports"
	"tuckup/reports/desk/guard"
	"tuckup/reports/say"
)

// settingsPart is the part of a page on which settings are seen and changed.
type settingsPart struct {
	Form *form
	Rows []settingView
	Can  bool   // they can be changed here
	Why  string // they can't
}

type settingView struct {
	Field fieldView
	Was   string // its value when the page was made
	Input bool   // it can be changed; else it was set where the program was started
}

// setsHere says why the settings can't be changed by a request; "" = they can.
func (d *Desk) setsHere(r *http.Request) string {
	switch {
	case d.opt.MadeUp:
		return "They are those of your own string; change them there."
	case d.opt.SetSettings == nil:
		return "They are in the settings file, which is read when the program starts."
	case !guard.OwnMachine(r):
		return "They can be changed on the computer that the desk runs on."
	}
	return ""
}

// settingsPart is what a page shows of the settings. What was typed into the form is kept where something in it is wrong.
func (d *Desk) settingsPart(r *http.Request, f *form) (p settingsPart, err error) {
	if d.opt.Settings == nil {
		return p, nil
	}
	rows, err := d.opt.Settings()
	if err != nil {
		return p, err
	}
	p.Form, p.Why = f, d.setsHere(r)
	p.Can = p.Why == ""
	for _, s := range rows {
		value := kennel.Number(s.Value)
		if !f.Bad() || s.Fixed {
			f.set(s.Key, value)
		}
		hint := s.Range + " (" + s.Unit + "); " + usualWords(s)
		mode := "mode=decimal"
		if strings.HasSuffix(s.Range, "whole") {
			mode = "mode=numeric"
		}
		p.Rows = append(p.Rows, settingView{newField(f, s.Key, say.FirstUpper(s.About), "hint="+hint, mode), value, p.Can && !s.Fixed})
	}
	return p, nil
}

// usualWords says where a setting's value is from, and what it is by default.
func usualWords(s reports.SettingRow) string {
	usual := kennel.Number(s.Usual) + " by default"
	switch {
	case s.Fixed:
		return usual + "; set by the " + s.From + " where the program was started, so it can't be changed here"
	case s.From == "default":
		return usual
	}
	return usual + "; from " + s.From
}

// saveSettings writes the settings down that the form changes. All of them are good, or nothing is changed.
func (d *Desk) saveSettings(w http.ResponseWriter, r *http.Request, f *form, l look) error {
	if d.opt.Settings == nil || d.setsHere(r) != "" {
		return notFound("thing to do here")
	}
	f.ID = "settings"
	rows, err := d.opt.Settings()
	if err != nil {
		return err
	}
	given := map[string]string{}
	for _, s := range rows {
		_, sent := f.Values[s.Key]
		said, was, now := f.get(s.Key), f.get("was "+s.Key), kennel.Number(s.Value)
		switch {
		case s.Fixed || !sent || said == was || said == now:
		case now != was:
			f.wrong(s.Key, "was changed to "+now+" after you opened this page. Save again to put yours over it")
		default:
			given[s.Key] = said
		}
	}
	if len(given) == 0 && !f.Bad() {
		back(w, r, setUpPath, "nothing")
		return nil
	}
	if !f.Bad() {
		wrong, err := d.opt.SetSettings(given)
		if err != nil {
			if err := f.take(err, nil); err != nil {
				return err
			}
		}
		for key, what := range wrong {
			f.wrong(key, what)
		}
		if !f.Bad() {
			d.inUse.forget()
			d.advice.forget()
			back(w, r, setUpPath, "settings")
			return nil
		}
	}
	f.Version = l.version
	return d.renderSetUp(w, r, l, kennelForm(l), f)
}
