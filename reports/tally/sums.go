package tally

import (
	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Part is one way to look at a workload.
type Part string

// The parts of a workload.
const (
	PartWeek    Part = "week"
	PartDog     Part = "dog"
	PartArea    Part = "area"
	PartOwner   Part = "owner"
	PartHands   Part = "hands"
	PartBalance Part = "balance"
)

// Parts lists the parts in the order in which they are told.
func Parts() []Part {
	return []Part{PartWeek, PartDog, PartArea, PartOwner, PartHands, PartBalance}
}

// Sum is the work that shares a key: of one week, one dog, and so on.
type Sum struct {
	Name                string // as a person or the kennel's file writes it; a date for a week
	Week                kennel.Date
	Pull, SetUp, Duties layout.Hundredths
	Shows               layout.Hundredths  // at shows, before the ring
	ThereAre            *layout.Hundredths // hours available at home, for weeks and hands
}

// Home is the sum of all kinds of work at home, which is what the hours available are for.
func (s Sum) Home() layout.Hundredths { return s.Pull + s.SetUp + s.Duties }

// All is the sum of all kinds of work, at home and at shows.
func (s Sum) All() layout.Hundredths { return s.Home() + s.Shows }

func (s *Sum) add(kind string, t layout.Hundredths) {
	switch kind {
	case KindPull:
		s.Pull += t
	case KindSetUp:
		s.SetUp += t
	case KindShow:
		s.Shows += t
	default:
		s.Duties += t
	}
}

// Sums are the work by the part's key: weeks, dogs, owners and hands in the kennel's order, also those without work;
// areas in the order in which they first come.
func Sums(r optimize.Result, lines []Line, by Part) []Sum {
	var list []Sum
	at := map[string]int{}
	open := func(s Sum) {
		at[s.Name] = len(list)
		list = append(list, s)
	}
	switch by {
	case PartWeek:
		for _, w := range r.Weeks {
			there := layout.HundredthsOf(kennel.Minutes(w.Hours * kennel.MinutesAnHour))
			open(Sum{Name: w.Week.String(), Week: w.Week, ThereAre: &there})
		}
	case PartDog:
		for _, d := range r.Kennel.Dogs {
			open(Sum{Name: d.Name})
		}
	case PartOwner:
		for _, d := range r.Kennel.Dogs {
			if _, ok := at[d.Owner]; !ok {
				open(Sum{Name: d.Owner})
			}
		}
	case PartHands:
		for _, h := range r.Kennel.Hands {
			var there layout.Hundredths
			for _, w := range r.Weeks {
				for _, x := range w.Hands {
					if x.Hands == h.Name {
						there += layout.HundredthsOf(kennel.Minutes(x.Hours * kennel.MinutesAnHour))
					}
				}
			}
			open(Sum{Name: h.Name, ThereAre: &there})
		}
	}
	for _, l := range lines {
		key := Key(l, by)
		if _, ok := at[key]; !ok {
			open(Sum{Name: key, Week: l.Week})
		}
		list[at[key]].add(l.Kind, l.Time)
	}
	return list
}

// Total is the sum of sums.
func Total(list []Sum) (all Sum) {
	for _, s := range list {
		all.Pull += s.Pull
		all.SetUp += s.SetUp
		all.Duties += s.Duties
		all.Shows += s.Shows
	}
	return all
}

// Label is what a sum is called.
func (s Sum) Label(r optimize.Result, by Part) string {
	switch {
	case by == PartWeek:
		return say.Week(s.Week, r.On)
	case s.Name == "":
		return "(none)"
	}
	return say.Plain(s.Name)
}
