package text

import (
	"bytes"
	"errors"
	"fmt"
	"unicode"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"tuckup/kennel"
)

// largest is the most bytes that a kennel file may have. A thousand dogs with every area told fit in it.
const largest = 1 << 20

// parse checks the bytes and the tokens and returns the file's only document.
func parse(data []byte) (ast.Node, *kennel.InputError) {
	if len(data) > largest {
		return nil, &kennel.InputError{
			Field: "size", Value: fmt.Sprintf("%d bytes", len(data)), What: "is too large for a kennel file",
			Try: fmt.Sprintf("a file of at most %d bytes", largest),
		}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	data = bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))
	if err := checkBytes(data); err != nil {
		return nil, err
	}
	file, err := parseYAML(string(data))
	if err != nil {
		return nil, err
	}
	if len(file.Docs) == 0 || file.Docs[0].Body == nil {
		return nil, &kennel.InputError{
			Line: 1, Column: 1, What: "the file is empty", Try: "start it with \"kennel: NAME\" and list dogs: and shows: under it",
		}
	}
	return file.Docs[0].Body, nil
}

// checkBytes refuses bytes that are no UTF-8 text, and tabs before a line's first word.
func checkBytes(data []byte) *kennel.InputError {
	line, column, indent := 1, 1, true
	for len(data) > 0 {
		c, n := utf8.DecodeRune(data)
		in := &kennel.InputError{Line: line, Column: column}
		switch {
		case c == utf8.RuneError && n == 1:
			in.Value, in.What, in.Try = fmt.Sprintf("%#x", data[0]), "is not UTF-8 text", "save the file as UTF-8"
		case c == '\t' && indent:
			in.Value, in.What, in.Try = "\t", "a tab before the first word of a line", "spaces instead of the tab"
		case c != '\t' && c != '\n' && unicode.IsControl(c):
			in.Value, in.What, in.Try = string(c), "a control character that has no place in text", "leave it out"
		}
		if in.What != "" {
			in.Field = "byte"
			return in
		}
		indent = c == '\n' || indent && c == ' '
		column++
		if c == '\n' {
			line, column = line+1, 1
		}
		data = data[n:]
	}
	return nil
}

// parseYAML keeps a slip of the YAML library on odd text from ending the program.
func parseYAML(data string) (file *ast.File, err *kennel.InputError) {
	defer func() {
		if slip := recover(); slip != nil {
			file, err = nil, &kennel.InputError{What: "the file is not YAML", Try: "a file as README.md draws it"}
		}
	}()
	tokens := lexer.Tokenize(data)
	if err := checkTokens(tokens); err != nil {
		return nil, err
	}
	file, trouble := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if trouble != nil {
		in := &kennel.InputError{What: trouble.Error(), Try: "check the indentation, the quotes and the brackets there"}
		var y yaml.Error
		if errors.As(trouble, &y) {
			in.What = y.GetMessage()
			in.Line, in.Column = position(y.GetToken())
			in.Field, in.Value = "text", shortened(y.GetToken().Value)
		}
		return nil, in
	}
	return file, nil
}

func position(t *token.Token) (line, column int) {
	if t == nil || t.Position == nil {
		return 0, 0
	}
	return t.Position.Line, t.Position.Column
}
