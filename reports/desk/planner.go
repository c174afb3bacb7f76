package desk

import (
	"context"
	"errors"
	"sync"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
)

// status is how planning stands.
type status struct {
	Running                   bool
	Better                    bool // what is looked for is a better plan than the one that was made in a hurry, which can be used meanwhile
	Begun                     bool // the search has told how far it is
	Objective, Bound, Seconds float64
	Stopped                   bool  // by the handler: nothing is planned until it is asked for or the book changes
	Err                       error // why the last one could not be made
}

// planner makes one plan at a time in the background: the first of a book, in a hurry, which is taken; a better one than that, which waits to be
// taken; and the next when it is asked for, which waits, too. The plan in use is in the book.
type planner struct {
	opt  Options
	take func(*planned) error // makes the first plan of a book the one in use
	ctx  context.Context      // ends with the desk
	all  sync.WaitGroup

	mu      sync.Mutex
	next    *planned // made, and waits to be taken
	own     *planned // the first plan of a book in which nothing can be written: it is shown while the desk is open
	first   bool     // the first plan of the book was made: one that was taken back is not made again unasked
	job     *job
	last    *job   // begun last, whether it is still wanted or not
	tried   *ask   // what was stopped by the handler, or could not be planned
	settled []byte // record of the plan made in a hurry for which no better one is looked for any more: none was found, or it was not wanted
	status  status
	changed chan struct{} // closed when anything changes, and then replaced
}

// ask is what a plan is wanted for.
type ask struct {
	version int64
	on      kennel.Date
}

// order is a plan that is to be made.
type order struct {
	ask
	state  book.State
	begin  *planned // that the search begins with; nil = with nothing
	limit  float64  // of the search, in seconds; 0 = none
	first  bool     // of the book
	better *planned // the plan in use, for which a better one is looked for; nil = it is not for that
}

type job struct {
	order
	cancel  context.CancelFunc
	dropped bool          // its plan is no longer wanted
	over    chan struct{} // closed when it is
}

func newPlanner(ctx context.Context, opt Options, take func(*planned) error) *planner {
	return &planner{opt: opt, take: take, ctx: ctx, changed: make(chan struct{})}
}

// wait waits until nothing is planned any more.
func (p *planner) wait() { p.all.Wait() }

// tell wakes everybody who follows the progress. p.mu is held.
func (p *planner) tell() {
	close(p.changed)
	p.changed = make(chan struct{})
}

// stand is the plan that waits, the one that is shown for want of a book that can be written, and how planning stands.
func (p *planner) stand() (next, own *planned, s status) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.next, p.own, p.status
}

// follow is the plan that waits, how planning stands, and a channel that is closed when that changes.
func (p *planner) follow() (next *planned, s status, changed <-chan struct{}) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.next, p.status, p.changed
}

// want sees to it that the first plan of a book in which none was taken yet is being made, and a better one than a first that was made in a
// hurry.
func (p *planner) want(l look) {
	p.mu.Lock()
	defer p.mu.Unlock()
	a := ask{l.version, l.today}
	p.forget(l.plan)
	switch {
	case l.state.Plan.Result != nil:
		if p.wantsBetter(l) {
			p.start(betterThan(l, p.opt.limit()))
		}
	case p.first, p.next != nil:
	case p.tried != nil && *p.tried == a:
	case p.job != nil && (p.job.ask == a || !p.job.first):
	case len(l.state.Kennel.Dogs) == 0 || len(l.state.Kennel.Hands) == 0:
	default:
		p.start(p.firstOf(l))
	}
}

// again plans as it was asked for, beginning with the plan in use.
func (p *planner) again(l look) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if l.state.Plan.Result == nil {
		p.start(p.firstOf(l))
		return
	}
	p.start(order{ask: ask{l.version, l.today}, state: l.state, begin: l.plan, limit: p.opt.limit()})
}

// firstOf is the first plan of a book. It is made in a hurry where it can be taken: in a book that can't be written there is no taking a better one.
func (p *planner) firstOf(l look) order {
	o := order{ask: ask{l.version, l.today}, state: l.state, begin: l.plan, limit: p.opt.limit(), first: true}
	if p.opt.Book.ReadOnly() == nil {
		o.limit = hurry(len(l.dogs()), p.opt.limit())
	}
	return o
}

// start begins a plan; one that is being made is dropped. p.mu is held.
func (p *planner) start(o order) {
	p.drop()
	if p.ctx.Err() != nil {
		return
	}
	ctx, cancel := context.WithCancel(p.ctx)
	j := &job{order: o, cancel: cancel, over: make(chan struct{})}
	before := p.last
	p.last = j
	p.job, p.next, p.tried, p.status = j, nil, nil, status{Running: true, Better: o.better != nil}
	p.tell()
	p.all.Go(func() {
		defer cancel()
		defer close(j.over)
		if before != nil {
			<-before.over // one search at a time; a dropped one ends soon
		}
		if p.wanted(j) {
			w := Wish{State: o.state, On: o.on, Begin: o.begin.begin(), TimeLimit: o.limit, Progress: func(objective, bound, seconds float64) {
				p.report(j, objective, bound, seconds)
			}}
			r, err := p.opt.plan(ctx, w)
			for more := 0; o.first && err == nil && more < hurryTries && hurried(r, p.opt.limit()) && r.Idle(); more++ {
				w.TimeLimit = within(hurryMore*w.TimeLimit, p.opt.limit())
				r, err = p.opt.plan(ctx, w)
			}
			p.finish(j, r, err)
		}
	})
}

// drop ends what is being made: nobody wants it any more. p.mu is held.
func (p *planner) drop() {
	if p.job != nil {
		p.job.dropped = true
		p.job.cancel()
		p.job = nil
	}
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
	made := &planned{Result: r, whole: r, ask: j.ask, views: &views{}}
	take := j.first && err == nil && p.wanted(j) && p.ctx.Err() == nil
	var locked error
	if take {
		locked = p.take(made)
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.job != j || j.dropped || p.ctx.Err() != nil {
		return // another one took its place
	}
	p.job, p.status.Running = nil, false
	switch {
	case j.better != nil:
		p.found(j, made, err)
	case err != nil:
		p.status.Err, p.tried = err, &j.ask
		if !errors.Is(err, context.Canceled) {
			p.opt.Log.Warn().Err(err).Msg("no plan could be made")
		}
	case locked != nil:
		p.opt.Log.Warn().Err(locked).Msg("the first plan could not be written into the book")
		p.first, p.own = true, made
	case take:
		p.first, p.status = true, status{}
	default:
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

// throwAway forgets the plan that waits.
func (p *planner) throwAway() {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.next != nil {
		if p.next.better != nil {
			p.settled = p.next.better.record
		}
		p.next = nil
		p.tell()
	}
}

// taken says that a plan was taken: what waits or is being made is no longer wanted.
func (p *planner) taken() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.next, p.own, p.first = nil, nil, true
	p.drop()
	p.status = status{}
	p.tell()
}
