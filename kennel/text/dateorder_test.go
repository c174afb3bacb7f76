package text

import (
	"strings"
	"testing"

	"tuckup/kennel"
)

// A reader says which number of a date is first and what stands between the cells; without that, dates that could be two are refused.
func TestATableIsReadInTheReadersOwnWay(t *testing.T) {
	table := "name;on;entries_close;dogs\nFerrydown 09/11/2026;09/11/2027;1.9.27;\n"
	read := func(look TableLook) (on, closes kennel.Date, name string, err error) {
		rows, err := ReadTable("shows.csv", []byte(table), look)
		if err != nil {
			return 0, 0, "", err
		}
		show := kennel.UsualShow()
		rows.Shows[0].Set(&show)
		return rows.Shows[0].On, show.EntriesClose, rows.Shows[0].Name, nil
	}
	for look, want := range map[TableLook][2]string{
		{Dates: DayFirst}:                   {"2027-11-09", "2027-09-01"},
		{Dates: MonthFirst, Separator: ';'}: {"2027-09-11", "2027-01-09"},
	} {
		on, closes, name, err := read(look)
		if err != nil || on.String() != want[0] || closes.String() != want[1] || name != "Ferrydown 09/11/2026" {
			t.Errorf("%+v: %v, %v, %q, %v", look, on, closes, name, err)
		}
	}
	if _, _, _, err := read(TableLook{}); err == nil || !strings.Contains(err.Error(), "could be two days") {
		t.Errorf("without an order: %v", err)
	}
	if _, _, _, err := read(TableLook{Dates: DayFirst, Separator: ','}); err == nil {
		t.Error("with commas between the cells it is read too")
	}
	for said, want := range map[string]string{"0.6 20/09/2026; 0.4 01.12.26": "0.6 2026-09-20; 0.4 2026-12-01", "31/02/2027": "31/02/2027", "1/2.2027": "1/2.2027"} {
		if got := DayFirst.ordered("coat", said); got != want {
			t.Errorf("%q is taken as %q", said, got)
		}
	}
}
