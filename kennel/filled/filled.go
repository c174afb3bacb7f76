// Package filled fills things by reflection, so that a test can see whether every field of them comes back from where they
// were sent. A field that it has no value for is an error: a new field can't stay empty, and pass for kept.
package filled

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// Values are what fields are set to, by the type and name of the field, like "kennel.Dog.Owner". Things in a list take the
// first, the second and so on; another round takes others. What has no line is gone into: a struct, a pointer to one, or
// a list of them.
type Values map[string][]any

// What stands for a value: the field stays empty, or is gone into as if it had no line.
const (
	Empty mark = iota
	Inside
)

type mark int

// Fill sets every exported field of what to points to. The error names each field that has no value.
func Fill(to any, values Values, round int) error {
	f := filler{values: values, round: round}
	v := reflect.ValueOf(to).Elem()
	f.inside("", v.Type().String(), v, 0)
	return errors.Join(f.wrong...)
}

// inAList is how many things a list gets: two, so that order is seen.
const inAList = 2

type filler struct {
	values Values
	round  int
	at     func(path, key string, v reflect.Value) // of each field that a value was meant for
	wrong  []error
}

func (f *filler) fill(path, key string, v reflect.Value, n int) {
	said, known := f.values[key]
	if !known {
		f.inside(path, key, v, n)
		return
	}
	value := said[(n+inAList*f.round)%len(said)]
	if value == Inside {
		f.inside(path, key, v, n)
		return
	}
	if value != Empty {
		v.Set(reflect.ValueOf(value).Convert(v.Type()))
	}
	if f.at != nil {
		f.at(path, key, v)
	}
}

// inside goes into a field that has no value of its own.
func (f *filler) inside(path, key string, v reflect.Value, n int) {
	t := v.Type()
	switch {
	case t.Kind() == reflect.Pointer && t.Elem().Kind() == reflect.Struct:
		v.Set(reflect.New(t.Elem()))
		f.inside(path, key, v.Elem(), n)
	case t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Struct:
		v.Set(reflect.MakeSlice(t, inAList, inAList))
		for i := range inAList {
			f.inside(fmt.Sprintf("%s[%d]", path, i), key, v.Index(i), i)
		}
	case t.Kind() == reflect.Struct && len(reflect.VisibleFields(t)) > 0:
		for i := range t.NumField() {
			field := t.Field(i)
			switch {
			case field.Anonymous:
				f.inside(path, key, v.Field(i), n)
			case field.IsExported():
				f.fill(joined(path, field.Name), t.String()+"."+field.Name, v.Field(i), n)
			default:
				f.wrong = append(f.wrong, fmt.Errorf("%s.%s can't be set from here: give %s a value", t, field.Name, key))
			}
		}
	default:
		f.wrong = append(f.wrong, fmt.Errorf("%s has no value to be filled with: give it some that differ", key))
	}
}

func joined(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// One is a thing in which one field is another than in the thing that Fill makes in round 0.
type One[T any] struct {
	Path  string // like Dogs[0].Coat.Growth
	Key   string // like kennel.Coat.Growth
	Thing T
}

// Each gives the thing of round 0 once for each field that differs in round 1, with that field as it is there.
func Each[T any](values Values) (all []One[T], err error) {
	fields := func(round int) (at map[string]reflect.Value, keys map[string]string, order []string, err error) {
		var thing T
		at, keys = map[string]reflect.Value{}, map[string]string{}
		f := filler{values: values, round: round, at: func(path, key string, v reflect.Value) {
			at[path], keys[path], order = v, key, append(order, path)
		}}
		v := reflect.ValueOf(&thing).Elem()
		f.inside("", v.Type().String(), v, 0)
		return at, keys, order, errors.Join(f.wrong...)
	}
	others, _, _, err := fields(1)
	if err != nil {
		return nil, err
	}
	first, keys, order, err := fields(0)
	if err != nil {
		return nil, err
	}
	for _, path := range order {
		other, there := others[path]
		if !there || reflect.DeepEqual(first[path].Interface(), other.Interface()) {
			continue
		}
		one := One[T]{Path: path, Key: keys[path]}
		f := filler{values: values, at: func(at, _ string, v reflect.Value) {
			if at == path {
				v.Set(other)
			}
		}}
		v := reflect.ValueOf(&one.Thing).Elem()
		f.inside("", v.Type().String(), v, 0)
		all = append(all, one)
	}
	return all, nil
}

// Differences names what differs in two things of one type, like "Dogs[0].Owner: R. Calloway became nothing".
func Differences(was, is any) (all []string) {
	return differences(nil, "", reflect.ValueOf(was), reflect.ValueOf(is))
}

func differences(all []string, path string, was, is reflect.Value) []string {
	switch was.Kind() {
	case reflect.Struct:
		for i := range was.NumField() {
			all = differences(all, joined(path, was.Type().Field(i).Name), was.Field(i), is.Field(i))
		}
		return all
	case reflect.Slice, reflect.Array:
		if was.Len() != is.Len() {
			return append(all, fmt.Sprintf("%s: %d became %d: %+v", path, was.Len(), is.Len(), is))
		}
		for i := range was.Len() {
			all = differences(all, fmt.Sprintf("%s[%d]", path, i), was.Index(i), is.Index(i))
		}
		return all
	case reflect.Pointer:
		if !was.IsNil() && !is.IsNil() {
			return differences(all, path, was.Elem(), is.Elem())
		}
	}
	if !reflect.DeepEqual(was.Interface(), is.Interface()) {
		all = append(all, fmt.Sprintf("%s: %s became %s", path, shown(was), shown(is)))
	}
	return all
}

func shown(v reflect.Value) string {
	if v.IsZero() {
		return "nothing"
	}
	return fmt.Sprint(v)
}

// Overwrite empties everything that what to points to holds, in place: lists keep their length and pointers what they
// point to, so that whatever shares them is emptied too.
func Overwrite(to any) { overwrite(reflect.ValueOf(to).Elem()) }

func overwrite(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			overwrite(v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			overwrite(v.Index(i))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			overwrite(v.Elem())
		}
	default:
		v.SetZero()
	}
}

// Left are the differences in fields other than those that a place does not carry. notCarried has a line for each of them: how
// its path ends or goes on, like ".Duties", and why it is left out; a line that excuses nothing is named too.
func Left(differences []string, notCarried map[string]string) (left []string) {
	used := map[string]bool{}
	for _, d := range differences {
		path, _, _ := strings.Cut(d, ": ")
		excused := false
		for end := range notCarried {
			if strings.HasSuffix(path, end) || strings.Contains(path, end+".") || strings.Contains(path, end+"[") {
				used[end], excused = true, true
			}
		}
		if !excused {
			left = append(left, d)
		}
	}
	for end := range notCarried {
		if !used[end] {
			left = append(left, end+" is carried after all")
		}
	}
	slices.Sort(left)
	return left
}
