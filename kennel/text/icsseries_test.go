package text

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"tuckup/kennel"
)

// many is a calendar of n events with the rule.
func many(n int, begin, rule string) []byte {
	events := make([]string, n)
	for i := range events {
		events[i] = fmt.Sprintf("SUMMARY:Show %d\nDTSTART;VALUE=DATE:%s\nRRULE:%s", i, begin, rule)
	}
	return calendarOf(events...)
}

// Rules whose days never come, however many, are refused at the first.
func TestARuleWhoseDaysNeverComeIsRefused(t *testing.T) {
	for _, rule := range []string{
		"FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30", "FREQ=MONTHLY;BYMONTH=4;BYMONTHDAY=31", "FREQ=YEARLY;BYYEARDAY=366;BYMONTH=6", "FREQ=WEEKLY;BYMONTH=2;BYSETPOS=8",
	} {
		_, err := ReadICS(context.Background(), "t.ics", many(1000, "20270101", rule), firstDay, lastDay)
		var in *kennel.InputError
		if !errors.As(err, &in) || !strings.Contains(in.What, "never come") || !strings.Contains(in.Field, "Show 0: RRULE") || in.Try == "" {
			t.Errorf("%s: %v", rule, err)
		}
	}
}

// All series of a file share one budget, of days found and of days gone through.
func TestTheSeriesOfAFileHaveOneBudget(t *testing.T) {
	for name, data := range map[string][]byte{
		"found":        many(2*mostAllStarts/1000, "20240401", "FREQ=DAILY"),
		"gone through": many(2*mostPassed/20000, "19720229", "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=29"),
	} {
		_, err := ReadICS(context.Background(), "t.ics", data, firstDay, lastDay)
		var in *kennel.InputError
		if !errors.As(err, &in) || !strings.Contains(in.What, "one series too many") || in.Try == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if rows, err := ReadICS(context.Background(), "t.ics", many(200, "20200229", "FREQ=YEARLY"), firstDay, lastDay); err != nil || len(rows.Shows) != 200 {
		t.Errorf("a usual calendar: %d shows, %v", len(rows.Shows), err)
	}
}

// The budget bounds the work, not only the answer: what was counted is what the library was asked for.
func TestTheBudgetIsSpentByWhatIsFollowed(t *testing.T) {
	f := newFollower(context.Background(), firstDay, lastDay)
	rule, err := readRule("FREQ=YEARLY;INTERVAL=2", firstDay.Time())
	if err != nil {
		t.Fatal(err)
	}
	if err := f.pass(*rule, firstDay.Time(), firstDay.AddDays(1000).Time()); err != nil || mostPassed-f.passed != 500 {
		t.Errorf("%d days spent, %v", mostPassed-f.passed, err)
	}
	n := 0
	days, err := f.follow(func() (time.Time, bool) { n++; return firstDay.AddDays(n - 1).Time(), n <= 7 })
	if err != nil || len(days) != 7 || mostAllStarts-f.allStarts != 7 {
		t.Errorf("%d days, %d spent, %v", len(days), mostAllStarts-f.allStarts, err)
	}
}

func TestTimesOfADayAreNotFollowed(t *testing.T) {
	for _, rule := range []string{"FREQ=HOURLY", "FREQ=YEARLY;BYSECOND=0,1", "FREQ=DAILY;BYHOUR=8,9", "FREQ=MONTHLY;BYMINUTE=1,2,3"} {
		if _, err := ReadICS(context.Background(), "t.ics", many(1, "20270101", rule), firstDay, lastDay); err == nil || !strings.Contains(err.Error(), "more often than daily") {
			t.Errorf("%s: %v", rule, err)
		}
	}
}

func TestASeriesThatEndedBeforeItBeganHasNoDays(t *testing.T) {
	rows, err := ReadICS(context.Background(), "t.ics", many(1, "20270410", "FREQ=WEEKLY;UNTIL=20270401T000000Z"), firstDay, lastDay)
	if err != nil || len(rows.Shows) != 0 {
		t.Errorf("%d shows, %v", len(rows.Shows), err)
	}
}

// The reading ends when the context does, also in the middle of a series.
func TestReadingACalendarEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	f := newFollower(ctx, firstDay, lastDay)
	asked := 0
	_, err := f.follow(func() (time.Time, bool) {
		if asked++; asked == 3 {
			cancel()
		}
		return firstDay.Time(), true
	})
	if !errors.Is(err, context.Canceled) || asked != 3 {
		t.Errorf("asked %d times, %v", asked, err)
	}
	rows, err := ReadICS(ctx, "t.ics", many(mostEvents, "20270101", "FREQ=YEARLY"), firstDay, lastDay)
	if !errors.Is(err, context.Canceled) || len(rows.Shows) != 0 {
		t.Errorf("%d shows, %v", len(rows.Shows), err)
	}
}
