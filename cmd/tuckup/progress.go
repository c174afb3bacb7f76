package main

import (
	"fmt"
	"io"
	"sync"
	"time"
)

const (
	progressAfter = 1.0         // seconds that a plan may take before a terminal shows how far it is
	progressEvery = 10.0        // seconds between two lines where standard error is no terminal
	progressLook  = time.Second // between two looks at the clock
)

// progress says on standard error how good the plan is so far: on a terminal one line that changes, elsewhere a line now
// and then, also while the search has nothing new to say.
type progress struct {
	w        io.Writer
	terminal bool
	seconds  func() float64 // since the search began
	stop     chan struct{}
	stopped  sync.WaitGroup

	mu     sync.Mutex
	so     string  // how good it is
	last   float64 // seconds at the last line
	erases bool
}

// newProgress begins to tell; end must be called.
func newProgress(w io.Writer, terminal bool, seconds func() float64) *progress {
	p := &progress{w: w, terminal: terminal, seconds: seconds, stop: make(chan struct{})}
	if terminal {
		return p
	}
	p.stopped.Go(func() {
		look := time.NewTicker(progressLook)
		defer look.Stop()
		for {
			select {
			case <-p.stop:
				return
			case <-look.C:
				p.line()
			}
		}
	})
	return p
}

// eraseLine moves to the line's start and clears it (ECMA-48).
const eraseLine = "\r\x1b[K"

// show takes in how good the plan is.
func (p *progress) show(objective, bound, seconds float64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	gap := 100 * (bound - objective) / max(1, bound, -bound)
	p.so = fmt.Sprintf("%.2f points, none can pass %.2f (%.1f %%), ", objective, bound, gap)
	if p.terminal && seconds >= progressAfter {
		fmt.Fprintf(p.w, "%splanning: %s%.0f s", eraseLine, p.so, seconds)
		p.erases = true
	}
}

// line writes a line if the last one is long enough ago.
func (p *progress) line() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if now := p.seconds(); now >= p.last+progressEvery {
		fmt.Fprintf(p.w, "planning: %s%.0f s\n", p.so, now)
		p.last = now
	}
}

// end stops telling and clears the terminal's line.
func (p *progress) end() {
	close(p.stop)
	p.stopped.Wait()
	if p.erases {
		fmt.Fprint(p.w, eraseLine)
	}
}
