package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// stiffWords are words of ours that nobody says at a trimming table, each with what is said instead.
var stiffWords = []struct {
	word    *regexp.Regexp
	instead string
}{
	{regexp.MustCompile(`(?i)\btold\b`), "set, given, shown"},
	{regexp.MustCompile(`(?i)\banew\b`), "again"},
	{regexp.MustCompile(`(?i)\bso many\b`), "N, this many"},
	{regexp.MustCompile(`(?i)\bby itself\b`), "by default, on its own"},
	{regexp.MustCompile(`(?i)\blet near\b`), "may do"},
	{regexp.MustCompile(`(?i)\bmend(s|ed|ing)?\b`), "fix, repair, correct"},
	{regexp.MustCompile(`(?i)\bat the most\b`), "at most"},
	{regexp.MustCompile(`(?i)\bstands\b`), "is"},
	{regexp.MustCompile(`(?i)\bthat there (is|are)\b`), "drop it, or available"},
	{regexp.MustCompile(`(?i)\bhours there are\b`), "hours available"},
}

// stiff finds the words in a text.
func stiff(text string) (found []string) {
	for _, s := range stiffWords {
		if m := s.word.FindString(text); m != "" {
			found = append(found, strconv.Quote(m)+", say: "+s.instead)
		}
	}
	return found
}

// What people read is plain English: every text of the program, the pages and their templates, the README and the pages
// beside it, the changes, the patterns, and what the demo prints.
func TestWhatPeopleReadIsPlainEnglish(t *testing.T) {
	read := 0
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir():
			if name := d.Name(); name != ".." && strings.HasPrefix(name, ".") || name == "fuzz" {
				return filepath.SkipDir
			}
			return nil
		}
		var texts map[string]string
		switch name := filepath.ToSlash(strings.TrimPrefix(path, "../../")); {
		case strings.HasSuffix(name, "_test.go"):
			return nil
		case strings.HasSuffix(name, ".go"):
			texts, err = literals(path)
		case strings.HasSuffix(name, ".html") || name == "CHANGELOG.md" || strings.HasPrefix(name, "testdata/golden/") ||
			strings.HasPrefix(name, "kennel/patterns/") || isPage(path):
			texts, err = lines(path)
		default:
			return nil
		}
		for at, text := range texts {
			for _, found := range stiff(text) {
				t.Errorf("%s: %s\n\t%s", at, found, strings.TrimSpace(text))
			}
		}
		read += len(texts)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if read < 5000 {
		t.Errorf("only %d texts were read", read)
	}
}

func TestStiffWordsAreFound(t *testing.T) {
	for _, text := range []string{"Is told", "plan Anew", "so many weeks", "8420 by itself;", "let near the coat", "Mended: it", "two at the most", "stands there", "hours that there are"} {
		if len(stiff(text)) == 0 {
			t.Errorf("%q passes", text)
		}
	}
	if found := stiff("planned again, at most 2 weeks; the stand, amended and untold"); len(found) > 0 {
		t.Errorf("found %q", found)
	}
}

func isPage(path string) bool {
	for _, p := range pages {
		if filepath.Clean(p) == filepath.Clean(path) {
			return true
		}
	}
	return false
}

// lines are the lines of a file by their places.
func lines(path string) (map[string]string, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	all := map[string]string{}
	for n, line := range strings.Split(string(data), "\n") {
		all[path+":"+strconv.Itoa(n+1)] = line
	}
	return all, nil
}

// literals are the texts in a Go file by their places.
func literals(path string) (map[string]string, error) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, path, nil, 0)
	if err != nil {
		return nil, err
	}
	all := map[string]string{}
	ast.Inspect(file, func(n ast.Node) bool {
		if f, ok := n.(*ast.Field); ok && f.Tag != nil {
			return false // a tag is no text
		}
		if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
			if text, err := strconv.Unquote(l.Value); err == nil {
				all[set.Position(l.Pos()).String()] = text
			}
		}
		return true
	})
	return all, nil
}
