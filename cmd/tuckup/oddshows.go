package main

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"tuckup/kennel"
)

// day is the day on which what the file says was so: that of a kennel file is its first day to plan, for what was over
// later was ahead when it was written.
func (r reading) day(today kennel.Date) kennel.Date {
	if r.isKennel() && r.kennel.PlanFrom != 0 {
		return r.kennel.PlanFrom
	}
	return today
}

// odd picks the shows that the file brought into the book and that somebody should look at again, as of the day.
func (r reading) odd(before, after []kennel.Show, on kennel.Date) (odd []kennel.Show) {
	for _, s := range after {
		o := s.Odd(on)
		known := slices.ContainsFunc(before, func(b kennel.Show) bool {
			return b.Name == s.Name && b.On == s.On && !o.AskedAfter(b.Odd(on))
		})
		if !known && r.tells(s, o) {
			odd = append(odd, s)
		}
	}
	return odd
}

// tells reports whether a show of the file should be looked at again. A kennel file holds the shows of past seasons too, so
// of those only one whose year is likely a slip is.
func (r reading) tells(s kennel.Show, o kennel.Odd) bool {
	if r.isKennel() && o.Past {
		return o.Slip(s.On)
	}
	return o.Asked()
}

// mostOddNamed is how many shows of an import are named; the others are counted.
const mostOddNamed = 5

// tellOdd says on standard error which shows were taken in although they are odd, and what to type where one is wrong.
func (a *app) tellOdd(r reading, before, after []kennel.Show, today kennel.Date) {
	on := r.day(today)
	odd := r.odd(before, after, on)
	if len(odd) == 0 {
		return
	}
	var words []string
	try := ""
	for _, s := range odd[:min(len(odd), mostOddNamed)] {
		o := s.Odd(on)
		w := fmt.Sprintf("%s on %s %s", s.Name, s.On, o.Why())
		edit := fmt.Sprintf("tuckup show edit %q --on %s", s.Name, s.On)
		switch {
		case o.Likely != 0:
			w += fmt.Sprintf(" (%s was meant?)", o.Likely)
			edit += " --move " + o.Likely.String()
		case o.Past:
			edit = fmt.Sprintf("tuckup show drop %q --on %s", s.Name, s.On)
		default:
			edit += " --dogs NAMES"
		}
		if try == "" {
			try = edit
		}
		words = append(words, w)
	}
	if more := len(odd) - mostOddNamed; more > 0 {
		words = append(words, fmt.Sprintf("and %d more", more))
	}
	a.say(filepath.Base(r.name)+", taken as it is: "+strings.Join(words, "; "), try)
}
