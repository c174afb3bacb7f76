package say

import (
	"strings"
	"testing"
)

// Texts of any length are fitted into lines with work that grows as their length does.
func TestFittingATextLooksAtItAFewTimesOnly(t *testing.T) {
	const length, atMost = 20000, 5 // looks at each byte
	for name, letter := range map[string]string{"one word": "a", "words": "ab ", "marks over one letter": "\u0301", "joined emoji": "👩\u200d", "Hebrew": "כ", "wide": "犬"} {
		text := strings.Repeat(letter, length/len(letter))
		r := new(ruler)
		lines := r.wrap(text, 60)
		if r.looked > atMost*len(text) {
			t.Errorf("%s: looked at %d bytes for a text of %d", name, r.looked, len(text))
		}
		if got, want := strings.Join(lines, ""), strings.ReplaceAll(text, " ", ""); strings.ReplaceAll(got, " ", "") != want {
			t.Errorf("%s: letters went missing", name)
		}
	}
}
