package say

import (
	"strings"

	"github.com/rivo/uniseg"
)

// Width is how many columns of a terminal s takes. Characters are counted as they are seen (UAX 29): a family of joined
// emoji is one of two columns, and marks that are written over a letter take none.
func Width(s string) int { return uniseg.StringWidth(s) }

// Cut is s in at most n columns, with an ellipsis when something had to go.
func Cut(s string, n int) string {
	if Width(s) <= n {
		return s
	}
	cut := strings.TrimRight(headOf(s, n-1), firstStrongIsolate) + "…"
	if strings.HasPrefix(cut, firstStrongIsolate) {
		cut += popIsolate
	}
	return cut
}

// widest is the widest character that there is in columns, the three-em dash.
const widest = 4

// Wrap breaks s at blanks into lines of at most n columns; a word longer than a line is broken where the line
// ends. There is always at least one line. Less room than the widest character is taken as its width.
func Wrap(s string, n int) []string {
	n = max(n, widest)
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		if line != "" && Width(line)+1+Width(word) > n {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " " + word
			continue
		}
		for Width(word) > n {
			head := headOf(word, n)
			if head == "" { // one character of many marks
				head = runesOf(word, n)
			}
			lines, word = append(lines, head), word[len(head):]
		}
		line = word
	}
	return append(lines, line)
}

// headOf is the longest start of s that fits in n columns without cutting a character in two; it may be empty.
func headOf(s string, n int) string {
	used, end := 0, 0
	for rest, state := s, -1; rest != ""; {
		var character string
		var columns int
		character, rest, columns, state = uniseg.FirstGraphemeClusterInString(rest, state)
		if used += columns; used > n {
			break
		}
		end += len(character)
	}
	return s[:end]
}

// runesOf is the longest start of s that fits in n columns, between any two runes.
func runesOf(s string, n int) string {
	end := 0
	for i := range s {
		if Width(s[:i]) > n {
			break
		}
		end = i
	}
	return s[:end]
}
