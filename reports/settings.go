package reports

import (
	"io"
	"strconv"

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
}

func (s SettingRow) value() string { return strconv.FormatFloat(s.Value, 'f', -1, 64) }

// Settings writes settings as a page of text.
func Settings(w io.Writer, rows []SettingRow, l Look) error {
	p := newPage(w, l)
	for _, s := range rows {
		p.say(0, "", "%s = %s %s, from %s", s.Key, s.value(), s.Unit, say.Plain(s.From))
		p.say(4, "", "%s", say.Plain(s.About))
		p.say(4, "", "%s; set by %s", s.Range, s.Env)
	}
	return p.done()
}

// SettingsJSON writes settings as a list of objects.
func SettingsJSON(w io.Writer, rows []SettingRow) error { return writeJSON(w, rows) }

// SettingsCSV writes one row for each setting.
func SettingsCSV(w io.Writer, rows []SettingRow) error {
	var cells [][]string
	for _, s := range rows {
		cells = append(cells, []string{s.Key, s.value(), s.Unit, s.Range, cell(s.From), s.Env, cell(s.About)})
	}
	return writeCSV(w, []string{"setting", "value", "unit", "range", "from", "environment", "about"}, cells)
}
