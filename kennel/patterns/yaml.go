package patterns

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"tuckup/kennel"
)

// reader walks the nodes of one YAML file. It keeps the first trouble that it meets and from then on returns
// zero values, so that callers ask failed once at the end.
type reader struct {
	file     string
	rows     sources
	complete bool // every figure must carry its range
	err      *kennel.InputError
}

// entry is one key of a mapping with what stands behind it.
type entry struct {
	key, path string
	at, node  ast.Node
}

func (r *reader) failed() error {
	if r.err == nil {
		return nil
	}
	return r.err
}

// fail keeps the trouble at a node unless there is one already.
func (r *reader) fail(at ast.Node, path, value, what, try string) {
	if r.err != nil {
		return
	}
	r.err = &kennel.InputError{File: r.file, Field: path, Value: value, What: what, Try: try}
	if at != nil {
		r.err.Line, r.err.Column = position(at.GetToken())
	}
}

func position(t *token.Token) (line, column int) {
	if t == nil || t.Position == nil {
		return 0, 0
	}
	return t.Position.Line, t.Position.Column
}

// root parses the file and returns its only document.
func (r *reader) root(data []byte) ast.Node {
	file, err := parse(data)
	if err != nil {
		r.err = &kennel.InputError{
			File: r.file, What: err.Error(), Try: "check the indentation, the quotes and the brackets there",
		}
		var y yaml.Error
		if errors.As(err, &y) {
			r.err.What = y.GetMessage()
			r.err.Line, r.err.Column = position(y.GetToken())
		}
		return nil
	}
	if len(file.Docs) != 1 || file.Docs[0].Body == nil {
		r.err = &kennel.InputError{
			File: r.file, Line: 1, Column: 1, What: "the file should hold one document",
			Try: "start with \"patterns:\" and list the patterns under it",
		}
		return nil
	}
	return file.Docs[0].Body
}

// parse keeps a slip of the YAML parser on odd bytes from ending the program.
func parse(data []byte) (file *ast.File, err error) {
	defer func() {
		if slip := recover(); slip != nil {
			file, err = nil, errors.New("the file is not YAML")
		}
	}()
	return parser.ParseBytes(data, 0)
}

// entries are the keys of a mapping in the order of the file. The parser has seen to it that none is there twice.
func (r *reader) entries(n ast.Node, path string) []entry {
	var values []*ast.MappingValueNode
	switch m := n.(type) {
	case nil:
		return nil
	case *ast.MappingNode:
		values = m.Values
	case *ast.MappingValueNode:
		values = []*ast.MappingValueNode{m}
	default:
		r.fail(n, path, written(n), "should be a list of keys and values", "write KEY: VALUE lines under it")
		return nil
	}
	var all []entry
	for _, v := range values {
		s, ok := v.Key.(*ast.StringNode)
		if !ok {
			r.fail(v, path, v.Key.GetToken().Value, "is not a plain key", "write the key as a plain word")
			return nil
		}
		e := entry{key: s.Value, path: join(path, s.Value), at: v.Key, node: v.Value}
		all = append(all, e)
	}
	return all
}

// fields are the keys of a mapping, all of them from allowed.
func (r *reader) fields(n ast.Node, path string, allowed ...string) map[string]ast.Node {
	got := map[string]ast.Node{}
	for _, e := range r.entries(n, path) {
		known := false
		for _, a := range allowed {
			known = known || a == e.key
		}
		if !known {
			r.fail(e.at, e.path, "", "is not a key that is known here", "one of "+strings.Join(allowed, ", "))
			return got
		}
		got[e.key] = e.node
	}
	return got
}

// need asks for keys that must be there.
func (r *reader) need(got map[string]ast.Node, in entry, keys ...string) {
	for _, k := range keys {
		if got[k] == nil {
			r.fail(in.at, join(in.path, k), "", "is missing", "add "+k+":")
			return
		}
	}
}

// text is a line of words; "" for a node that is not there.
func (r *reader) text(n ast.Node, path string) string {
	switch s := n.(type) {
	case nil:
	case *ast.StringNode:
		if plainWords(s.Value) {
			return s.Value
		}
		r.fail(n, path, written(n), "should be words on one line", "write at least one word, without space around it")
	default:
		r.fail(n, path, written(n), "should be words", "put it in quotes if it is meant as words")
	}
	return ""
}

// plainWords reports whether t is one line of words that print, with no space around them.
func plainWords(t string) bool {
	for _, c := range t {
		if !unicode.IsPrint(c) {
			return false
		}
	}
	return t != "" && t == strings.TrimSpace(t) && utf8.ValidString(t)
}

// oneOf is one of the words; "" for a node that is not there.
func (r *reader) oneOf(n ast.Node, path string, words []string) string {
	t := r.text(n, path)
	if t == "" {
		return ""
	}
	for _, w := range words {
		if t == w {
			return t
		}
	}
	r.fail(n, path, t, "is not one of the words known here", "one of "+strings.Join(words, ", "))
	return ""
}

// yes is true or false.
func (r *reader) yes(n ast.Node, path string) bool {
	b, ok := n.(*ast.BoolNode)
	if !ok {
		r.fail(n, path, written(n), "should be true or false", "true, or leave it out")
		return false
	}
	return b.Value
}

// number is a number from low to high, units as said in the message.
func (r *reader) number(n ast.Node, path string, b bounds) float64 {
	text := written(n)
	switch n.(type) {
	case *ast.IntegerNode, *ast.FloatNode:
	default:
		r.fail(n, path, text, "is not a number", fmt.Sprintf("a number from %g to %g (%s)", b.low, b.high, b.unit))
		return 0
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || v < b.low || v > b.high {
		r.fail(n, path, text, "is out of range", fmt.Sprintf("a number from %g to %g (%s)", b.low, b.high, b.unit))
		return 0
	}
	return v
}

// written is a node's value as it stands in the file, shortened.
func written(n ast.Node) string {
	const longest = 40
	if n == nil || n.GetToken() == nil {
		return ""
	}
	v := []rune(n.GetToken().Value)
	if len(v) > longest {
		return string(v[:longest]) + ".."
	}
	return string(v)
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}
