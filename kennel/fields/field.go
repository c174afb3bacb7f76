// Package fields says once what people give of each thing: a kennel, a pair of hands, a dog, a layer, a duty, a show. The kennel
// file, tables, the book, the flags of commands, the desk's forms, the lists and the tables of keys walk these descriptions,
// so that a new field is one row here.
package fields

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"tuckup/kennel"
)

// Kind is what a field holds.
type Kind int

// The kinds. Many is a list or a thing of its own, which every place writes and reads in its own way; all others are single values.
const (
	Words Kind = iota // text
	Day
	Number
	Whole // a number without decimals
	Yes   // yes or no
	Many
)

// Field is one thing that people give of a T.
type Field[T any] struct {
	// Key is its key in the kennel file; one of a group has a dot, like coat.growth.
	Key string
	// Column is its name in tables, lists, forms and the book, "" = the key behind the dot.
	Column string
	// Says explains it in the table of keys and in the help of a flag; code is in backquotes there.
	Says string
	// Range is what it may be, "" = what Bounds say, or the kind.
	Range string
	// Default is what holds where it is not given, "" = what the usual thing has.
	Default string
	// Need says what to give where it must be given, "" = it may be left out.
	Need string
	// Label is its name on a form, "" = what the thing's own form does not ask for; Hint stands below it.
	Label, Hint string
	// Bounds of a number; the zero value is none.
	Bounds kennel.Bounds
	// Among are the words that it can be, none = any.
	Among []string
	// Percent says that forms ask for it in hundredths.
	Percent bool
	// Reads its words where their type alone does not say how.
	Reads *Reading
	// FlagName is the name of its flag, "" = its name with hyphens.
	FlagName string
	// At points to the field.
	At func(*T) any
}

// Thing is all that people give of a T.
type Thing[T any] struct {
	Is     string   // like "a dog"
	Usual  func() T // one of which nothing was given
	Fields []Field[T]
}

// Name is the field's name where there is no group: growth for coat.growth.
func (f Field[T]) Name() string {
	if f.Column != "" {
		return f.Column
	}
	return f.Key[strings.LastIndexByte(f.Key, '.')+1:]
}

// Flag is the name of the field's flag.
func (f Field[T]) Flag() string {
	if f.FlagName != "" {
		return f.FlagName
	}
	return strings.ReplaceAll(f.Name(), "_", "-")
}

// Group is the part of the key before the dot, "" = none.
func (f Field[T]) Group() string {
	group, _, grouped := strings.Cut(f.Key, ".")
	if !grouped {
		return ""
	}
	return group
}

// Kind is what the field holds.
func (f Field[T]) Kind() Kind {
	p := f.At(new(T))
	if _, day := p.(*kennel.Date); day {
		return Day
	}
	switch v := reflect.TypeOf(p); v.Elem().Kind() {
	case reflect.String:
		return Words
	case reflect.Float64:
		return Number
	case reflect.Int:
		return Whole
	case reflect.Bool:
		return Yes
	}
	return Many
}

// Get is the field's value: a string, a kennel.Date, a float64, an int or a bool; of many, the pointer to them.
func (f Field[T]) Get(of *T) any {
	p := f.At(of)
	v := reflect.ValueOf(p).Elem()
	switch f.Kind() {
	case Words:
		return v.String()
	case Number:
		return v.Float()
	case Whole:
		return int(v.Int())
	case Yes:
		return v.Bool()
	case Day:
		return v.Interface()
	}
	return p
}

// Set gives the field a value of its kind, as Get returns it. It panics on any other: the caller mixed up two fields.
func (f Field[T]) Set(of *T, value any) {
	v, to := reflect.ValueOf(value), reflect.ValueOf(f.At(of)).Elem()
	if (v.Kind() == reflect.String) != (to.Kind() == reflect.String) { // a number would become the letter of that number
		panic(fmt.Sprintf("%s can't be %v", f.Key, value))
	}
	to.Set(v.Convert(to.Type()))
}

// Text is the field's value as it can be typed, "" for text and days that are not given.
func (f Field[T]) Text(of *T) string {
	switch v := f.Get(of).(type) {
	case string:
		return v
	case kennel.Date:
		return v.String()
	case float64:
		return kennel.Number(v)
	case int:
		return strconv.Itoa(v)
	case bool:
		return strconv.FormatBool(v)
	default:
		panic(fmt.Sprintf("%s is no single value", f.Key))
	}
}

// Silent reports whether nothing was given, so that a file or a list may leave the field out: it is empty, and it would be if it
// were left out.
func (f Field[T]) Silent(of, usual *T) bool {
	return reflect.ValueOf(f.At(of)).Elem().IsZero() && reflect.ValueOf(f.At(usual)).Elem().IsZero()
}

// Single are the fields that are single values, but for those of the names.
func (t Thing[T]) Single(but ...string) (all []Field[T]) {
	for _, f := range t.Fields {
		if f.Kind() != Many && !slices.Contains(but, f.Name()) {
			all = append(all, f)
		}
	}
	return all
}

// Only are the fields of the names, in their order there; it panics where one has none.
func (t Thing[T]) Only(names ...string) (all []Field[T]) {
	for _, n := range names {
		all = append(all, t.Named(n))
	}
	return all
}

// Keys are the keys of a group in the kennel file; those of "" are the thing's own, with the names of its groups.
func (t Thing[T]) Keys(group string) (keys []string) {
	for _, f := range t.Fields {
		key := f.Key
		switch own := f.Group(); {
		case own == group:
			key = key[strings.LastIndexByte(key, '.')+1:]
		case group == "":
			key = own
		default:
			continue
		}
		if len(keys) == 0 || keys[len(keys)-1] != key {
			keys = append(keys, key)
		}
	}
	return keys
}

// Named is the field with the name; it panics where there is none.
func (t Thing[T]) Named(name string) Field[T] {
	for _, f := range t.Fields {
		if f.Name() == name {
			return f
		}
	}
	panic(fmt.Sprintf("%s has no field %q", t.Is, name))
}
