// Package say puts what a plan holds into the words in which people read it, and fits words into the columns of a page:
// days, shares, minutes and chances, the sentences on how good a plan is, cautions; plain text, widths, cuts and breaks.
// Every text that it is given may come from a person, and goes through Plain where it becomes part of a sentence.
package say

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"github.com/rivo/uniseg"

	"tuckup/kennel"
)

// Plain is s made harmless for a terminal and a page: control and format characters, which could move the cursor,
// recolour or reorder the line, become a middle dot, white space becomes single blanks, and names written right to left
// are kept to themselves. Emoji stay joined.
func Plain(s string) string {
	if plainAlready(s) {
		return s
	}
	var b strings.Builder
	rightToLeft := false
	characters := uniseg.NewGraphemes(strings.Join(strings.Fields(strings.ToValidUTF8(s, "\uFFFD")), " "))
	for characters.Next() {
		runes := characters.Runes()
		for i, r := range runes {
			switch {
			case r == emojiJoiner && i > 0 && i+1 < len(runes) && unicode.Is(unicode.So, runes[i+1]):
			case unicode.Is(unicode.C, r) || unicode.Is(unicode.Zl, r) || unicode.Is(unicode.Zp, r):
				r = '·'
			case unicode.In(r, unicode.Arabic, unicode.Hebrew, unicode.Syriac, unicode.Thaana, unicode.Nko):
				rightToLeft = true
			}
			b.WriteRune(r)
		}
	}
	if rightToLeft {
		return firstStrongIsolate + b.String() + popIsolate
	}
	return b.String()
}

// plainAlready reports whether a text is of printed ASCII with single blanks between its words, as most are.
func plainAlready(s string) bool {
	last := byte(' ')
	for i := range len(s) {
		c := s[i]
		if c < ' ' || c > '~' || c == ' ' && last == ' ' {
			return false
		}
		last = c
	}
	return last != ' ' || s == ""
}

// emojiJoiner makes one picture of two, like a person and a dog.
const emojiJoiner = '\u200d'

// Plains are texts, each made Plain.
func Plains(words []string) []string {
	clean := make([]string, len(words))
	for i, s := range words {
		clean[i] = Plain(s)
	}
	return clean
}

// Marks of Unicode's bidirectional algorithm (UAX 9): they keep a name that is written right to left from
// turning the numbers beside it round.
const (
	firstStrongIsolate = "\u2068"
	popIsolate         = "\u2069"
)

// Day is a date as people say it, with its year only where that is not the year of today.
func Day(d, today kennel.Date) string {
	return WithYear(d, today, "Mon 2 Jan")
}

// Week names a week by its Monday.
func Week(d, today kennel.Date) string {
	return WithYear(d, today, "2 January")
}

// WithYear is a date in the layout of package time, with its year behind it where that is not the year of today.
func WithYear(d, today kennel.Date, layout string) string {
	if d.Time().Year() != today.Time().Year() {
		layout += " 2006"
	}
	return d.Time().Format(layout)
}

// LongDay is a date in full: "Monday 4 January 2027".
func LongDay(d kennel.Date) string { return d.Time().Format("Monday 2 January 2006") }

// Windows lists runs of days, "never" where there are none.
func Windows(ws []kennel.Window, today kennel.Date) string {
	if len(ws) == 0 {
		return "never"
	}
	parts := make([]string, len(ws))
	for i, w := range ws {
		parts[i] = WithYear(w.From, today, "2 Jan") + " to " + WithYear(w.To, today, "2 Jan")
	}
	return strings.Join(parts, ", ")
}

// Chance says whether a show is entered or only hoped for.
func Chance(chance float64) string {
	if chance >= 1 {
		return "entered"
	}
	return fmt.Sprintf("hoped for, %.0f %%", 100*chance)
}

// Plural is a number of things whose plural ends in s.
func Plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// Minutes are whole minutes: nobody works by the second.
func Minutes(m kennel.Minutes) string { return fmt.Sprintf("%.0f min", float64(m)) }

// FirstUpper is s with its first letter as a capital.
func FirstUpper(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// Percent is a chance in words: only what is certain is 0 or 100 %.
func Percent(chance float64) string {
	whole := math.Round(100 * chance)
	if chance > 0 && chance < 1 {
		whole = min(max(whole, 1), 99)
	}
	return fmt.Sprintf("%.0f %%", whole)
}

// percentUp is a percentage rounded up to one decimal, so that what it promises stays true.
func percentUp(x float64) string {
	return fmt.Sprintf("%.1f %%", max(0, math.Ceil(10*x-1e-9)/10))
}

// Length is a length in the kennel's units.
func Length(l kennel.Millimetres, u kennel.Units) string {
	if u == kennel.UnitsInches {
		return fmt.Sprintf("%.2f in", float64(l)/millimetresAnInch)
	}
	return fmt.Sprintf("%.0f mm", float64(l))
}

// millimetresAnInch is exact (international inch, 1959; memory).
const millimetresAnInch = 25.4
