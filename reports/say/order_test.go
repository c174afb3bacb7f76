package say

import (
	"testing"

	"tuckup/kennel"
)

func TestDatesAreInTheReadersOrder(t *testing.T) {
	for _, c := range []struct{ text, day, month, iso string }{
		{"Mon 4 Jan", "Mon 4 Jan", "Mon Jan 4", "Mon 01-04"},
		{"week of 11 January", "week of 11 January", "week of January 11", "week of 01-11"},
		{"Sat 20 Mar 2027 at 9", "Sat 20 Mar 2027 at 9", "Sat Mar 20, 2027 at 9", "Sat 2027-03-20 at 9"},
		{"Monday 4 to Sunday 10 January 2027", "Monday 4 to Sunday 10 January 2027", "Monday January 4 to Sunday January 10, 2027", "Monday 01-04 to Sunday 2027-01-10"},
		{"Thursday 28 January to Wednesday 3 February 2027", "Thursday 28 January to Wednesday 3 February 2027", "Thursday January 28 to Wednesday February 3, 2027", "Thursday 01-28 to Wednesday 2027-02-03"},
		{"last done 2027-01-04", "last done 4 Jan 2027", "last done Jan 4, 2027", "last done 2027-01-04"},
		{"January 2027, 12 min, 3 marks, 10 Marches, 1 in 17", "January 2027, 12 min, 3 marks, 10 Marches, 1 in 17", "January 2027, 12 min, 3 marks, 10 Marches, 1 in 17", "January 2027, 12 min, 3 marks, 10 Marches, 1 in 17"},
		{"The 6 May Open on 6 May; The 6 May Open", "The 6 May Open on 6 May; The 6 May Open", "The 6 May Open on May 6; The 6 May Open", "The 6 May Open on 05-06; The 6 May Open"},
		{"not 2027-13-40", "not 2027-13-40", "not 2027-13-40", "not 2027-13-40"},
	} {
		for order, want := range map[kennel.DateOrder]string{"": c.text, kennel.DayFirst: c.day, kennel.MonthFirst: c.month, kennel.ISODates: c.iso} {
			if got := InOrder(c.text, order, []string{"The 6 May Open"}); got != want {
				t.Errorf("%q %s: %q, want %q", c.text, order, got, want)
			}
		}
	}
}
