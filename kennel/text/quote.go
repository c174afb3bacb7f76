package text

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// plain is what stands without quotes: words that begin with a letter and hold no sign that means something in YAML.
var plain = regexp.MustCompile(`^\pL[\pL\pN_/.-]*( [\pL\pN_/.-]+)*$`)

// Words that YAML readers take for something else than text.
var taken = []string{"true", "false", "yes", "no", "on", "off", "y", "n", "null"}

// quote is text as it stands in a YAML file, in quotes where it must be.
func quote(s string) string {
	if plain.MatchString(s) && !slices.Contains(taken, strings.ToLower(s)) {
		return s
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case unicode.IsPrint(c):
			b.WriteRune(c)
		case c <= 0xffff:
			fmt.Fprintf(&b, `\u%04x`, c)
		default:
			fmt.Fprintf(&b, `\U%08x`, c)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// optional is text, "" where there is none.
func optional(s string) string {
	if s == "" {
		return ""
	}
	return quote(s)
}
