package reports

import (
	"io"

	"tuckup/kennel"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// SettingRow is one setting as a report lists it.
type SettingRow struct {
	Key   string  `json:"setting"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	Range string  `json:"range"`
	From  string  `json:"from"`
	Env   string  `json:"environment"`
	About string  `json:"about"`
	Usual float64 `json:"-"` // by default
	Fixed bool    `json:"-"` // given when the program was started: the settings file does not change it
}

func (s SettingRow) value() string { return kennel.Number(s.Value) }

// Settings writes settings as a page of text.
func Settings(w io.Writer, rows []SettingRow, l layout.Look) error {
	p := layout.NewPage(w, l)
	for _, s := range rows {
		p.Say(0, "", "%s = %s %s, from %s", s.Key, s.value(), s.Unit, say.Plain(s.From))
		p.Say(4, "", "%s", say.Plain(s.About))
		p.Say(4, "", "%s; set by %s", s.Range, s.Env)
	}
	return p.Done()
}

// SettingsJSON writes settings as a list of objects.
func SettingsJSON(w io.Writer, rows []SettingRow) error { return layout.JSON(w, rows) }

// SettingsCSV writes one row for each setting.
func SettingsCSV(w io.Writer, rows []SettingRow) error {
	var cells [][]string
	for _, s := range rows {
		cells = append(cells, []string{s.Key, s.value(), s.Unit, s.Range, layout.Cell(s.From), s.Env, layout.Cell(s.About)})
	}
	return layout.CSV(w, []string{"setting", "value", "unit", "range", "from", "environment", "about"}, cells)
}
