package text

import (
	"errors"
	"fmt"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"tuckup/kennel"
)

// largest is the most bytes that a kennel file may have. A thousand dogs with every area told fit in it.
const largest = 1 << 20

// parse checks the text and the tokens and returns the file's only document.
func parse(data []byte) (ast.Node, *kennel.InputError) {
	if len(data) > largest {
		return nil, &kennel.InputError{
			Field: "size", Value: fmt.Sprintf("%d bytes", len(data)), What: "is too large for a kennel file",
			Try: fmt.Sprintf("a file of at most %d bytes", largest),
		}
	}
	words, err := plainText(data)
	if err != nil {
		return nil, err
	}
	file, err := parseYAML(words)
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

// parseYAML keeps a slip of the YAML library on odd text from ending the program.
func parseYAML(data string) (file *ast.File, err *kennel.InputError) {
	defer func() {
		if slip := recover(); slip != nil {
			file, err = nil, &kennel.InputError{What: "the file is not YAML", Try: "a file as README.md draws it"}
		}
	}()
	tokens := lexer.Tokenize(data)
	if commas := decimalCommas(tokens); len(commas) > 0 {
		data = withPoints(data, commas)
		tokens = lexer.Tokenize(data)
	}
	if err := checkTokens(data, tokens); err != nil {
		return nil, err
	}
	file, trouble := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if trouble != nil {
		var at *token.Token
		var y yaml.Error
		if errors.As(trouble, &y) {
			at = y.GetToken()
		}
		return nil, slip(data, tokens, at)
	}
	return file, nil
}

func position(t *token.Token) (line, column int) {
	if t == nil || t.Position == nil {
		return 0, 0
	}
	return t.Position.Line, t.Position.Column
}
