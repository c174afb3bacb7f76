package text

import (
	"regexp"
	"strings"

	"github.com/goccy/go-yaml/token"
)

var (
	beforeComma = regexp.MustCompile(`^-?[0-9]+$`)
	afterComma  = regexp.MustCompile(`^[0-9]+ ?(%|h|min)?$`)
)

// decimalCommas are the commas in {..} that can only be decimal ones: a number right before and right behind, as in
// {mon: 1,5}. 1,500 is left alone, for it could be fifteen hundred.
func decimalCommas(tokens token.Tokens) (all []token.Position) {
	var open []token.Type
	for i, t := range tokens {
		switch t.Type {
		case token.SequenceStartType, token.MappingStartType:
			open = append(open, t.Type)
		case token.SequenceEndType, token.MappingEndType:
			open = open[:max(0, len(open)-1)]
		case token.CollectEntryType:
			if len(open) > 0 && open[len(open)-1] == token.MappingStartType && i > 1 && i+2 < len(tokens) &&
				decimalComma(tokens[i-2], tokens[i-1], t, tokens[i+1], tokens[i+2]) {
				all = append(all, *t.Position)
			}
		}
	}
	return all
}

func decimalComma(colon, whole, comma, rest, then *token.Token) bool {
	const thousand = 3 // digits
	switch {
	case colon.Type != token.MappingValueType || then.Type != token.CollectEntryType && then.Type != token.MappingEndType:
		return false
	case !beforeComma.MatchString(whole.Value) || !afterComma.MatchString(rest.Value):
		return false
	case len(rest.Value) == thousand && strings.Trim(whole.Value, "-0") != "" && beforeComma.MatchString(rest.Value):
		return false
	}
	return whole.Position.Line == comma.Position.Line && comma.Position.Line == rest.Position.Line &&
		whole.Position.Column+len(whole.Value) == comma.Position.Column && comma.Position.Column+1 == rest.Position.Column
}

// withPoints is the text with a point in place of the commas, which are in the order of the text.
func withPoints(data string, commas []token.Position) string {
	if len(commas) == 0 {
		return data
	}
	lines := strings.Split(data, "\n")
	for i := 0; i < len(commas); {
		n := commas[i].Line - 1
		line := []rune(lines[n])
		for ; i < len(commas) && commas[i].Line-1 == n; i++ {
			line[commas[i].Column-1] = '.'
		}
		lines[n] = string(line)
	}
	return strings.Join(lines, "\n")
}
