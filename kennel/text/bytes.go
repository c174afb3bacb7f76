package text

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"tuckup/kennel"
)

// strangers are files that are no text, by how they begin, with what to try instead.
var strangers = []struct{ begins, what, try string }{
	{"PK\x03\x04", "is a document of an office program, not plain text", "save it as plain text (.txt) in UTF-8, and name that file"},
	{"\xd0\xcf\x11\xe0", "is a document of an office program, not plain text", "save it as plain text (.txt) in UTF-8, and name that file"},
	{`{\rtf`, "is a document with formats in it, not plain text", "save it as plain text (.txt) in UTF-8, and name that file"},
	{"%PDF", "is a document to print, not plain text", "the text that it was made from"},
	{"SQLite format 3", "is a book, not a kennel file", "--book with this file"},
}

// plainText is the text of a file: UTF-8 or UTF-16, with lines ended in any way, and with the signs that a word
// processor puts in place of blanks and of the - of a list as plain ones. Lines and columns stay.
func plainText(data []byte) (string, *kennel.InputError) {
	if wrong := stranger(data); wrong != nil {
		return "", wrong
	}
	data = fromUTF16(data)
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
	data = bytes.ReplaceAll(data, []byte("\r"), []byte("\n"))
	if err := checkBytes(data, false); err != nil {
		return "", err
	}
	return plainSigns(string(data)), nil
}

// stranger refuses a file that is no text.
func stranger(data []byte) *kennel.InputError {
	for _, s := range strangers {
		if bytes.HasPrefix(data, []byte(s.begins)) {
			return &kennel.InputError{Line: 1, Column: 1, Field: "file", What: s.what, Try: s.try}
		}
	}
	return nil
}

// fromUTF16 is UTF-16 that begins with its mark as UTF-8; other bytes come back as they are.
func fromUTF16(data []byte) []byte {
	var order binary.ByteOrder
	switch {
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}):
		order = binary.LittleEndian
	case bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		order = binary.BigEndian
	default:
		return data
	}
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	return []byte(string(utf16.Decode(units)))
}

// checkBytes refuses bytes that are no UTF-8 text; outside tables also control characters, and tabs before a line's first
// word.
func checkBytes(data []byte, table bool) *kennel.InputError {
	line, column, indent, begins := 1, 1, true, 0
	for at := 0; at < len(data); {
		c, n := utf8.DecodeRune(data[at:])
		in := &kennel.InputError{Line: line, Column: column, Field: "text"}
		switch {
		case c == utf8.RuneError && n == 1:
			in.Field, in.Value = "letter", letterOf(data[at])
			in.What = fmt.Sprintf("is not saved as UTF-8 (byte %#x, after %q)", data[at], lastLetters(data[begins:at]))
			in.Try = "save the file again with the encoding UTF-8"
		case table:
		case c == '\t' && indent:
			in.Value, in.What, in.Try = "\t", "a tab before the first word of a line", "spaces instead of the tab"
		case c != '\t' && c != '\n' && unicode.IsControl(c):
			in.Value, in.What, in.Try = string(c), "a control character that has no place in text", "leave it out"
		}
		if in.What != "" {
			return in
		}
		indent = c == '\n' || indent && c == ' '
		column++
		at += n
		if c == '\n' {
			line, column, begins = line+1, 1, at
		}
	}
	return nil
}

// lastLetters are the last letters of a text.
func lastLetters(text []byte) string {
	const most = 12
	r := []rune(string(text))
	return string(r[max(0, len(r)-most):])
}

// letterOf is the letter that a byte most likely was in a file that is not UTF-8: in the older encodings of the west the
// upper half has the letters of Latin-1.
func letterOf(b byte) string {
	if c := rune(b); unicode.IsLetter(c) {
		return string(c)
	}
	return fmt.Sprintf("%#x", b)
}

// bullets begin the items of lists that a word processor set.
const bullets = "\u2013\u2014\u2212\u2010\u2011\u2022\u00b7\u25cf\u25aa"

// plainSigns puts plain blanks in place of others, and the - of a list in place of a bullet at the beginning of a line.
func plainSigns(s string) string {
	if strings.IndexFunc(s, func(c rune) bool { return c >= utf8.RuneSelf }) < 0 {
		return s
	}
	var b strings.Builder
	begin := true
	for i, c := range s {
		if c != ' ' && unicode.Is(unicode.Zs, c) {
			c = ' '
		}
		if begin && strings.ContainsRune(bullets, c) && blankAt(s[i+utf8.RuneLen(c):]) {
			c = '-'
		}
		b.WriteRune(c)
		begin = c == '\n' || begin && c == ' '
	}
	return b.String()
}

// blankAt reports whether the text begins with a blank of any kind.
func blankAt(s string) bool {
	c, _ := utf8.DecodeRuneInString(s)
	return unicode.Is(unicode.Zs, c)
}
