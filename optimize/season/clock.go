package season

import "sync/atomic"

// clock says how long a solve may go on. Any goroutine may ask it.
type clock struct {
	cancelled func() bool    // whether the caller has called the work off
	stopwatch func() float64 // seconds since the solve began; nil = none, and no time limit
	limit     float64        // seconds; 0 = none
	ended     atomic.Bool    // no more work is wanted
}

// seconds since the solve began, 0 without a stopwatch.
func (c *clock) seconds() float64 {
	if c.stopwatch == nil {
		return 0
	}
	return c.stopwatch()
}

// timed reports whether there is a time limit.
func (c *clock) timed() bool { return c.limit > 0 && c.stopwatch != nil }

// expired reports whether all work must end.
func (c *clock) expired() bool { return c.cancelled() || c.ended.Load() || c.passed(1) }

// spent reports whether work that may have this share of a time limit must end.
func (c *clock) spent(share float64) bool { return c.expired() || c.passed(share) }

func (c *clock) passed(share float64) bool { return c.timed() && c.seconds() >= share*c.limit }
