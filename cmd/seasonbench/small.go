package main

import (
	"fmt"
	"io"
)

// smallSummary holds our plans against proved optima.
type smallSummary struct {
	Seasons   int     `json:"seasons"`
	Proved    int     `json:"proved"` // with an optimum that a general solver proved and that holds
	Within    int     `json:"within"` // of these: ours is as good within a thousandth
	Worst     float64 `json:"worst"`  // the most that ours is behind, relative
	WorstSeed uint64  `json:"worst_seed"`
	WrongSide int     `json:"wrong_side"` // of all: a plan was found that passes our bound
	Gap       float64 `json:"gap"`        // mean of our proved gaps
}

const within = 1e-3

// summarise gathers the class small; nil where it was not measured.
func summarise(all []result) *smallSummary {
	var s smallSummary
	for _, r := range all {
		if r.Class != "small" {
			continue
		}
		s.Seasons++
		s.Gap += r.Ours.Gap
		b, ok := r.best()
		if ok && relative(b.Points-r.Ours.Bound, r.Ours.Bound) > boundTolerance {
			s.WrongSide++
		}
		if !ok || b.Status != proved {
			continue
		}
		s.Proved++
		behind := relative(b.Points-r.Ours.Points, b.Points)
		if behind <= within {
			s.Within++
		}
		if behind > s.Worst {
			s.Worst, s.WorstSeed = behind, r.Seed
		}
	}
	if s.Seasons == 0 {
		return nil
	}
	s.Gap /= float64(s.Seasons)
	return &s
}

func (s *smallSummary) print(w io.Writer) {
	fmt.Fprintf(w, "\nsmall: %d seasons, mean proved gap %.2f %%; a plan past our bound in %d.\n", s.Seasons, 100*s.Gap, s.WrongSide)
	if s.Proved == 0 {
		fmt.Fprintf(w, "No general solver proved an optimum.\n")
		return
	}
	fmt.Fprintf(w, "Of %d with a proved optimum, %d (%.1f %%) are within 0.1 %% of it", s.Proved, s.Within, 100*float64(s.Within)/float64(s.Proved))
	if s.Worst > 0 {
		fmt.Fprintf(w, "; the worst is %.3f %% behind (seed %d)", 100*s.Worst, s.WorstSeed)
	}
	fmt.Fprintf(w, ".\n")
}
