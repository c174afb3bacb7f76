package text

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

// reader turns nodes into values, notes where they stand and keeps the trouble that stands first in the file.
type reader struct {
	places Positions
	err    *kennel.InputError
}

// value is a node with its path. A value that the file leaves out has no node.
type value struct {
	r    *reader
	path string
	node ast.Node
	at   place
	key  place // of its key, if it has one
}

func (v value) given() bool { return v.node != nil }

func (v value) fail(what, try string) {
	in := &kennel.InputError{
		Line: v.at.line, Column: v.at.column, Field: v.path, Value: shortened(v.at.written), What: what, Try: try,
	}
	if v.r.err == nil || before(in, v.r.err) < 0 {
		v.r.err = in
	}
}

// value notes where a node stands. key is the place of its key, for values that are not written.
func (r *reader) value(path string, n ast.Node, key place) value {
	v := value{r: r, path: path, node: n, at: start(n), key: key}
	if v.at.line == 0 || n.Type() == ast.NullType {
		v.at = key
	}
	r.places.at[path] = v.at
	return v
}

// start is where a node starts, with what is written there if it is a scalar.
func start(n ast.Node) place {
	t, written := n.GetToken(), ""
	switch n := n.(type) {
	case *ast.MappingNode:
		t = n.Start
		if !n.IsFlowStyle && len(n.Values) > 0 {
			t = n.Values[0].Key.GetToken()
		}
	case *ast.MappingValueNode:
		t = n.Key.GetToken()
	case *ast.SequenceNode:
		t = n.Start
	case *ast.LiteralNode:
		t = n.Start
	default:
		written = t.Value
	}
	line, column := position(t)
	return place{line, column, written}
}

func unwritten(p place) place { return place{line: p.line, column: p.column} }

// mapping is the values of a mapping by key.
type mapping struct {
	value
	fields map[string]value
	sound  bool // given, and every key in it known
}

// join is the path of a key in what path stands for.
func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// hasKeys reports whether the node is keys with values.
func (v value) hasKeys() bool {
	switch v.node.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return true
	}
	return false
}

// pairs are the keys and values of a mapping in the order of the file, each key once.
func (v value) pairs() (keys []string, values []value) {
	var all []*ast.MappingValueNode
	switch n := v.node.(type) {
	case nil:
		return nil, nil
	case *ast.MappingNode:
		all = n.Values
	case *ast.MappingValueNode:
		all = []*ast.MappingValueNode{n}
	default:
		v.fail("should be keys with values, not "+kind(v.node), "KEY: VALUE, each on its own line, or {KEY: VALUE, ..}")
		return nil, nil
	}
	if len(all) > mostKeys {
		v.fail(fmt.Sprintf("has more than %d keys", mostKeys), "a list, with a - before each thing in it")
		return nil, nil
	}
	for _, p := range all {
		key := start(p.Key)
		name, ok := p.Key.(*ast.StringNode)
		if !ok {
			what, try := "is not a key", "a word as key"
			if n := p.Key.Type(); (n == ast.IntegerType || n == ast.FloatType) && p.Value.Type() == ast.NullType {
				what, try = "is not a key: a comma ends the value before it", "a number with a point, like 1.5"
			}
			value{r: v.r, path: v.path, at: key}.fail(what, try)
			continue
		}
		path := join(v.path, shortened(name.Value))
		if slices.Contains(keys, name.Value) {
			value{r: v.r, path: path, at: unwritten(key)}.fail("appears twice", "leave one of the two out")
			continue
		}
		keys = append(keys, name.Value)
		values = append(values, v.r.value(path, p.Value, unwritten(key)))
	}
	return keys, values
}

// mapping reads a mapping that may have the known keys only.
func (v value) mapping(known ...string) mapping {
	m := mapping{value: v, fields: map[string]value{}, sound: v.given() && v.hasKeys()}
	keys, values := v.pairs()
	for i, key := range keys {
		if name := spelled(key, known); name != key && !slices.Contains(keys, name) {
			key, values[i] = name, v.r.value(join(v.path, name), values[i].node, values[i].key)
		}
		if !slices.Contains(known, key) {
			values[i].unknown("is not a key that is known here", kennel.Nearest(key, known, nearKeys), known)
			m.sound = false
			continue
		}
		m.fields[key] = values[i]
	}
	return m
}

// spelled is a known key that is written otherwise: with capitals, with blanks or hyphens, or as a whole weekday.
func spelled(key string, known []string) string {
	name := strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(key))
	if day, ok := kennel.WeekdayNamed(name); ok {
		name = day.Key()
	}
	if slices.Contains(known, name) {
		return name
	}
	return key
}

// How many names alike are shown for one that is not known.
const (
	nearKeys  = 1
	nearAreas = 3
)

// unknown refuses a value for its key.
func (v value) unknown(what string, near, known []string) {
	v.at = v.key
	try := strings.Join(near, ", ")
	if len(near) < len(known) && len(known) > nearAreas {
		try += " (known are " + strings.Join(known, ", ") + ")"
	}
	v.fail(what, try)
}

// get is the value of a key, or one that is not given.
func (m mapping) get(key string) value {
	if v, ok := m.fields[key]; ok {
		return v
	}
	return value{r: m.r, path: join(m.path, key), at: unwritten(m.at)}
}

// need is the value of a key that must be there.
func (m mapping) need(key, try string) value {
	v := m.get(key)
	if !v.given() && m.sound { // with an unknown key in it, that is what to say
		v.fail("is missing", try)
	}
	return v
}

// list is the items of a list.
func (v value) list() []value {
	n, ok := v.node.(*ast.SequenceNode)
	if !ok {
		if v.given() {
			v.fail("should be a list, not "+kind(v.node), "[one, another], also around a single one, or lines that begin with -; leave it out if there is nothing to say")
		}
		return nil
	}
	items := make([]value, 0, len(n.Values))
	for i, item := range n.Values {
		items = append(items, v.r.value(fmt.Sprintf("%s[%d]", v.path, i), item, v.at))
	}
	return items
}

// kind says what a node is, in words.
func kind(n ast.Node) string {
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return "keys with values"
	case *ast.SequenceNode:
		return "a list"
	case *ast.NullNode:
		return "nothing"
	case *ast.StringNode, *ast.LiteralNode:
		return "text"
	case *ast.BoolNode:
		return "yes or no"
	}
	return "a number"
}

// scalar is a scalar's words as they stand in the file, and whether they stand in quotes.
func (v value) scalar(want, try string) (words string, quoted, ok bool) {
	switch v.node.(type) {
	case nil:
		return "", false, false
	case *ast.MappingNode, *ast.MappingValueNode, *ast.SequenceNode, *ast.LiteralNode, *ast.NullNode:
		v.fail("should be "+want+", not "+kind(v.node), try)
		return "", false, false
	}
	t := v.node.GetToken()
	return t.Value, t.Type == token.SingleQuoteType || t.Type == token.DoubleQuoteType, true
}

// text is words on one line, without the quotes of a word processor around them.
func (v value) text() string {
	const try = "words on one line; leave it out if there is nothing to say"
	words, quoted, ok := v.scalar("text", try)
	if !ok {
		return ""
	}
	s, ok := v.node.(*ast.StringNode)
	plain := kennel.Unquoted(words)
	switch {
	case !ok:
		v.fail("should be text", "\""+shortened(words)+"\", in quotes")
	case strings.TrimSpace(s.Value) == "":
		v.fail("is empty", try)
	case !utf8.ValidString(s.Value) || strings.ContainsFunc(s.Value, breaks):
		v.fail("holds a line break or a control character", "words on one line")
	case quoted:
		return s.Value
	case v.cut() != "":
		v.fail("ends before "+v.cut()+", which is read as a remark", inQuotes(shortened(words+" "+v.cut()))+", or a blank behind the # if it is one")
	case runsOn(v.node.GetToken()):
		v.fail("goes on in the next line", "KEY: VALUE, with a blank behind the colon, on each line")
	case opensQuote(plain):
		v.fail("begins with a quote that is not closed", inQuotes(strings.TrimLeft(plain, openQuotes)))
	default:
		return plain
	}
	return ""
}

// cut is what a # with no blank behind it cuts off from the words of a value, "" where nothing is.
func (v value) cut() string {
	t := v.node.GetToken()
	if next := t.Next; next != nil && next.Type == token.CommentType && next.Position.Line == t.Position.Line &&
		next.Value != "" && !strings.ContainsAny(next.Value[:1], " \t#!") {
		word, _, _ := strings.Cut(next.Value, " ")
		return "#" + word
	}
	return ""
}

// runsOn reports whether words go on in a line that looks like another key.
func runsOn(t *token.Token) bool {
	_, more, several := strings.Cut(strings.TrimSpace(t.Origin), "\n")
	return several && strings.Contains(more, ":") || several && keyLine.MatchString(t.Value)
}

// openQuotes begin a quotation that a word processor set.
const openQuotes = "\u201c\u201e\u00ab"

func opensQuote(s string) bool {
	return strings.ContainsRune(openQuotes, firstOf(s)) && !strings.ContainsAny(s, "\u201d\u00bb") && strings.Count(s, "\u201c") < 2
}

// breaks reports whether a character would break a line or a cell that it is shown in.
func breaks(c rune) bool { return unicode.In(c, unicode.Cc, unicode.Zl, unicode.Zp) }

// read turns a scalar's words into a value, missing where the file has none or they can't be read. Quotes around them
// change nothing.
func read[T any](v value, want, try string, missing T, parse func(string) (T, error)) T {
	words, _, ok := v.scalar(want, try)
	if !ok {
		return missing
	}
	x, err := parse(words)
	if err == nil {
		return x
	}
	var in *kennel.InputError
	if errors.As(err, &in) {
		v.fail(in.What, in.Try)
	} else {
		v.fail("is not "+want, try)
	}
	return missing
}

// hours are those of a day, 0 where the file has none.
func (v value) hours() kennel.Hours {
	how := fields.HoursADay
	h, _ := read[any](v, how.Want, how.Try, 0.0, how.Read).(float64)
	return kennel.Hours(h)
}

// date is a calendar date, zero where the file has none.
func (v value) date() kennel.Date {
	return read(v, "a date", "a date like 2027-03-20", 0, kennel.ParseDay)
}

// days is a stretch of time like 10d or 2w in days, 0 where the file has none.
func (v value) days() int {
	return read(v, "a stretch of days or weeks", "days like 10d or weeks like 2w", 0, kennel.ParseDays)
}
