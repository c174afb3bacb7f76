package kennel

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

func someDate() *rapid.Generator[Date] {
	first, last := NewDate(firstYear, 1, 1), NewDate(lastYear, 12, 31)
	return rapid.Custom(func(t *rapid.T) Date { return Date(rapid.Int32Range(int32(first), int32(last)).Draw(t, "day")) })
}

// Dates agree with package time on every day that a kennel file may name.
func TestDateAgreesWithTheCalendar(t *testing.T) {
	day := time.Date(firstYear, 1, 1, 0, 0, 0, 0, time.UTC)
	for d := NewDate(firstYear, 1, 1); d <= NewDate(lastYear, 12, 31); d++ {
		if !d.Time().Equal(day) || d.String() != day.Format("2006-01-02") {
			t.Fatalf("%d is %s, want %s", d, d, day)
		}
		if want := (day.Weekday() + 6) % 7; int(d.Weekday()) != int(want) {
			t.Fatalf("%s is a %s, want %s", d, d.Weekday().Key(), day.Weekday())
		}
		y, w := d.Monday().Time().ISOWeek()
		if yd, wd := day.ISOWeek(); d.Monday().Weekday() != Monday || y != yd || w != wd || d.Monday() > d || d-d.Monday() > 6 {
			t.Fatalf("the Monday of %s is %s", d, d.Monday())
		}
		day = day.AddDate(0, 0, 1)
	}
}

func TestDateBeforeTheEpochHasItsWeekday(t *testing.T) {
	for d := Date(-1000); d < 10; d++ {
		if want := (d.Time().Weekday() + 6) % 7; int(d.Weekday()) != int(want) {
			t.Fatalf("%d is a %s, want %s", d, d.Weekday().Key(), d.Time().Weekday())
		}
	}
}

func TestLeapDays(t *testing.T) {
	for _, c := range []struct{ from, next string }{
		{"2028-02-28", "2028-02-29"},
		{"2028-02-29", "2028-03-01"},
		{"2027-02-28", "2027-03-01"},
		{"2100-02-28", "2100-03-01"},
		{"2027-12-31", "2028-01-01"},
	} {
		d, err := ParseDate(c.from)
		if err != nil {
			t.Fatal(err)
		}
		if got := d.AddDays(1).String(); got != c.next {
			t.Errorf("the day after %s is %s, want %s", c.from, got, c.next)
		}
	}
}

func TestParseDateReadsWhatStringWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := someDate().Draw(t, "date")
		if got, err := ParseDate(d.String()); err != nil || got != d {
			t.Fatalf("%s came back as %s, %v", d, got, err)
		}
	})
}

func TestParseDateRefuses(t *testing.T) {
	for _, s := range []string{"", "2027-02-29", "2100-02-29", "2027-13-01", "2027-3-1", "20-03-2027", "2027-03-20T00:00:00Z", "1970-12-31", "2200-01-01", "soon"} {
		if d, err := ParseDate(s); err == nil {
			t.Errorf("%q was read as %s", s, d)
		}
	}
}

func TestDateOfTakesTheDayThatTheClockShows(t *testing.T) {
	late := time.Date(2027, 3, 20, 23, 30, 0, 0, time.FixedZone("west", -5*60*60))
	if got := DateOf(late); got != NewDate(2027, 3, 20) {
		t.Errorf("got %s", got)
	}
}

func TestSpanWithOpenEnds(t *testing.T) {
	a, b, c := NewDate(2027, 3, 1), NewDate(2027, 3, 2), NewDate(2027, 3, 3)
	for _, x := range []struct {
		span Span
		want [3]bool
	}{
		{Span{}, [3]bool{true, true, true}},
		{Span{From: b}, [3]bool{false, true, true}},
		{Span{To: b}, [3]bool{true, true, false}},
		{Span{From: b, To: b}, [3]bool{false, true, false}},
	} {
		if got := [3]bool{x.span.Holds(a), x.span.Holds(b), x.span.Holds(c)}; got != x.want {
			t.Errorf("%+v holds %v, want %v", x.span, got, x.want)
		}
	}
}

func TestWeekOfCountsMondays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		week0 := someDate().Draw(t, "week0").Monday()
		d := someDate().Draw(t, "date")
		if w := WeekOf(d, week0); week0.AddDays(w*DaysAWeek) != d.Monday() {
			t.Fatalf("%s lies in week %d from %s", d, w, week0)
		}
	})
}

// A show from Thursday on sees its own week's work, one up to Wednesday the week before's.
func TestReadinessWeek(t *testing.T) {
	week0 := NewDate(2027, 1, 4)
	want := [DaysAWeek]int{1, 1, 1, 2, 2, 2, 2}
	for i, w := range want {
		if got := ReadinessWeek(week0.AddDays(2*DaysAWeek+i), week0); got != w {
			t.Errorf("%s: week %d, want %d", Weekday(i).Key(), got, w)
		}
	}
}
