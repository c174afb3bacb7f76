package book

import (
	"cmp"
	"fmt"
	"reflect"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

// kind is what a column holds.
type kind int

const (
	words kind = iota
	whole
	real
)

// column is one column of a table.
type column struct {
	name string
	kind kind
}

// field is a column that holds a field of a T.
type field[T any] struct {
	name string
	at   func(*T) any // points to the field, or is an own
}

// own is a field that is kept in its own way.
type own interface {
	kind() kind
	value() any
	set(d *decoder, v any)
}

// called are names of fields for which SQL has another use, or which want their unit.
var called = map[string]string{"on": "on_day", "from": "from_day", "to": "to_day", "length": "length_mm", "table": "at_table", "least": "least_mm"}

// given are the columns of the fields that people give and that are single values.
func given[T any](t fields.Thing[T]) (all []field[T]) {
	for _, f := range t.Single() {
		all = append(all, field[T]{cmp.Or(called[f.Name()], f.Name()), f.At})
	}
	return all
}

// record are the columns of a record: those of its fields, and of what is embedded in it, that are single values, by their names.
// Some may be kept in their own way.
func record[T any](ways map[string]func(*T) any) (all []field[T]) {
	for _, f := range reflect.VisibleFields(reflect.TypeFor[T]()) {
		if f.Anonymous || f.Type.Kind() == reflect.Slice {
			continue
		}
		name := strings.ToLower(f.Name)
		at := ways[name]
		if at == nil {
			at = func(x *T) any { return reflect.ValueOf(x).Elem().FieldByIndex(f.Index).Addr().Interface() }
		}
		all = append(all, field[T]{cmp.Or(called[name], name), at})
	}
	return all
}

// columnsOf are the columns of fields.
func columnsOf[T any](all []field[T]) (columns []column) {
	var x T
	for _, f := range all {
		columns = append(columns, column{f.name, kindOf(f.at(&x))})
	}
	return columns
}

// rowOf is a thing as the values of its columns, behind those that the row begins with.
func rowOf[T any](all []field[T], x *T, begins ...any) row {
	r := make(row, 0, len(begins)+len(all))
	r = append(r, begins...)
	for _, f := range all {
		r = append(r, valueOf(f.at(x)))
	}
	return r
}

// read writes the values of a row over a thing: those of the columns that hold its fields. A value that is not there leaves the
// field as it is: its column came later than the row.
func read[T any](d *decoder, all []field[T], r row, x *T) {
	for i, f := range all {
		d.into(f.at(x), r[i])
	}
}

// orNone is a number that is kept as nothing where it is 0.
type orNone struct{ n *int64 }

func (orNone) kind() kind              { return whole }
func (o orNone) value() any            { return number(*o.n) }
func (o orNone) set(d *decoder, v any) { *o.n = d.whole(v) }

// orAll is an area, or all of them, which have a word of their own.
type orAll struct{ area *kennel.AreaName }

func (orAll) kind() kind { return words }
func (o orAll) value() any {
	if *o.area == AllAreas {
		return all
	}
	return string(*o.area)
}

func (o orAll) set(d *decoder, v any) {
	if *o.area = kennel.AreaName(d.words(v)); *o.area == all {
		*o.area = AllAreas
	}
}

// skills are kinds of work in one word.
type skills struct{ list *[]kennel.Skill }

func (skills) kind() kind { return words }
func (s skills) value() any {
	names := make([]string, len(*s.list))
	for i, x := range *s.list {
		names[i] = string(x)
	}
	return told(strings.Join(names, ","))
}

func (s skills) set(d *decoder, v any) {
	if names := d.words(v); names != "" {
		for _, x := range strings.Split(names, ",") {
			*s.list = append(*s.list, kennel.Skill(x))
		}
	}
}

// there says whether there is a thing that may be missing.
type there[T any] struct{ thing **T }

func (there[T]) kind() kind   { return whole }
func (t there[T]) value() any { return yes(*t.thing != nil) }
func (t there[T]) set(d *decoder, v any) {
	if d.whole(v) != 0 {
		*t.thing = new(T)
	}
}

// part is a field of a thing that may be missing; where nothing else says that it is there, a value does.
type part[T any] struct {
	thing **T
	at    func(*T) any
	makes bool
}

func (p part[T]) kind() kind { return kindOf(p.at(new(T))) }
func (p part[T]) value() any {
	if *p.thing == nil {
		return nil
	}
	return valueOf(p.at(*p.thing))
}

func (p part[T]) set(d *decoder, v any) {
	if p.makes && v != nil && *p.thing == nil {
		*p.thing = new(T)
	}
	if *p.thing != nil {
		d.into(p.at(*p.thing), v)
	}
}

// kindOf is what a column holds whose field p points to.
func kindOf(p any) kind {
	switch p := p.(type) {
	case own:
		return p.kind()
	case *kennel.Date, *kennel.Clock:
		return words
	}
	switch k := reflect.TypeOf(p).Elem().Kind(); k {
	case reflect.String:
		return words
	case reflect.Float64:
		return real
	case reflect.Int, reflect.Int64, reflect.Bool:
		return whole
	default:
		panic(fmt.Sprintf("the book has no column for a %s", k))
	}
}

// valueOf is the field that p points to as the book keeps it.
func valueOf(p any) any {
	switch p := p.(type) {
	case own:
		return p.value()
	case *kennel.Date:
		return told(p.String())
	case *kennel.Clock:
		return p.String()
	case *bool:
		return yes(*p)
	}
	switch v := reflect.ValueOf(p).Elem(); v.Kind() {
	case reflect.String:
		return told(v.String())
	case reflect.Float64:
		return v.Float()
	default:
		return v.Int()
	}
}

// told is text, nil where there is none.
func told(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// number is a number of the book, nil for none.
func number(n int64) any {
	if n == 0 {
		return nil
	}
	return n
}

func yes(b bool) any {
	if b {
		return int64(1)
	}
	return int64(0)
}

// decoder reads values and keeps the first that can't be read.
type decoder struct{ err error }

func (d *decoder) fail(v any, what string) {
	if d.err == nil {
		d.err = fmt.Errorf("%v in the book is not %s", v, what)
	}
}

// into writes a value over the field that p points to.
func (d *decoder) into(p, v any) {
	if o, ok := p.(own); ok {
		o.set(d, v)
		return
	}
	if v == nil {
		return
	}
	switch p := p.(type) {
	case *kennel.Date:
		day, err := kennel.ParseDate(d.words(v))
		if err != nil {
			d.fail(v, "a day")
		}
		*p = day
		return
	case *kennel.Clock:
		c, err := kennel.ParseClock(d.words(v))
		if err != nil {
			d.fail(v, "a time of day")
		}
		*p = c
		return
	}
	switch to := reflect.ValueOf(p).Elem(); to.Kind() {
	case reflect.String:
		to.SetString(d.words(v))
	case reflect.Float64:
		f, ok := v.(float64)
		if !ok {
			d.fail(v, "a number")
		}
		to.SetFloat(f)
	case reflect.Bool:
		to.SetBool(d.whole(v) != 0)
	default:
		to.SetInt(d.whole(v))
	}
}

func (d *decoder) words(v any) string {
	s, ok := v.(string)
	if !ok && v != nil {
		d.fail(v, "text")
	}
	return s
}

func (d *decoder) whole(v any) int64 {
	n, ok := v.(int64)
	if !ok && v != nil {
		d.fail(v, "a whole number")
	}
	return n
}
