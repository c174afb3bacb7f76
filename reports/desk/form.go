package desk

import (
	"errors"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// form is what was typed into a form, or what it begins with, and what is wrong with it.
type form struct {
	ID       string // unique in the page: starts the identifiers of its fields
	Version  int64  // of the book that the person looked at
	Key      string // tells the form that was sent from all others; empty = it is carried out each time
	Values   url.Values
	Errors   map[string]string // by field; those of "" are about the form as a whole
	Conflict *conflict
	Question *question        // asked before it is carried out; nothing is wrong
	Dates    kennel.DateOrder // of what is typed
}

func newForm(id string, version int64) *form {
	return &form{ID: id, Version: version, Values: url.Values{}, Errors: map[string]string{}}
}

// readForm is the form that was sent and read by once.
func readForm(r *http.Request, id string) (*form, error) {
	f := newForm(id, 0)
	f.Values, f.Key = r.PostForm, postKey(r)
	v, err := strconv.ParseInt(f.get("version"), 10, 64)
	if err != nil || v < 0 {
		return nil, &statusError{http.StatusBadRequest, "The form does not say which version of the book it is about.", "the page again"}
	}
	f.Version = v
	return f, nil
}

// posted is the form that was sent, and what it is about.
func (d *Desk) posted(r *http.Request, id string) (*form, look, error) {
	f, err := readForm(r, id)
	if err != nil {
		return nil, look{}, err
	}
	l, err := d.look(r.Context())
	f.Dates = l.state.Kennel.Dates
	return f, l, err
}

func (f *form) get(name string) string { return strings.TrimSpace(f.Values.Get(name)) }

func (f *form) set(name, value string) { f.Values.Set(name, value) }

// wrong notes what is wrong with a field; the first word on it stands.
func (f *form) wrong(name, what string) {
	if f.Errors[name] == "" {
		f.Errors[name] = what
	}
}

// Bad reports whether anything is wrong, or to be asked.
func (f *form) Bad() bool { return len(f.Errors) > 0 || f.Conflict != nil || f.Question != nil }

// Whole is what is wrong with the form as a whole.
func (f *form) Whole() string { return f.Errors[""] }

// status is that of the answer that shows the form again.
func (f *form) status() int {
	switch {
	case f.Conflict != nil:
		return http.StatusConflict
	case f.Bad():
		return http.StatusUnprocessableEntity
	}
	return http.StatusOK
}

// whole is a field with a whole number; empty is the other value.
func (f *form) whole(name string, otherwise int) int {
	s := f.get(name)
	if s == "" {
		return otherwise
	}
	v, err := strconv.Atoi(s)
	if err != nil {
		f.wrong(name, "is not a whole number")
		return otherwise
	}
	return v
}

// date is a field with a date; empty is none, which must says is wrong.
func (f *form) date(name string, must bool) kennel.Date {
	s := f.get(name)
	if s == "" {
		if must {
			f.wrong(name, "is missing: a date like 2027-03-20")
		}
		return 0
	}
	d, err := f.Dates.ParseDay(s)
	return parsed(f, name, d, err)
}

// parsed notes the error of reading a field.
func parsed[T any](f *form, name string, v T, err error) T {
	if err != nil {
		what, _ := errorWords(err, kennel.Kennel{})
		var in *kennel.InputError
		if errors.As(err, &in) {
			what = strings.TrimSpace(strconv.Quote(in.Value) + " " + in.What)
			if in.Value == "" {
				what = in.What
			}
			if in.Try != "" {
				what += ". Try: " + in.Try
			}
		}
		f.wrong(name, what)
	}
	return v
}

// take notes an error of the book beside the field that it is about: the last word of its path, by the names that fields
// names. An error that is no one's fault is returned.
func (f *form) take(err error, fields map[string]string) error {
	var in *kennel.InputError
	if !errors.As(err, &in) {
		return err
	}
	field := in.Field
	if strings.Contains(field, "duties[") {
		field = "duties" // a duty is one field of a form
	}
	for _, cut := range []string{": ", "."} {
		if i := strings.LastIndex(field, cut); i >= 0 {
			field = field[i+len(cut):]
		}
	}
	if i := strings.IndexByte(field, '['); i >= 0 {
		field = field[:i]
	}
	name, known := fields[field]
	what := inputWords(in)
	if known {
		what = in.What
		if in.Value != "" {
			what = strconv.Quote(in.Value) + " " + in.What
		}
	}
	if in.Try != "" {
		what += ". Try: " + in.Try
	}
	f.wrong(name, what)
	return nil
}

// errorWords is what is wrong and what to try, in the words of the page.
func errorWords(err error, k kennel.Kennel) (what, try string) {
	var in *kennel.InputError
	if errors.As(err, &in) {
		named := book.Named(in, k)
		return inputWords(named), named.Try
	}
	return err.Error(), ""
}

// fieldView is one field as the templates write it.
type fieldView struct {
	ID, Name, Label, Type, Value, Error, Hint, List, Step, Mode string
	Need                                                        bool // it must be filled in, as its label says
	Required, Checked                                           bool
	Options                                                     []option
}

type option struct {
	Value, Words string
	Chosen, Off  bool
}

// newField is a field of a form. What follows the label says more: "type=date", "hint=...", "list=ID of a datalist",
// "step=0.5", "mode=decimal", "required".
func newField(f *form, name, label string, more ...string) fieldView {
	v := fieldView{ID: f.ID + "-" + strings.NewReplacer(" ", "-", ".", "-").Replace(name), Name: name, Label: label, Type: "text", Value: f.Values.Get(name), Error: f.Errors[name]}
	for _, m := range more {
		key, value, _ := strings.Cut(m, "=")
		switch key {
		case "type":
			v.Type = value
		case "hint":
			v.Hint = value
		case "list":
			v.List = value
		case "step":
			v.Step = value
		case "mode":
			v.Mode = value
		case "need":
			v.Need = true
		case "required":
			v.Required = true
		}
	}
	if v.Type == "checkbox" {
		v.Checked = v.Value != ""
	}
	return v
}

// newChoice is a field whose value is one of several.
func newChoice(f *form, name, label string, options []option, more ...string) fieldView {
	v := newField(f, name, label, more...)
	for _, o := range options {
		o.Chosen = o.Value == v.Value
		v.Options = append(v.Options, o)
	}
	return v
}
