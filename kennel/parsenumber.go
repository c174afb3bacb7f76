package kennel

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// spoken is what was said as it is compared and read: small letters, without the quotes around it, with plain hyphens
// and single blanks, whatever signs a word processor put in their place.
func spoken(s string) string {
	return strings.Join(strings.Fields(hyphens.Replace(strings.ToLower(Unquoted(s)))), " ")
}

var hyphens = strings.NewReplacer("\u2010", "-", "\u2011", "-", "\u2012", "-", "\u2013", "-", "\u2014", "-", "\u2212", "-", "\u2044", "/")

// quotes are pairs of quotes that a word processor sets, and plain ones.
var quotes = []struct{ open, end string }{
	{"\u201c", "\u201d"},
	{"\u201e", "\u201c"},
	{"\u201e", "\u201d"},
	{"\u201d", "\u201d"},
	{"\u2018", "\u2019"},
	{"\u201a", "\u2018"},
	{"\u00ab", "\u00bb"},
	{"\u00bb", "\u00ab"},
	{`"`, `"`},
	{"'", "'"},
}

// Unquoted is text without blanks around it and without one pair of quotes around all of it.
func Unquoted(s string) string {
	s = strings.TrimSpace(s)
	for _, q := range quotes {
		inner, opens := strings.CutPrefix(s, q.open)
		inner, ends := strings.CutSuffix(inner, q.end)
		if opens && ends && !strings.Contains(inner, q.open) && !strings.Contains(inner, q.end) {
			return strings.TrimSpace(inner)
		}
	}
	return s
}

// numberForm is a plain decimal: no leading zero, which some read as octal, no other base, no infinity.
var numberForm = regexp.MustCompile(`^-?((0|[1-9][0-9]*)(\.[0-9]*)?|\.[0-9]+)(e[-+]?[0-9]+)?$`)

// ParseNumber reads a number: 2, 0.5, 0,5, -1, 1e-3. A comma is a decimal one; 1,500 is refused, for it could be one
// and a half or fifteen hundred. The error is an *InputError.
func ParseNumber(said string) (float64, error) {
	w := decimalPoint(spoken(said))
	v, err := strconv.ParseFloat(w, 64)
	if err != nil || !numberForm.MatchString(w) {
		return 0, &InputError{Field: "number", Value: said, What: "is not a number", Try: tryNumber(said)}
	}
	return v + 0, nil // -0 + 0 is 0
}

// tryNumber is what to write where a number is expected.
func tryNumber(said string) string {
	if thousands.MatchString(spoken(said)) {
		whole, rest, _ := strings.Cut(spoken(said), ",")
		return whole + "." + rest + ", or " + whole + rest + " without the comma"
	}
	return "a number without a unit, like 0.5 or 2"
}

var (
	decimals  = regexp.MustCompile(`^-?[0-9]*,[0-9]+`)
	thousands = regexp.MustCompile(`^-?[1-9][0-9]*,[0-9]{3}$`)
)

// decimalPoint puts a point in place of a decimal comma.
func decimalPoint(w string) string {
	if decimals.MatchString(w) && !strings.Contains(w, ".") && strings.Count(w, ",") == 1 && !thousands.MatchString(w) {
		return strings.Replace(w, ",", ".", 1)
	}
	return w
}

// decimal is a plain number without a sign or another base.
func decimal(s string) (float64, bool) {
	s = decimalPoint(strings.TrimSpace(s))
	if s == "" || strings.Trim(s, "0123456789.") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && !math.IsInf(v, 0)
}
