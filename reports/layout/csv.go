package layout

import (
	"encoding/csv"
	"io"
	"strings"
	"unicode/utf8"
)

// CSV writes a header and rows as RFC 4180 asks: comma, CRLF, quotes doubled. Cells of words must have
// passed through Cell.
func CSV(w io.Writer, header []string, rows [][]string) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	if err := c.Write(header); err != nil {
		return err
	}
	return c.WriteAll(rows)
}

// formulaStarts are the characters with which a spreadsheet takes a cell for a formula, or skips to one.
const formulaStarts = "=+-@\t\r\n＝＋－＠"

// Cell is a word made safe for a spreadsheet: one that would be taken for a formula gets an apostrophe in front.
// Line ends become a single line feed (which the writer turns into CRLF), bytes that are not UTF-8 and the zero
// character become U+FFFD.
func Cell(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\x00", "\uFFFD").Replace(s)
	if start := strings.TrimLeft(s, " "); start != "" {
		if first, _ := utf8.DecodeRuneInString(start); strings.ContainsRune(formulaStarts, first) {
			return "'" + s
		}
	}
	return s
}
