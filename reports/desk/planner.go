package desk

import (
	"context"
	"errors"
	"sync"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
)

// planned is a plan and the change of the book that it holds for.
type planned struct {
	optimize.Result
	version int64
	views   *views
}

// status is how planning stands.
type status struct {
	Running                   bool
	Begun                     bool // the search has told how far it is
	Objective, Bound, Seconds float64
	Stopped                   bool  // by the handler: nothing is planned until it is asked for or the book changes
	Err                       error // why the last one could not be made
}

// planner makes one plan at a time in the background. The plan in use stays until another one is accepted.
type planner struct {
	opt Options
	ctx context.Context // ends with the desk
	all sync.WaitGroup

	mu      sync.Mutex
	use     *planned
	next    *planned
	job     *job
	last    *job // begun last, whether it is still wanted or not
	tried   *ask // what was stopped by the handler, could not be planned, or was refused
	status  status
	changed chan struct{} // closed when anything changes, and then replaced
}

// ask is what a plan is wanted for.
type ask struct {
	version int64
	on      kennel.Date
}

type job struct {
	ask
	cancel  context.CancelFunc
	dropped bool          // its plan is no longer wanted
	over    chan struct{} // closed when it is
}

func newPlanner(ctx context.Context, opt Options) *planner {
	return &planner{opt: opt, ctx: ctx, changed: make(chan struct{})}
}

// wait waits until nothing is planned any more.
func (p *planner) wait() { p.all.Wait() }

// tell wakes everybody who follows the progress. p.mu is held.
func (p *planner) tell() {
	close(p.changed)
	p.changed = make(chan struct{})
}

// stand is the plan in use, the one that waits, and how planning stands.
func (p *planner) stand() (use, next *planned, s status) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.use, p.next, p.status
}

// follow is the plan that waits, how planning stands, and a channel that is closed when that changes.
func (p *planner) follow() (next *planned, s status, changed <-chan struct{}) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.next, p.status, p.changed
}

func (x *planned) madeFor(a ask) bool { return x != nil && x.version == a.version && x.On == a.on }

// want sees to it that a plan for the book at a change is there or is being made.
func (p *planner) want(s book.State, version int64, on kennel.Date) {
	p.mu.Lock()
	defer p.mu.Unlock()
	a := ask{version, on}
	switch {
	case p.use.madeFor(a), p.next.madeFor(a):
	case p.tried != nil && *p.tried == a:
	case p.job != nil && p.job.ask == a:
	case len(s.Kennel.Dogs) == 0 || len(s.Kennel.Hands) == 0:
	default:
		p.begin(s, a)
	}
}

// again plans afresh, whatever there is.
func (p *planner) again(s book.State, version int64, on kennel.Date) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.begin(s, ask{version, on})
}

// begin starts a plan; one that is being made for another state of the book is dropped. p.mu is held.
func (p *planner) begin(s book.State, a ask) {
	if p.job != nil {
		p.job.dropped = true
		p.job.cancel()
	}
	if p.ctx.Err() != nil {
		return
	}
	ctx, cancel := context.WithCancel(p.ctx)
	j := &job{ask: a, cancel: cancel, over: make(chan struct{})}
	before := p.last
	p.last = j
	p.job, p.next, p.tried, p.status = j, nil, nil, status{Running: true}
	wish := Wish{State: s, On: a.on, Progress: func(objective, bound, seconds float64) { p.report(j, objective, bound, seconds) }}
	if p.use != nil {
		wish.Begin = &p.use.Result
	}
	p.tell()
	p.all.Go(func() {
		defer cancel()
		defer close(j.over)
		if before != nil {
			<-before.over // one search at a time; a dropped one ends soon
		}
		if p.wanted(j) {
			r, err := p.opt.plan(ctx, wish)
			p.finish(j, r, err)
		}
	})
}

func (p *planner) wanted(j *job) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	return !j.dropped
}

func (p *planner) report(j *job, objective, bound, seconds float64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.job == j {
		p.status.Begun, p.status.Objective, p.status.Bound, p.status.Seconds = true, objective, bound, seconds
		p.tell()
	}
}

func (p *planner) finish(j *job, r optimize.Result, err error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.job != j || j.dropped || p.ctx.Err() != nil {
		return // another one took its place
	}
	p.job, p.status.Running = nil, false
	if err != nil {
		p.status.Err, p.tried = err, &j.ask
		if !errors.Is(err, context.Canceled) {
			p.opt.Log.Warn().Err(err).Msg("no plan could be made")
		}
		p.tell()
		return
	}
	made := &planned{Result: r, version: j.version, views: &views{}}
	if p.use == nil {
		p.use = made
	} else {
		p.next = made
	}
	p.tell()
}

// stop ends the search; the best plan that was found by then is offered.
func (p *planner) stop() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.job != nil {
		p.status.Stopped = true
		p.job.cancel()
		p.tell()
	}
}

// refuse throws the plan that waits away, and plans nothing for that state of the book until it is asked for.
func (p *planner) refuse() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.next != nil {
		p.tried = &ask{p.next.version, p.next.On}
		p.next = nil
		p.tell()
	}
}

// take makes a plan the one in use, for the book at the change.
func (p *planner) take(r optimize.Result, version int64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.use, p.next = &planned{Result: r, version: version, views: &views{}}, nil
	if p.job != nil {
		p.job.dropped = true
		p.job.cancel()
		p.job = nil
	}
	p.status = status{}
	p.tell()
}

// holds says that plans made for the book before a change hold after it too: what was done is what they said.
func (p *planner) holds(before, after int64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	move := func(x *planned) *planned {
		if x == nil || x.version != before {
			return x
		}
		moved := *x
		moved.version = after
		return &moved
	}
	p.use, p.next = move(p.use), move(p.next)
	if p.job != nil && p.job.version == before {
		p.job.version = after
	}
	if p.tried != nil && p.tried.version == before {
		p.tried = &ask{after, p.tried.on}
	}
	p.tell()
}

// show puts a plan in the place of the one in use until it is made anew: the change of the book that it was made for stays.
func (p *planner) show(r optimize.Result) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.use != nil {
		p.use = &planned{Result: r, version: p.use.version, views: &views{}}
		p.tell()
	}
}
