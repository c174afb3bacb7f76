package fields

import (
	"fmt"
	"strings"
)

// Table is the thing's table of keys in Markdown: what each says, its range and its default.
func (t Thing[T]) Table() string {
	var b strings.Builder
	fmt.Fprintf(&b, "| %s | what it says | range | default |\n|---|---|---|---|\n", t.Is)
	usual := t.Usual()
	for _, f := range t.Fields {
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", f.Key, f.Says, f.rangeWords(), f.defaultWords(&usual))
	}
	return b.String()
}

// Tables are the tables of keys of everything that a kennel file holds.
func Tables() string {
	return strings.Join([]string{Kennel.Table(), Hands.Table(), Dog.Table(), Layer.Table(), Outline.Table(), Spell.Table(), Duty.Table(), Show.Table()}, "\n")
}

// Names are the names of the fields that are single values, as code in Markdown with commas between.
func (t Thing[T]) Names() string {
	var names []string
	for _, f := range t.Single() {
		names = append(names, "`"+f.Name()+"`")
	}
	return strings.Join(names, ", ")
}

func (f Field[T]) rangeWords() string {
	switch {
	case f.Range != "":
		return f.Range
	case f.Bounds.Most > 0:
		return f.Bounds.Words()
	case f.Kind() == Day:
		return "a date"
	case f.Kind() == Yes:
		return "`true` or `false`"
	}
	return ""
}

func (f Field[T]) defaultWords(usual *T) string {
	switch {
	case f.Need != "":
		return "required"
	case f.Default != "":
		return f.Default
	case f.Kind() == Words, f.Kind() == Day:
		return "not given"
	case f.Kind() == Yes:
		return "`" + f.Text(usual) + "`"
	}
	return f.Text(usual)
}

// Help is what the help of the field's flag says.
func (f Field[T]) Help() string {
	help, kind := f.Says, f.Kind()
	switch r := f.rangeWords(); {
	case kind == Day && f.Range == "":
		help += "; a date like 2027-03-20"
	case r != "" && kind != Yes:
		help += "; " + r
	}
	if f.Default != "" {
		help += " (default: " + f.Default + ")"
	}
	return strings.ReplaceAll(help, "`", "")
}
