package text

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"

	"tuckup/kennel"
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
			value{r: v.r, path: v.path, at: key}.fail("is not a key", "a word as key")
			continue
		}
		path := join(v.path, shortened(name.Value))
		if slices.Contains(keys, name.Value) {
			value{r: v.r, path: path, at: unwritten(key)}.fail("stands there twice", "leave one of the two out")
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
		if !slices.Contains(known, key) {
			values[i].unknown("is not a key that is known here", kennel.Nearest(key, known, nearKeys), known)
			m.sound = false
			continue
		}
		m.fields[key] = values[i]
	}
	return m
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

// text is words on one line.
func (v value) text() string {
	const try = "words on one line; leave it out if there is nothing to say"
	words, _, ok := v.scalar("text", try)
	if !ok {
		return ""
	}
	s, ok := v.node.(*ast.StringNode)
	switch {
	case !ok:
		v.fail("should be text", "\""+shortened(words)+"\", in quotes")
	case strings.TrimSpace(s.Value) == "":
		v.fail("is empty", try)
	case !utf8.ValidString(s.Value) || strings.ContainsFunc(s.Value, breaks):
		v.fail("holds a line break or a control character", "words on one line")
	default:
		return s.Value
	}
	return ""
}

// breaks reports whether a character would break a line or a cell that it is shown in.
func breaks(c rune) bool { return unicode.In(c, unicode.Cc, unicode.Zl, unicode.Zp) }

// Forms of scalars. Numbers are plain decimals: no leading zero, which some read as octal, no other base, no infinity.
var (
	wholeForm  = regexp.MustCompile(`^-?(0|[1-9][0-9]*)$`)
	numberForm = regexp.MustCompile(`^-?((0|[1-9][0-9]*)(\.[0-9]*)?|\.[0-9]+)([eE][-+]?[0-9]+)?$`)
	dateForm   = regexp.MustCompile(`^[0-9]{4}-[0-9]{2}-[0-9]{2}$`)
	lengthForm = regexp.MustCompile(`^(0|[1-9][0-9]{0,4})([dw])$`)
)

// number is a finite number, or missing where the file has none.
func (v value) number(missing float64) float64 {
	const want, try = "a number", "a number without a unit, like 0.5 or 2"
	words, quoted, ok := v.scalar(want, try)
	if !ok {
		return missing
	}
	n, err := strconv.ParseFloat(words, 64)
	if quoted || err != nil || !numberForm.MatchString(words) {
		v.fail("is not "+want, try)
		return missing
	}
	return n + 0 // -0 + 0 is 0
}

// whole is a whole number, or missing where the file has none.
func (v value) whole(missing int) int {
	const want, try = "a whole number", "a whole number like 2"
	words, quoted, ok := v.scalar(want, try)
	if !ok {
		return missing
	}
	n, err := strconv.ParseInt(words, 10, 32)
	if quoted || err != nil || !wholeForm.MatchString(words) {
		v.fail("is not "+want, try)
		return missing
	}
	return int(n)
}

// yes is true or false, false where the file has none.
func (v value) yes() bool {
	const want, try = "true or false", "true, or leave it out"
	words, _, ok := v.scalar(want, try)
	if !ok {
		return false
	}
	b, ok := v.node.(*ast.BoolNode)
	if !ok || words != "true" && words != "false" {
		v.fail("is not "+want, try)
		return false
	}
	return b.Value
}

// date is a calendar date, zero where the file has none.
func (v value) date() kennel.Date {
	const want, try = "a date", "a date like 2027-03-20"
	words, _, ok := v.scalar(want, try)
	if !ok {
		return 0
	}
	d, err := kennel.ParseDate(words)
	switch {
	case err != nil && dateForm.MatchString(words):
		v.fail("is no day of the years 1971 to 2199", try)
	case err != nil:
		v.fail("is not "+want, try)
	}
	return d
}

// days is a stretch of time like 10d or 2w in days, 0 where the file has none.
func (v value) days() int {
	const want, try = "a stretch of time", "days like 10d or weeks like 2w"
	words, _, ok := v.scalar(want, try)
	if !ok {
		return 0
	}
	m := lengthForm.FindStringSubmatch(words)
	if m == nil {
		v.fail("is not "+want, try)
		return 0
	}
	n, _ := strconv.Atoi(m[1]) // at most five digits
	if m[2] == "w" {
		n *= kennel.DaysAWeek
	}
	return n
}
