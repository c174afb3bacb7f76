package text

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
	"github.com/teambition/rrule-go"

	"tuckup/kennel"
)

// Bounds of the series in a calendar. The last two hold for all series of a file together.
const (
	mostStarts    = 5000       // days that one series may have up to the last day read
	mostAllStarts = 2_000_000  // days that all series may have
	mostPassed    = 10_000_000 // days that are gone through on the way; those that an interval skips don't count
)

// follower follows the series of one calendar from the first day to the last, within one budget.
type follower struct {
	ctx         context.Context
	first, last kennel.Date
	allStarts   int // that may still be found
	passed      int // days that may still be gone through
}

func newFollower(ctx context.Context, first, last kennel.Date) *follower {
	return &follower{ctx: ctx, first: first, last: last, allStarts: mostAllStarts, passed: mostPassed}
}

// starts are the starts of an event and of the series that it begins. An ended context is an error.
func (f *follower) starts(e *ics.VEvent, from time.Time) ([]time.Time, error) {
	words := property(e, ics.ComponentPropertyRrule)
	if words == "" {
		return []time.Time{from}, nil
	}
	rule, err := readRule(words, from)
	if err != nil {
		return nil, err
	}
	if !rule.Until.IsZero() && rule.Until.Before(from) {
		return nil, nil // calendars end a series so when all of it was moved
	}
	if err := f.comes(*rule, from); err != nil {
		return nil, err
	}
	if end := f.last.AddDays(1).Time(); rule.Until.IsZero() || rule.Until.After(end) {
		rule.Until = end
	}
	r, err := rrule.NewRRule(*rule)
	if err != nil {
		return nil, errNoRule
	}
	var set rrule.Set
	set.RRule(r)
	for _, x := range e.GetProperties(ics.ComponentPropertyExdate) {
		for _, v := range strings.Split(x.Value, ",") {
			if at, _, err := instant(v, x.ICalParameters); err == nil {
				set.ExDate(at)
			}
		}
	}
	if err := f.pass(*rule, from, rule.Until); err != nil {
		return nil, err
	}
	return f.follow(set.Iterator())
}

var (
	errNoRule = errors.New("is not a rule that can be followed")
	errBudget = errors.New("is one series too many: those of this calendar together go through more days than can be followed")
)

// readRule reads a rule that repeats once a day at most.
func readRule(words string, from time.Time) (*rrule.ROption, error) {
	rule, err := rrule.StrToROption(words)
	if err != nil {
		return nil, errors.New("is not a rule that can be read")
	}
	times := max(1, len(rule.Byhour)) * max(1, len(rule.Byminute)) * max(1, len(rule.Bysecond))
	switch rule.Freq {
	case rrule.YEARLY, rrule.MONTHLY, rrule.WEEKLY, rrule.DAILY:
	default:
		times = 2
	}
	if times > 1 {
		return nil, errors.New("repeats more often than daily")
	}
	rule.Dtstart = from
	return rule, nil
}

// comes refuses a rule whose days never come, such as 30 February: looking for the next of them would go on to the
// end of dates.
func (f *follower) comes(rule rrule.ROption, from time.Time) error {
	rule.Until, rule.Count = time.Time{}, 1
	r, err := rrule.NewRRule(rule)
	if err != nil {
		return errNoRule
	}
	next := r.Iterator()
	at, more := next()
	if !more {
		return errors.New("names days that never come")
	}
	return f.pass(rule, from, at)
}

// pass counts the days that a rule goes through from one day to another.
func (f *follower) pass(rule rrule.ROption, from, to time.Time) error {
	f.passed -= max(0, int(kennel.DateOf(to)-kennel.DateOf(from))) / max(1, rule.Interval)
	if f.passed < 0 {
		return errBudget
	}
	return nil
}

// follow collects the days of one series.
func (f *follower) follow(next rrule.Next) (starts []time.Time, err error) {
	for range mostStarts {
		if err := f.ctx.Err(); err != nil {
			return nil, err
		}
		at, more := next()
		if !more || kennel.DateOf(at) > f.last {
			return starts, nil
		}
		if f.allStarts--; f.allStarts < 0 {
			return nil, errBudget
		}
		if kennel.DateOf(at) >= f.first {
			starts = append(starts, at)
		}
	}
	return nil, fmt.Errorf("has more than %d days", mostStarts)
}
