package kennel

import (
	"testing"
	"time"
)

func TestADateThatCouldBeTwoDaysIsReadInTheReadersOrder(t *testing.T) {
	march, november, refused := NewDate(2027, time.March, 11), NewDate(2027, time.November, 3), Date(0)
	for _, c := range []struct {
		said                    string
		none, day, month, isoly Date
	}{
		{"11/3/2027", refused, march, november, refused},
		{"11-03-2027", refused, march, november, refused},
		{"11.3.2027", march, march, march, march}, // with dots it is never the month
		{"2027-03-11", march, march, march, march},
		{"11 March 2027", march, march, march, march},
		{"March 11, 2027", march, march, march, march},
		{"25/3/2027", NewDate(2027, time.March, 25), NewDate(2027, time.March, 25), NewDate(2027, time.March, 25), NewDate(2027, time.March, 25)},
		{"11/3/27", refused, refused, refused, refused},
		{"soon", refused, refused, refused, refused},
		{"", refused, refused, refused, refused},
	} {
		for order, want := range map[DateOrder]Date{"": c.none, DayFirst: c.day, MonthFirst: c.month, ISODates: c.isoly} {
			if got, err := order.ParseDay(c.said); got != want || (err != nil) != (want == 0) {
				t.Errorf("%q %s: %s (%v), want %s", c.said, order, got, err, want)
			}
		}
	}
}
