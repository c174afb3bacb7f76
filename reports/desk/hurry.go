package desk

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"strconv"

	"tuckup/optimize"
	"tuckup/reports/say"
)

// The first plan of a book is made in a hurry, so that a person who has just told of the dogs need not wait for a sheet to print. It is taken, like
// any first plan, and the search for a better one goes on behind it. What that finds waits to be taken, for nothing that is shown or printed may
// change unasked. Which plan was made in a hurry is read from its record, so that a desk that is opened again goes on looking.

// How long the first plan may take, in seconds. Within the first a string of up to ten is near the best; a search takes about as long as dogs and
// the weeks that they share make pairs.
const (
	hurryLeast = 5.0
	hurryPair  = 1.0 / 16
	hurryMore  = 4 // times as long it may take again where a slow computer has found nothing to do
	hurryTries = 3 // times that this is tried at most
)

// hurry is how many seconds the first plan may take for a string of this many dogs. limit is what every plan may take; 0 = no limit.
func hurry(dogs int, limit float64) float64 {
	return within(max(hurryLeast, hurryPair*float64(dogs*dogs)), limit)
}

// within is a number of seconds, but no more than the limit; 0 = no limit.
func within(seconds, limit float64) float64 {
	if limit > 0 {
		return min(seconds, limit)
	}
	return seconds
}

// hurried reports whether a plan was cut short by a limit that is shorter than what any plan may take.
func hurried(r optimize.Result, limit float64) bool {
	return r.Season.Cut && r.Options.TimeLimit > 0 && (limit <= 0 || r.Options.TimeLimit < limit)
}

// forget drops what is looked for, or was found, as better than a plan that is not in use any more. p.mu is held.
func (p *planner) forget(use *planned) {
	same := func(than *planned) bool { return use != nil && bytes.Equal(use.record, than.record) }
	if p.job != nil && p.job.better != nil && !same(p.job.better) {
		p.drop()
		p.status = status{}
		p.tell()
	}
	if p.next != nil && p.next.better != nil && !same(p.next.better) {
		p.next = nil
		p.tell()
	}
}

// wantsBetter reports whether a better plan than the one in use is to be looked for, from the beginning. What is being looked for or was found goes on
// to hold while nothing but work was written down since. p.mu is held.
func (p *planner) wantsBetter(l look) bool {
	if l.plan == nil || l.plan.record == nil || !hurried(l.plan.whole, p.opt.limit()) || bytes.Equal(p.settled, l.plan.record) || p.opt.Book.ReadOnly() != nil {
		return false
	}
	overtaken := func(by ask) bool { return by.version < l.version && say.Since(l.plan.InUse, l.today) != "" }
	switch {
	case p.job != nil:
		return p.job.better != nil && overtaken(p.job.ask)
	case p.next != nil:
		return p.next.better != nil && overtaken(p.next.ask)
	}
	return true
}

// betterThan is the search for a better plan than the one in use. On the day that it was made, before anything of it was done and with the book as it
// was, the search begins with nothing: so it finds what it had found without the hurry, whatever there was time for then. Else it begins with it.
func betterThan(l look, limit float64) order {
	o := order{ask: ask{l.version, l.today}, state: l.state, begin: l.plan, limit: limit, better: l.plan}
	if fromNothing(l) {
		o.state, o.begin = l.state.Unplanned(l.plan.whole.On), nil
	}
	return o
}

// fromNothing reports whether nothing has happened since the plan in use was made.
func fromNothing(l look) bool {
	return l.today == l.plan.whole.On && len(l.state.Done(l.today, l.today)) == 0 && say.Since(l.plan.InUse, l.today) == ""
}

// worthTaking is the part of a plan's points by which another must be better for a person to be asked about it.
const worthTaking = 0.01

// found takes in what the search for a better plan found. p.mu is held.
func (p *planner) found(j *job, made *planned, err error) {
	use := j.better
	made.better, p.status = use, status{}
	if err != nil {
		p.settled = use.record
		if !errors.Is(err, context.Canceled) {
			p.opt.Log.Warn().Err(err).Msg("no better plan could be made")
		}
		return
	}
	if j.begin == nil { // else what both are worth can't be compared
		made.gain = made.whole.Worth() - use.whole.Worth()
		made.reasons = max(0, withoutReason(use.whole)-withoutReason(made.whole))
		if made.gain < worthTaking*max(1, math.Abs(use.whole.Worth())) && (made.reasons == 0 || made.gain < 0) {
			p.settled = use.record
			return
		}
	}
	p.next = made
}

// withoutReason is how many things can't be met for a reason that there was no time to find.
func withoutReason(r optimize.Result) (n int) {
	for _, c := range r.Cannot {
		if c.NoReason {
			n++
		}
	}
	return n
}

const lookingForBetter = "This plan was made in a few seconds. A better one is being looked for; you can use this one meanwhile."

// betterWords are what is said of a better plan than the one that was made in a hurry.
func betterWords(l look) string {
	switch {
	case l.status.Better:
		return lookingForBetter
	case l.next == nil || l.next.better == nil || l.plan == nil:
		return ""
	case l.next.gain > 0 && say.Since(l.plan.InUse, l.today) == "":
		return fmt.Sprintf("A better plan is ready: %s points more.", strconv.FormatFloat(l.next.gain, 'f', 2, 64))
	}
	return "A better plan is ready."
}
