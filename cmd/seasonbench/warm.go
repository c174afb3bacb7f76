package main

import (
	"context"
	"fmt"
	"io"
	"math"

	"tuckup/optimize/season"
	"tuckup/optimize/season/made"
)

const warm = "warm"

// What is aimed at where a plan is mended after one show more.
const (
	warmBehind  = 0.002 // of the cold plan
	warmSeconds = 0.3
)

// oneShowMore is the season with a show about its middle added for two dogs.
func oneShowMore(p *season.Problem, seed uint64) *season.Problem {
	dogs := uint64(len(p.Dogs))
	week := p.Weeks/2 + int(seed%5) - 2
	return made.WithShow(p, week, 2, int(seed%dogs), int((seed+dogs/2)%dogs))
}

// mend plans the season as it was before the show came in, and then again with that plan to begin with.
func (a *app) mend(ctx context.Context, i instance, dir string, limit float64) (ours, error) {
	before, err := season.Solve(ctx, made.RandomString(i.Seed, i.Shape), season.Options{})
	if err != nil {
		return ours{}, err
	}
	o, err := a.solveOurs(ctx, i.problem(), &before.Plan, dir, limit)
	if err == nil {
		fmt.Fprintf(a.err, "%s: again %.2f points, gap %.2f %%, %.2f s\n", i, o.Points, 100*o.Gap, o.Seconds)
	}
	return o, err
}

// mendedMore is by how much the mended plan is above the cold one, relative.
func (r result) mendedMore() float64 { return relative(r.Mended.Points-r.Ours.Points, r.Ours.Points) }

func (r result) mendedVerdict() string {
	v := fmt.Sprintf("aim: %g %% behind at most, in %g s: ", 100*warmBehind, warmSeconds)
	if r.mendedMore() >= -warmBehind && r.Mended.Seconds <= warmSeconds {
		return v + "met"
	}
	return v + "missed"
}

// warmSummary holds mended plans against cold ones.
type warmSummary struct {
	Seasons int     `json:"seasons"`
	Near    int     `json:"near"`  // mended plans no more than warmBehind behind
	Quick   int     `json:"quick"` // in warmSeconds
	More    float64 `json:"more"`  // mean of what they are above the cold ones, relative
	Least   float64 `json:"least"` // the least of that
	Cold    float64 `json:"cold_seconds"`
	Seconds float64 `json:"seconds"` // mean
}

// summariseWarm gathers the class warm; nil where it was not measured.
func summariseWarm(all []result) *warmSummary {
	s := warmSummary{Least: math.Inf(1)}
	for _, r := range all {
		if r.Mended == nil {
			continue
		}
		more := r.mendedMore()
		s.Seasons++
		s.More += more
		s.Least = min(s.Least, more)
		s.Cold += r.Ours.Seconds
		s.Seconds += r.Mended.Seconds
		if more >= -warmBehind {
			s.Near++
		}
		if r.Mended.Seconds <= warmSeconds {
			s.Quick++
		}
	}
	if s.Seasons == 0 {
		return nil
	}
	n := float64(s.Seasons)
	s.More, s.Cold, s.Seconds = s.More/n, s.Cold/n, s.Seconds/n
	return &s
}

func (s *warmSummary) print(w io.Writer) {
	fmt.Fprintf(w, "\nwarm: of %d plans made again %d are within %g %% of the cold ones (mean %+.2f %%, least %+.2f %%), %d came in %g s (mean %.2f s, cold %.2f s).\n",
		s.Seasons, s.Near, 100*warmBehind, 100*s.More, 100*s.Least, s.Quick, warmSeconds, s.Seconds, s.Cold)
}
