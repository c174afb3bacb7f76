package desk

import (
	"fmt"
	"strconv"
	"strings"

	"tuckup/kennel"
)

// Shares are stepped up and down as they are said at the table, from a few hairs to all of it.

// rung is one share of the ladder.
type rung struct {
	share kennel.Share
	words string
}

// ladder are the shares that a tap on less and more goes through, the least first.
var ladder = newLadder()

func newLadder() (all []rung) {
	add := func(s kennel.Share) {
		if words := shareWords(s); len(all) == 0 || all[len(all)-1].words != words {
			all = append(all, rung{s, words})
		}
	}
	all = append(all, rung{0, "0"})
	for n := 60; n > 2; n-- {
		if n <= 20 || n%5 == 0 && n != 45 && n != 55 {
			add(kennel.Share(1 / float64(n)))
		}
	}
	for _, s := range []kennel.Share{1.0 / 2, 2.0 / 3, 3.0 / 4, 9.0 / 10, 1} {
		add(s)
	}
	return all
}

// stepped is the share that is next to what stands in a field: more of it, or less. What can't be read stays.
func stepped(said string, more bool) string {
	if said == "" {
		said = "0"
	}
	s, err := kennel.ParseShare(said)
	if err != nil {
		return said
	}
	best := ladder[0].words
	if more {
		best = ladder[len(ladder)-1].words
	}
	for _, r := range ladder {
		switch {
		case more && r.share > s+leastShare:
			return r.words
		case !more && r.share < s-leastShare:
			best = r.words
		}
	}
	return best
}

// Steps are the shares of the ladder for the script, which steps as stepped does: each with its words.
func (workPage) Steps() string {
	var b strings.Builder
	for i, r := range ladder {
		if i > 0 {
			b.WriteByte('|')
		}
		fmt.Fprintf(&b, "%s=%s", strconv.FormatFloat(float64(r.share), 'g', 6, 64), r.words)
	}
	return b.String()
}
