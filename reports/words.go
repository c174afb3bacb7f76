package reports

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"github.com/jedib0t/go-pretty/v6/text"

	"tuckup/kennel"
)

// Marks of Unicode's bidirectional algorithm (UAX 9): they keep a name that is written right to left from
// turning the numbers beside it round.
const (
	firstStrongIsolate = "\u2068"
	popIsolate         = "\u2069"
)

// plain is s made harmless for a terminal: control and format characters, which could move the cursor, recolour
// or reorder the line, become a middle dot, white space becomes single blanks, and names written right to left are
// kept to themselves.
func plain(s string) string {
	var b strings.Builder
	rightToLeft := false
	for _, r := range strings.Join(strings.Fields(strings.ToValidUTF8(s, "\uFFFD")), " ") {
		switch {
		case unicode.Is(unicode.C, r) || unicode.Is(unicode.Zl, r) || unicode.Is(unicode.Zp, r):
			b.WriteRune('·')
			continue
		case unicode.In(r, unicode.Arabic, unicode.Hebrew, unicode.Syriac, unicode.Thaana, unicode.Nko):
			rightToLeft = true
		}
		b.WriteRune(r)
	}
	if rightToLeft {
		return firstStrongIsolate + b.String() + popIsolate
	}
	return b.String()
}

// width is how many columns of a terminal s takes.
func width(s string) int {
	n := 0
	for _, r := range s {
		n += runeWidth(r)
	}
	return n
}

// runeWidth is how many columns one character takes: none for format characters such as the isolates.
func runeWidth(r rune) int {
	if unicode.Is(unicode.Cf, r) {
		return 0
	}
	return text.RuneWidth(r)
}

// cut is s in at most n columns, with an ellipsis when something had to go.
func cut(s string, n int) string {
	if width(s) <= n {
		return s
	}
	isolated := strings.HasPrefix(s, firstStrongIsolate)
	var b strings.Builder
	used := 0
	for _, r := range s {
		used += runeWidth(r)
		if used > n-1 {
			break
		}
		b.WriteRune(r)
	}
	b.WriteString("…")
	if isolated {
		b.WriteString(popIsolate)
	}
	return b.String()
}

// wrap breaks s at blanks into lines of at most n columns; a word longer than a line is broken where the line
// ends. There is always at least one line. Less room than two columns, the widest character, is taken as two.
func wrap(s string, n int) []string {
	n = max(n, 2)
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		if line != "" && width(line)+1+width(word) > n {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " " + word
			continue
		}
		for width(word) > n {
			head := headOf(word, n)
			lines, word = append(lines, head), word[len(head):]
		}
		line = word
	}
	return append(lines, line)
}

// headOf is the longest start of word that fits in n columns, at least one rune.
func headOf(word string, n int) string {
	used := 0
	for i, r := range word {
		if used += runeWidth(r); used > n && i > 0 {
			return word[:i]
		}
	}
	return word
}

// dayWords is a date as people say it, with its year only where that is not the year of today.
func dayWords(d, today kennel.Date) string {
	return withYear(d, today, "Mon 2 Jan")
}

// weekWords names a week by its Monday.
func weekWords(d, today kennel.Date) string {
	return withYear(d, today, "2 January")
}

func withYear(d, today kennel.Date, layout string) string {
	if d.Time().Year() != today.Time().Year() {
		layout += " 2006"
	}
	return d.Time().Format(layout)
}

func longDay(d kennel.Date) string { return d.Time().Format("Monday 2 January 2006") }

// windowsWords lists runs of days.
func windowsWords(ws []kennel.Window, today kennel.Date) string {
	if len(ws) == 0 {
		return "never"
	}
	parts := make([]string, len(ws))
	for i, w := range ws {
		parts[i] = withYear(w.From, today, "2 Jan") + " to " + withYear(w.To, today, "2 Jan")
	}
	return strings.Join(parts, ", ")
}

// chanceWords says whether a show is entered or only hoped for.
func chanceWords(chance float64) string {
	if chance >= 1 {
		return "entered"
	}
	return fmt.Sprintf("hoped for, %.0f %%", 100*chance)
}

func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// minutesWords are whole minutes: nobody works by the second.
func minutesWords(m kennel.Minutes) string { return fmt.Sprintf("%.0f min", float64(m)) }
