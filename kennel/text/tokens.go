package text

import (
	"fmt"

	"github.com/goccy/go-yaml/token"

	"tuckup/kennel"
)

// A kennel file is flat: it never goes deeper than deepest, and no mapping in it has more keys than mostKeys. What
// goes beyond is refused before it is parsed, for it can only be there to exhaust the reader.
const (
	deepest  = 16
	mostKeys = 100
)

// The YAML that a kennel file does not need.
var unneeded = map[token.Type]struct{ what, try string }{
	token.AnchorType:     {"begins with &, which has a meaning of its own in the file", "the words in quotes, like \"& Daughter\""},
	token.AliasType:      {"begins with *, which has a meaning of its own in the file", "the words in quotes, like \"* Star\""},
	token.MergeKeyType:   {"is not a key that is read", "the keys themselves, each on its own line"},
	token.TagType:        {"begins with !, which has a meaning of its own in the file", "the words in quotes, like \"! Moss\""},
	token.DirectiveType:  {"begins with %, which has a meaning of its own in the file", "the words in quotes, like \"% Moss\", or leave the line out"},
	token.MappingKeyType: {"begins with ?, which has a meaning of its own in the file", "KEY: VALUE"},
}

// guard walks the tokens of a file before they are parsed.
type guard struct {
	brackets int
	columns  []int // of the keys that the current line stands under
	keys     []int // met so far at each of them
	last     token.Type
	lastLine int
	ended    bool
	started  bool
}

func checkTokens(data string, tokens token.Tokens) *kennel.InputError {
	g := guard{}
	for i, t := range tokens {
		if t.Type == token.CommentType {
			continue
		}
		if t.Type == token.InvalidType {
			return slip(data, tokens, t)
		}
		isKey := i+1 < len(tokens) && tokens[i+1].Type == token.MappingValueType
		what, try := g.step(t, isKey)
		if what != "" {
			in := &kennel.InputError{Field: "text", Value: shortened(t.Value), What: what, Try: try}
			in.Line, in.Column = position(t)
			return in
		}
		g.last, g.lastLine = t.Type, t.Position.Line
	}
	return nil
}

// step looks at the next token; what is "" when it may stand there.
func (g *guard) step(t *token.Token, isKey bool) (what, try string) {
	if no, ok := unneeded[t.Type]; ok {
		return no.what, no.try
	}
	switch t.Type {
	case token.DocumentHeaderType:
		if g.started || g.ended {
			return "a second document in one file", "one kennel a file"
		}
		return "", ""
	case token.DocumentEndType:
		g.ended = true
		return "", ""
	case token.SequenceStartType, token.MappingStartType:
		g.brackets++
	case token.SequenceEndType, token.MappingEndType:
		g.brackets--
	case token.SequenceEntryType:
		if g.last == token.SequenceEntryType {
			return "a list item with nothing in it, or a list in a list", "one - a line, and something after it"
		}
		g.under(t.Position.Column)
	case token.CollectEntryType:
		if g.last == token.CollectEntryType || g.last == token.SequenceStartType || g.last == token.MappingStartType {
			return "a comma with nothing before it", "leave the comma out"
		}
	case token.MappingValueType:
		if !scalarEnds(g.last) {
			return "a colon with no key before it", "KEY: VALUE"
		}
	case token.SingleQuoteType, token.DoubleQuoteType:
		if isQuoted(g.last) && g.lastLine == t.Position.Line {
			return "two texts side by side", "one of them, or a comma between the two"
		}
	}
	if g.ended {
		return "a second document in one file", "one kennel a file"
	}
	g.started = true
	if isKey && g.brackets == 0 {
		g.key(t.Position.Column)
	}
	if g.brackets+len(g.columns) > deepest {
		return fmt.Sprintf("goes deeper than %d levels", deepest), "a file as README.md draws it"
	}
	if n := len(g.keys); n > 0 && g.keys[n-1] > mostKeys {
		return fmt.Sprintf("more than %d keys under one another", mostKeys), "a list, with a - before each thing in it"
	}
	return "", ""
}

// under leaves the mappings that start at the column or to the right of it.
func (g *guard) under(column int) {
	for n := len(g.columns); n > 0 && g.columns[n-1] >= column; n-- {
		g.columns, g.keys = g.columns[:n-1], g.keys[:n-1]
	}
}

// key counts a key of the mapping that starts at the column.
func (g *guard) key(column int) {
	g.under(column + 1)
	if n := len(g.columns); n == 0 || g.columns[n-1] < column {
		g.columns, g.keys = append(g.columns, column), append(g.keys, 0)
	}
	g.keys[len(g.keys)-1]++
}

func isQuoted(t token.Type) bool { return t == token.SingleQuoteType || t == token.DoubleQuoteType }

// scalarEnds reports whether a token of the type may stand before a colon.
func scalarEnds(t token.Type) bool {
	switch t {
	case token.UnknownType, token.MappingValueType, token.CollectEntryType, token.SequenceEntryType,
		token.SequenceStartType, token.MappingStartType:
		return false
	}
	return true
}
