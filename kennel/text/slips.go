package text

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/token"

	"tuckup/kennel"
)

// slip says in words of the trade what is wrong with a file that the YAML reader refuses at the token: the commonest
// slips of the pen, each with the line as it should be.
func slip(data string, tokens token.Tokens, at *token.Token) *kennel.InputError {
	if in := openBracket(data, tokens); in != nil {
		return in
	}
	line, column := position(at)
	if in := lineSlip(data, line); in != nil {
		return in
	}
	if in := lineSlip(data, line-1); in != nil {
		return in
	}
	if in := indentSlip(data, line); in != nil {
		return in
	}
	written := strings.TrimSpace(lineOf(data, line))
	return &kennel.InputError{
		Line: max(line, 1), Column: max(column, 1), Field: keyOf(written), Value: shortened(written),
		What: "can't be read as it is written here", Try: "KEY: VALUE, under the first letter of the key above, with a value of several words in \"quotes\"",
	}
}

// lineOf is a line of the file, from 1; "" beyond its ends.
func lineOf(data string, line int) string {
	for ; line > 1; line-- {
		_, rest, more := strings.Cut(data, "\n")
		if !more {
			return ""
		}
		data = rest
	}
	if line < 1 {
		return ""
	}
	first, _, _ := strings.Cut(data, "\n")
	return first
}

var (
	// keyLine is a line with a key: what is before it, the key, the colon with what blanks follow, the value.
	keyLine = regexp.MustCompile(`^(\s*(?:- +)?)([\pL_]+(?:[ _-][\pL_]+)*)(: *)(.*?)\s*$`)
	remark  = regexp.MustCompile(`\s#.*$`)
)

// keyOf is the key of a line, "line" where there is none.
func keyOf(line string) string {
	if m := keyLine.FindStringSubmatch(line); m != nil {
		return m[2]
	}
	return "line"
}

// inQuotes is a value in the quotes that it does not hold itself.
func inQuotes(s string) string {
	if strings.ContainsAny(s, `"\`) {
		return "'" + strings.ReplaceAll(s, "'", "''") + "'"
	}
	return `"` + s + `"`
}

// lineSlip is what is wrong within one line; nil when nothing is seen.
func lineSlip(data string, line int) *kennel.InputError {
	m := keyLine.FindStringSubmatch(remark.ReplaceAllString(lineOf(data, line), ""))
	if m == nil {
		return nil
	}
	before, key, colon, value := m[1], m[2], m[3], m[4]
	in := &kennel.InputError{
		Line: line, Column: utf8.RuneCountInString(before+key+colon) + 1, Field: key, Value: shortened(value),
	}
	right := func(value string) string { return shortened(strings.TrimLeft(before, " ") + key + ": " + value) }
	switch first := firstOf(value); {
	case value == "":
		return nil
	case colon == ":":
		in.What, in.Try = "has no blank after the colon", right(value)
	case first == '"' || first == '\'':
		inner, closed := value[1:], strings.HasSuffix(value[1:], value[:1])
		if closed {
			inner = inner[:len(inner)-1]
		}
		switch {
		case !closed:
			in.What = "begins with a quote that is not closed"
		case strings.ContainsRune(inner, first):
			in.What = "has the quote that is around it in it too"
		case strings.ContainsRune(inner, '\\'):
			in.What = "has a \\ in double quotes, which has a meaning of its own there"
		default:
			return nil
		}
		in.Try = right(inQuotes(strings.TrimRight(inner, string(first))))
	case first == '[' || first == '{':
		return nil
	case strings.ContainsRune("@`%&*!|>?", first):
		in.What = fmt.Sprintf("begins with %c, which has a meaning of its own in the file", first)
		in.Try = right(inQuotes(value))
	case strings.Contains(value, ": ") || strings.HasSuffix(value, ":"):
		in.What, in.Try = "has a second colon, which would begin another key", right(inQuotes(kennel.Unquoted(value)))
	default:
		return nil
	}
	return in
}

// firstOf is the first rune of a text.
func firstOf(s string) rune {
	c, _ := utf8.DecodeRuneInString(s)
	return c
}

// indentSlip is a line that begins under no key above it; nil when it does.
func indentSlip(data string, line int) *kennel.InputError {
	written := lineOf(data, line)
	indent := keyColumn(written)
	if indent < 0 {
		return nil
	}
	var columns []int
	lines := strings.Split(data, "\n")
	for i := min(line-2, len(lines)-1); i >= 0; i-- {
		c := keyColumn(lines[i])
		if c < 0 || len(columns) > 0 && c >= columns[len(columns)-1] {
			continue
		}
		if c == indent {
			return nil
		}
		columns = append(columns, c)
		if c == 0 {
			break
		}
	}
	nearest := -1
	for _, c := range columns {
		if nearest < 0 || distance(c, indent) < distance(nearest, indent) {
			nearest = c
		}
	}
	if nearest < 0 {
		return nil
	}
	blanks := len(written) - len(strings.TrimLeft(written, " "))
	return &kennel.InputError{
		Line: line, Column: indent + 1, Field: keyOf(written), Value: shortened(strings.TrimSpace(written)),
		What: fmt.Sprintf("begins in column %d, under no key above it", indent+1),
		Try:  fmt.Sprintf("%d blanks before it, so that it begins in column %d", max(0, blanks+nearest-indent), nearest+1),
	}
}

func distance(a, b int) int { return max(a-b, b-a) }

// keyColumn is how far a line's key is from the left, -1 where it has none.
func keyColumn(line string) int {
	if m := keyLine.FindStringSubmatch(line); m != nil {
		return utf8.RuneCountInString(m[1])
	}
	return -1
}

// openBracket is a bracket that is not closed, or closed by one of the other kind; nil when all are.
func openBracket(data string, tokens token.Tokens) *kennel.InputError {
	var open []*token.Token
	for _, t := range tokens {
		switch t.Type {
		case token.SequenceStartType, token.MappingStartType:
			open = append(open, t)
		case token.SequenceEndType, token.MappingEndType:
			if len(open) == 0 {
				return bracketSlip(data, t, "closes a bracket that was not opened")
			}
			last := open[len(open)-1]
			if (last.Type == token.SequenceStartType) != (t.Type == token.SequenceEndType) {
				return bracketSlip(data, last, "is a bracket that is not closed")
			}
			open = open[:len(open)-1]
		}
	}
	if len(open) == 0 {
		return nil
	}
	return bracketSlip(data, open[0], "is a bracket that is not closed")
}

func bracketSlip(data string, t *token.Token, what string) *kennel.InputError {
	line, column := position(t)
	written := strings.TrimSpace(lineOf(data, line))
	in := &kennel.InputError{Line: line, Column: column, Field: keyOf(written), Value: t.Value, What: what}
	switch {
	case t.Type == token.SequenceEndType || t.Type == token.MappingEndType:
		in.Try = "leave it out, or " + opening(t.Value) + " where it begins"
	case cutBy(written) != "":
		in.What = "is a bracket that is not closed: what follows the # is a remark"
		in.Try = "the name with the # in quotes, like " + inQuotes(cutBy(written))
	default:
		in.Try = shortened(remark.ReplaceAllString(written, "")) + closing(t.Value)
	}
	return in
}

func opening(end string) string {
	if end == "]" {
		return "["
	}
	return "{"
}

func closing(start string) string {
	if start == "[" {
		return "]"
	}
	return "}"
}

// cut is a name that a # cuts off: words, then a # with no blank after it.
var cut = regexp.MustCompile(`([^,:{}\[\]"']+ #[^\s,\]}]+)`)

// cutBy is the name in a line that a # cuts off, "" where none is.
func cutBy(line string) string { return strings.TrimSpace(cut.FindString(line)) }
