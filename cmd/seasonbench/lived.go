package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/patterns"
	"tuckup/optimize"
	"tuckup/optimize/lived"
)

const livedClass = "lived"

// The handlers that live a season.
const (
	byPlan  = "plan"  // planned every Monday
	byBlind = "blind" // planned once and followed
	byThumb = "rule"  // the best rule of thumb
)

// livedSeason is one season as one handler lived it.
type livedSeason struct {
	Kind     string      `json:"kind"`
	Seed     uint64      `json:"seed"`
	Hand     string      `json:"hand"`
	Rule     *lived.Rule `json:"rule,omitempty"`
	Effort   float64     `json:"effort,omitempty"`
	Scores   []float64   `json:"scores"` // of dogs at shows
	Missed   int         `json:"missed"` // sessions
	Sessions int         `json:"sessions"`
	Promises []promise   `json:"promises,omitempty"`
	Moved    float64     `json:"moved,omitempty"`    // part of the shares of the coming three weeks, from one plan to the next
	LeftOut  float64     `json:"left_out,omitempty"` // part of the minutes planned
	Seconds  float64     `json:"cpu_seconds"`        // of processor time
}

func (l livedSeason) is(kind string, seed uint64, hand string) bool {
	return l.Kind == kind && l.Seed == seed && l.Hand == hand
}

// tuned is the rule of thumb that did best with a kind of strings on the seeds that rules are tuned on.
type tuned struct {
	Kind  string     `json:"kind"`
	Rule  lived.Rule `json:"rule"`
	Mean  float64    `json:"mean"`  // readiness at shows on those seeds
	Rules int        `json:"rules"` // of how many
	Seeds int        `json:"seeds"`
}

// The seeds that rules are tuned on: no season is reported on them.
const (
	tuneFirst = 1_000_000
	tuneSeeds = 20
)

// coatsAlone are the built-in patterns without care and finish. Rules of thumb say nothing of these, so a plan that gave them hours would
// be lived beside handlers who leave them undone.
func coatsAlone() (kennel.Patterns, error) {
	pats, err := patterns.Builtin()
	for name, p := range pats {
		p.Care, p.Undercoat, p.Finish = kennel.Care{}, kennel.Care{}, nil
		pats[name] = p
	}
	return pats, err
}

// live measures the class lived. What the log holds is not lived again.
func (a *app) live(ctx context.Context, f flags, rep *report) error {
	pats, err := coatsAlone()
	if err != nil {
		return err
	}
	if rep.Lived, err = readLog(f.log); err != nil {
		return err
	}
	for n := range f.seeds {
		for _, kind := range livedKinds {
			seed := f.first + uint64(n)
			var first *optimize.Result // the season's first plan: who plans every Monday and who plans once begin with the same
			for _, hand := range []string{byThumb, byPlan, byBlind} {
				if slices.ContainsFunc(rep.Lived, func(l livedSeason) bool { return l.is(kind.name, seed, hand) }) {
					continue
				}
				var rule lived.Rule
				if hand == byThumb {
					best, err := a.tuned(rep, kind, pats)
					if err != nil {
						return err
					}
					rule = best.Rule
				}
				l, p, err := a.liveOne(ctx, f, kind, seed, hand, rule, first, pats)
				if err != nil {
					return fmt.Errorf("%s %d, %s: %w", kind.name, seed, hand, err)
				}
				first = p
				rep.Lived = append(rep.Lived, l)
				if err := appendLog(f.log, l); err != nil {
					return err
				}
				fmt.Fprintf(a.err, "%s %d, %s: readiness %.1f, %.0f s\n", kind.name, seed, hand, mean(l.Scores), l.Seconds)
			}
		}
	}
	return nil
}

// tuned is the best rule of thumb for a kind, found once.
func (a *app) tuned(rep *report, kind livedKind, pats kennel.Patterns) (tuned, error) {
	for _, t := range rep.Tuned {
		if t.Kind == kind.name {
			return t, nil
		}
	}
	best, err := tune(kind, pats)
	if err == nil {
		rep.Tuned = append(rep.Tuned, best)
		fmt.Fprintf(a.err, "%s: the best of %d rules is %+v: readiness %.1f on %d seeds\n", kind.name, best.Rules, best.Rule, best.Mean, best.Seeds)
	}
	return best, err
}

// liveOne lives one season, and returns its first plan too. first is that plan where it was made before; nil = it was not.
func (a *app) liveOne(
	ctx context.Context, f flags, kind livedKind, seed uint64, hand string, rule lived.Rule, first *optimize.Result, pats kennel.Patterns,
) (livedSeason, *optimize.Result, error) {
	l := livedSeason{Kind: kind.name, Seed: seed, Hand: hand}
	k := livedKennel(kind, seed, pats)
	luck := kind.luck(seed)
	opt := optimize.DefaultOptions()
	opt.GrowthSD, opt.Missed = livedSD, 1-(1-luck.Missed)*(1-luck.Lost)
	s := livedString(k, pats, opt.Pick, luck)
	p := &planner{ctx: ctx, kennel: k, pats: pats, opt: opt, effort: f.effort, first: first}
	var h lived.Handler
	switch hand {
	case byThumb:
		l.Rule, h = &rule, rule.Handler()
	case byBlind:
		l.Effort, h = f.effort, &blind{planner: *p}
	default:
		l.Effort, h = f.effort, p
	}
	began := cpuSeconds()
	r, err := lived.Live(s, luck, h)
	if err != nil {
		return l, nil, err
	}
	l.Seconds = cpuSeconds() - began
	if ctx.Err() != nil {
		return l, nil, ctx.Err()
	}
	for _, j := range r.Judged {
		l.Scores = append(l.Scores, j.Score)
	}
	for _, d := range r.Done {
		if l.Sessions++; d.Missed {
			l.Missed++
		}
	}
	if b, ok := h.(*blind); ok {
		p = &b.planner
	}
	l.Promises = came(p.promises, r)
	if p.all > 0 {
		l.Moved = 1 - p.same/p.all
	}
	if p.had > 0 {
		l.LeftOut = p.left / p.had
	}
	return l, p.first, nil
}

// came are the promises with what came of them.
func came(all []promise, r lived.Record) []promise {
	for i := range all {
		for _, j := range r.Judged {
			if j.Dog == all[i].Dog && j.Show == all[i].Show {
				all[i].Came = j.Score
			}
		}
	}
	return all
}

// tune is the best of the rules with a kind of strings.
func tune(kind livedKind, pats kennel.Patterns) (tuned, error) {
	best := tuned{Kind: kind.name, Rules: len(lived.Rules()), Seeds: tuneSeeds}
	pick := optimize.DefaultOptions().Pick
	for _, rule := range lived.Rules() {
		var scores []float64
		for n := range uint64(tuneSeeds) {
			seed := tuneFirst + n
			luck := kind.luck(seed)
			r, err := lived.Live(livedString(livedKennel(kind, seed, pats), pats, pick, luck), luck, rule.Handler())
			if err != nil {
				return best, fmt.Errorf("%s %d, rule %+v: %w", kind.name, seed, rule, err)
			}
			for _, j := range r.Judged {
				scores = append(scores, j.Score)
			}
		}
		if m := mean(scores); m > best.Mean {
			best.Mean, best.Rule = m, rule
		}
	}
	return best, nil
}

func mean(x []float64) (sum float64) {
	for _, v := range x {
		sum += v / float64(len(x))
	}
	return sum
}

// readLog reads the seasons that were lived before; none where there is no log.
func readLog(name string) (all []livedSeason, err error) {
	if name == "" {
		return nil, nil
	}
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, 1<<24)
	for lines.Scan() {
		var l livedSeason
		if err := json.Unmarshal(lines.Bytes(), &l); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		all = append(all, l)
	}
	return all, lines.Err()
}

// appendLog adds a season to the log.
func appendLog(name string, l livedSeason) error {
	if name == "" {
		return nil
	}
	f, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	if err := json.NewEncoder(f).Encode(l); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
