package say

import (
	"strings"

	"github.com/rivo/uniseg"
)

// Width is how many columns of a terminal s takes. Characters are counted as they are seen (UAX 29): a family of joined
// emoji is one of two columns, and marks that are written over a letter take none.
func Width(s string) int { return new(ruler).width(s) }

// ruler measures texts, and counts the bytes that it looks at: the work of fitting a text grows as its length does.
type ruler struct{ looked int }

func (r *ruler) width(s string) int {
	r.looked += len(s)
	return uniseg.StringWidth(s)
}

// Cut is s in at most n columns, with an ellipsis when something had to go.
func Cut(s string, n int) string {
	if Width(s) <= n {
		return s
	}
	cut := strings.TrimRight(new(ruler).head(s, n-1), firstStrongIsolate) + "…"
	if strings.HasPrefix(cut, firstStrongIsolate) {
		cut += popIsolate
	}
	return cut
}

// widest is the widest character that there is in columns, the three-em dash.
const widest = 4

// Wrap breaks s at blanks into lines of at most n columns; a word longer than a line is broken where the line
// ends. There is always at least one line. Less room than the widest character is taken as its width. Its work grows as
// the length of s does.
func Wrap(s string, n int) []string { return new(ruler).wrap(s, n) }

func (r *ruler) wrap(s string, n int) []string {
	n = max(n, widest)
	var lines []string
	line, used := "", 0 // used are the columns of the line
	for _, word := range strings.Fields(s) {
		head := r.head(word, n)
		if columns := r.width(head); line != "" && (len(head) < len(word) || used+1+columns > n) {
			lines, line, used = append(lines, line), "", 0
		}
		if line != "" {
			line, used = line+" "+word, used+1+r.width(head)
			continue
		}
		for len(head) < len(word) {
			if head == "" { // one character of many marks
				head = r.runes(word, n)
			}
			lines, word = append(lines, head), word[len(head):]
			head = r.head(word, n)
		}
		line, used = word, r.width(word)
	}
	return append(lines, line)
}

// head is the longest start of s that fits in n columns without cutting a character in two; it may be empty.
func (r *ruler) head(s string, n int) string {
	used, end := 0, 0
	for rest, state := s, -1; rest != ""; {
		var character string
		var columns int
		character, rest, columns, state = uniseg.FirstGraphemeClusterInString(rest, state)
		r.looked += len(character)
		if used += columns; used > n {
			break
		}
		end += len(character)
	}
	return s[:end]
}

// runes is the start of s, between any two runes, whose runes fit in n columns one by one; it is never empty.
func (r *ruler) runes(s string, n int) string {
	used := 0
	for i, c := range s {
		if used += r.width(string(c)); used > n && i > 0 {
			return s[:i]
		}
	}
	return s
}
