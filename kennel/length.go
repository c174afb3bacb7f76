package kennel

import (
	"fmt"
	"unicode/utf8"
)

// How many letters a text may have: a name has to stand in a line of a list, a note may tell a story.
const (
	LongestName = 80
	LongestNote = 2000
)

// TooLong are the texts of the kennel that have more letters than they may, where it is looked at whatever is written.
// Those that are known already are passed over: a book that was written before names had a limit may hold them.
func TooLong(k Kennel, known func(text string) bool) (all []*InputError) {
	text := func(field, s string, most int) {
		if e := LongText(field, s, most); e != nil && !known(s) {
			all = append(all, e)
		}
	}
	spans := func(at string, all []Span) {
		for i, s := range all {
			text(fmt.Sprintf("%s[%d].why", at, i), s.Why, LongestNote)
		}
	}
	text("kennel", k.Name, LongestName)
	for i, h := range k.Hands {
		at := fmt.Sprintf("hands[%d]", i)
		text(at+".name", h.Name, LongestName)
		spans(at+".away", h.Away)
	}
	for i, d := range k.Dogs {
		at := fmt.Sprintf("dogs[%d]", i)
		text(at+".name", d.Name, LongestName)
		text(at+".owner", d.Owner, LongestName)
		text(at+".ring_name", d.RingName, LongestName)
		spans(at+".here", d.Here)
		for j, x := range d.Outlines {
			text(fmt.Sprintf("%s.outline[%d].note", at, j), x.Note, LongestName)
		}
		for j, x := range d.Duties {
			text(fmt.Sprintf("%s.duties[%d].name", at, j), x.Name, LongestName)
		}
	}
	for i, s := range k.Shows {
		at := fmt.Sprintf("shows[%d]", i)
		text(at+".name", s.Name, LongestName)
		if s.Away != nil {
			text(at+".away.why", s.Away.Why, LongestNote)
		}
	}
	return all
}

// LongText is what is wrong with a text of more letters than it may have, nil when there is nothing.
func LongText(field, text string, most int) *InputError {
	if len(text) <= most {
		return nil
	}
	n := utf8.RuneCountInString(text)
	if n <= most {
		return nil
	}
	return &InputError{
		Field: field, Value: Shortened(text), What: fmt.Sprintf("has %d letters", n), Try: fmt.Sprintf("at most %d letters", most),
	}
}

// Shortened is a text as it is named in a message: its first letters.
func Shortened(text string) string {
	const most = 60
	n := 0
	for i := range text {
		if n == most {
			return text[:i] + ".."
		}
		n++
	}
	return text
}
