package desk

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/optimize"
)

// hurriedRoom is a desk on a book without a plan. Its limit cuts the first plan short, which is then worth fewer points than the next.
// Plans that are not cut short wait for slow. limits has what was asked for, each time.
type hurriedRoom struct {
	*room
	slow   chan struct{}
	limits chan Wish
}

func inAHurry(t *testing.T, less float64) hurriedRoom {
	t.Helper()
	r := hurriedRoom{open(t, kennel.Kennel{}), make(chan struct{}), make(chan Wish, 20)}
	whole := r.desk.opt.Plan
	r.desk.plans.opt.Plan = func(ctx context.Context, w Wish) (optimize.Result, error) {
		r.limits <- w
		if w.TimeLimit == 0 {
			select {
			case <-r.slow:
			case <-ctx.Done():
				return optimize.Result{}, ctx.Err()
			}
		}
		plan, err := whole(context.WithoutCancel(ctx), w)
		if w.TimeLimit > 0 {
			plan.Season.Cut, plan.Options.TimeLimit = true, w.TimeLimit
			plan.Season.Objective -= less
		}
		return plan, err
	}
	r.change(func(s *book.State) { s.Replace(twoDogs(), monday) })
	return r
}

// asked is the next plan that is asked for.
func (r hurriedRoom) asked() Wish {
	r.t.Helper()
	select {
	case w := <-r.limits:
		return w
	case <-time.After(5 * time.Minute):
		r.t.Fatal("nothing is planned")
	}
	return Wish{}
}

// first waits until the first plan is in use and the next one is looked for.
func (r hurriedRoom) first() {
	r.t.Helper()
	r.planned()
	if w := r.asked(); w.TimeLimit != hurryLeast || w.Begin != nil {
		r.t.Fatalf("the first plan may take %v s", w.TimeLimit)
	}
	r.get("/begin/plan").says(".lead", "Your plan is made")
}

// found lets the search end.
func (r hurriedRoom) found() {
	r.t.Helper()
	close(r.slow)
	r.until(func(s status) bool { return !s.Running })
}

func TestTheFirstPlanIsMadeInAHurryAndABetterOneWaitsToBeTaken(t *testing.T) {
	r := inAHurry(t, 0.5)
	r.first()
	use := r.state().Plan.Result
	if use == nil {
		t.Fatal("the first plan is not in use")
	}
	w := r.asked()
	if w.TimeLimit != 0 || w.Begin != nil || w.State.Plan.Result != nil || len(w.State.Sessions) != 0 {
		t.Errorf("the better plan begins with what the first one left: %v s, %d sessions", w.TimeLimit, len(w.State.Sessions))
	}
	for _, path := range []string{"/", "/today", "/week", "/plan", "/begin/plan", "/begin/paper"} {
		p := r.get(path)
		p.says(".plan-note", lookingForBetter)
		if p.Find(".plan-note button").Length() != 0 {
			t.Errorf("%s asks for something while it looks", path)
		}
	}
	if p := r.ask("GET", sheetPath, nil); !strings.Contains(p.body, "Sorrel") {
		t.Error("the first plan's sheet can't be printed")
	}
	r.found()
	if got := r.state().Plan.Result; string(got) != string(use) {
		t.Fatal("the plan in use has changed, and nobody took another")
	}
	r.get("/week").says(".plan-note", "A better plan is ready: 0.50 points more. The one below stays until you take it.")
	p := r.get("/begin/plan")
	p.says(".plan-note", "A better plan is ready: 0.50 points more.")
	r.send("/plan", p.form(".plan-note", "take"))
	if got := r.use(); hurried(got.whole, 0) || string(got.record) == string(use) {
		t.Error("the better plan is not in use")
	}
	if p := r.get("/"); p.Find(".plan-note").Length() != 0 {
		t.Errorf("after it was taken, the desk says %s", p.Find(".plan-note").Text())
	}
	if len(r.limits) != 0 {
		t.Errorf("%d more plans are made", len(r.limits))
	}
}

// On a slow computer a few seconds may find nothing to do: such a plan is no first plan.
func TestAFirstPlanWithoutWorkIsMadeAgainWithMoreTime(t *testing.T) {
	r := inAHurry(t, 0.5)
	inTime := r.desk.plans.opt.Plan
	r.desk.plans.opt.Plan = func(ctx context.Context, w Wish) (optimize.Result, error) {
		plan, err := inTime(ctx, w)
		if w.TimeLimit == hurryLeast {
			plan.Weeks = slices.Clone(plan.Weeks)
			for t := range plan.Weeks {
				plan.Weeks[t].Dogs = nil
			}
		}
		return plan, err
	}
	r.planned()
	for _, want := range []float64{hurryLeast, hurryMore * hurryLeast} {
		if w := r.asked(); w.TimeLimit != want {
			t.Fatalf("a plan may take %v s, want %v", w.TimeLimit, want)
		}
	}
	if use := r.use(); use == nil || use.whole.Idle() {
		t.Error("a plan without work is in use")
	}
}

// However often a first plan is tried again, it takes no longer than any plan may.
func TestAFirstPlanThatIsTriedAgainKeepsToTheLimit(t *testing.T) {
	r := inAHurry(t, 0.5)
	r.desk.plans.opt.TimeLimit = func() float64 { return hurryLeast + 1 }
	inTime := r.desk.plans.opt.Plan
	r.desk.plans.opt.Plan = func(ctx context.Context, w Wish) (optimize.Result, error) {
		plan, err := inTime(ctx, w)
		plan.Weeks = nil
		return plan, err
	}
	r.get("/")
	for _, want := range []float64{hurryLeast, hurryLeast + 1} {
		if w := r.asked(); w.TimeLimit != want {
			t.Fatalf("a plan may take %v s, want %v", w.TimeLimit, want)
		}
	}
}

func TestAPlanThatIsHardlyBetterIsNotOffered(t *testing.T) {
	r := inAHurry(t, 0.001)
	r.first()
	r.asked()
	r.found()
	if p := r.get("/"); p.Find(".plan-note").Length() != 0 {
		t.Errorf("the desk says %s", p.Find(".plan-note").Text())
	}
	if len(r.limits) != 0 {
		t.Error("it is looked for again")
	}
}

func TestABetterPlanThatIsNotWantedIsNotLookedForAgain(t *testing.T) {
	r := inAHurry(t, 0.5)
	r.first()
	r.asked()
	r.found()
	r.send("/plan", r.get("/plan").form("main", "throw away"))
	if p := r.get("/"); p.Find(".plan-note").Length() != 0 || len(r.limits) != 0 {
		t.Errorf("the desk says %s, and makes %d plans", p.Find(".plan-note").Text(), len(r.limits))
	}
}

// Work that is written down changes nothing of what the search looks for; what a plan is made of begins it again, with the plan in use.
func TestABetterPlanIsLookedForWithTheBookAsItIs(t *testing.T) {
	r := inAHurry(t, 0.5)
	r.first()
	r.asked()
	r.change(func(s *book.State) {
		s.Work = append(s.Work, book.Work{Work: kennel.Work{Dog: "Moss", On: monday, Duty: "nails", Minutes: 10}})
	})
	r.get("/")
	if len(r.limits) != 0 {
		t.Fatal("a tick has ended the search")
	}
	r.change(func(s *book.State) {
		other := s.Kennel.Dogs[1]
		other.Name = "Juniper"
		s.Kennel.Dogs = append(s.Kennel.Dogs, other)
	})
	r.get("/")
	if w := r.asked(); w.TimeLimit != 0 || w.Begin == nil || len(w.State.Kennel.Dogs) != 3 {
		t.Errorf("it looks for a plan of %d dogs, beginning with %v", len(w.State.Kennel.Dogs), w.Begin != nil)
	}
	r.found()
	p := r.get("/plan")
	p.says(".plan-note", "A better plan is ready. The one below stays")
	r.send("/plan", p.form("main", "take"))
	if n := len(r.use().Outlooks); n != 3 {
		t.Errorf("the plan in use is of %d dogs", n)
	}
}

func TestWhatIsBetterThanAPlanThatWasTakenBackIsNotLookedFor(t *testing.T) {
	r := inAHurry(t, 0.5)
	r.first()
	r.asked()
	if _, _, err := r.book.Undo(t.Context(), book.AnyVersion); err != nil {
		t.Fatal(err)
	}
	p := r.get("/plan")
	p.says(".plan-note", "There is no plan in use.")
	if r.desk.plans.job != nil {
		t.Error("it is still looked for")
	}
}

func TestADeskThatIsOpenedAgainLooksOn(t *testing.T) {
	r := inAHurry(t, 0.5)
	r.first()
	r.asked()
	closed := make(chan struct{})
	go func() { r.desk.Close(); close(closed) }()
	select {
	case <-closed:
	case <-time.After(time.Minute):
		t.Fatal("closing the desk does not end the search")
	}
	if s := r.state(); s.Plan.Result == nil {
		t.Fatal("the plan in use has gone")
	}
	opt := r.desk.plans.opt
	again, err := New(opt)
	if err != nil {
		t.Fatal(err)
	}
	r.desk = again
	if w := r.asked(); w.TimeLimit != 0 {
		t.Errorf("it may take %v s", w.TimeLimit)
	}
	r.get("/").says(".plan-note", lookingForBetter)
}

// Where the settings give all plans a limit, the first has no more, and one that has as much as any is as good as any.
func TestTheFirstPlanTakesNoLongerThanAnyPlanMay(t *testing.T) {
	for _, c := range []struct {
		dogs  int
		limit float64
		want  float64
	}{{1, 0, 5}, {8, 0, 5}, {16, 0, 16}, {60, 0, 225}, {8, 3, 3}, {60, 60, 60}} {
		if got := hurry(c.dogs, c.limit); got != c.want {
			t.Errorf("%d dogs and a limit of %v s: %v s, not %v", c.dogs, c.limit, got, c.want)
		}
	}
	plan := func(cut bool, limit float64) (r optimize.Result) {
		r.Season.Cut, r.Options.TimeLimit = cut, limit
		return r
	}
	for _, c := range []struct {
		plan  optimize.Result
		limit float64
		want  bool
	}{{plan(true, 5), 0, true}, {plan(true, 5), 60, true}, {plan(false, 5), 0, false}, {plan(true, 0), 0, false}, {plan(true, 3), 3, false}} {
		if got := hurried(c.plan, c.limit); got != c.want {
			t.Errorf("cut %v after %v s, where any plan may take %v: %v", c.plan.Season.Cut, c.plan.Options.TimeLimit, c.limit, got)
		}
	}
}
