package desk

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

// formFields are the fields that a thing's own form asks for.
func formFields[T any](t fields.Thing[T]) (all []fields.Field[T]) {
	for _, f := range t.Single() {
		if f.Label != "" {
			all = append(all, f)
		}
	}
	return all
}

// fillFields writes what was given of a thing into its form.
func fillFields[T any](f *form, t fields.Thing[T], x T) {
	usual := t.Usual()
	for _, a := range formFields(t) {
		f.set(a.Name(), typed(a, &x, &usual))
	}
}

// typed is a field as it stands in a form.
func typed[T any](a fields.Field[T], x, usual *T) string {
	switch v := a.Get(x).(type) {
	case bool:
		if v {
			return "yes"
		}
		return ""
	case float64:
		if a.Percent {
			const billion = 1e9 // 100 * 0.07 is a little more than 7
			return kennel.Number(math.Round(100*v*billion) / billion)
		}
	}
	if a.Silent(x, usual) {
		return ""
	}
	return a.Text(x)
}

// readFields writes what a form says over a thing; what can't be is noted beside its field. A field that is left empty is as it
// usually is. What depends on more than one field is for the checks of the book.
func readFields[T any](f *form, all []fields.Field[T], usual T, to *T) {
	for _, a := range all {
		words := f.get(a.Name())
		switch {
		case a.Kind() == fields.Yes:
			a.Set(to, words != "")
		case words != "":
			if v, ok := readField(f, a, words, &usual); ok {
				a.Set(to, v)
			}
		case a.Need != "" && a.Kind() == fields.Day:
			f.wrong(a.Name(), "is missing: "+a.Need)
		case a.Need != "":
			f.wrong(a.Name(), "is missing")
		default:
			a.Set(to, a.Get(&usual))
		}
	}
}

func readField[T any](f *form, a fields.Field[T], words string, usual *T) (value any, ok bool) {
	v, err := a.Reading().Read(words)
	if a.Kind() == fields.Day {
		v, err = f.Dates.ParseDay(words)
	}
	if percent, e := kennel.ParseNumber(strings.TrimSuffix(words, "%")); a.Percent && e == nil {
		v, err = percent/100, nil
		if percent > 0 && percent <= 1 && !strings.HasSuffix(words, "%") {
			f.wrong(a.Name(), fmt.Sprintf("would be %g %%. Try: %.4g, or %g%% if it is right", percent, 100*percent, percent))
			return nil, false
		}
	}
	if parsed(f, a.Name(), v, err); err != nil {
		return nil, false
	}
	number, is := v.(float64)
	if n, whole := v.(int); whole {
		number, is = float64(n), true
	}
	if is && a.Bounds.Most > 0 && !a.Bounds.Has(number) && (number != 0 || !a.Silent(usual, usual)) {
		what := "must be " + a.Bounds.Words()
		if a.Percent {
			what = fmt.Sprintf("must be above %g and at most %g; %g is entered", 100*a.Bounds.Least, 100*a.Bounds.Most, 100*a.Bounds.Most)
		} else if a.Bounds.Note != "" {
			what += "; " + a.Bounds.Note
		}
		f.wrong(a.Name(), what)
		return nil, false
	}
	return v, true
}

// fieldViews are the fields that a form asks for, as the templates write them.
func fieldViews[T any](f *form, all []fields.Field[T]) (views []fieldView) {
	for _, a := range all {
		more := []string{"hint=" + hint(a)}
		if a.Need != "" {
			more = append(more, "need")
		}
		switch a.Kind() {
		case fields.Day:
			more = append(more, "type=date")
		case fields.Number:
			more = append(more, "mode=decimal")
		case fields.Whole:
			more = append(more, "mode=numeric")
		case fields.Yes:
			more = append(more, "type=checkbox")
		}
		if len(a.Among) == 0 {
			views = append(views, newField(f, a.Name(), a.Label, more...))
			continue
		}
		options := []option{{Value: "", Words: a.Default}}
		for _, word := range a.Among {
			options = append(options, option{Value: word, Words: word})
		}
		views = append(views, newChoice(f, a.Name(), a.Label, options, more...))
	}
	return views
}

func hint[T any](a fields.Field[T]) string {
	if a.Hint == "" || a.Percent || a.Bounds.Most == 0 {
		return a.Hint
	}
	return a.Bounds.Words() + "; " + a.Hint
}

// factsOf are what was given of a thing, by name.
func factsOf[T any](t fields.Thing[T], x T) (all []fact) {
	usual := t.Usual()
	for _, a := range formFields(t) {
		all = append(all, fact{strings.ReplaceAll(a.Name(), "_", " "), typed(a, &x, &usual)})
	}
	return all
}

// named are the fields of a thing's form under the names that the book has for them, with more that a form has.
func named[T any](t fields.Thing[T], more map[string]string) map[string]string {
	names := map[string]string{}
	for _, f := range t.Single() {
		names[f.Name()] = f.Name()
	}
	for book, form := range more {
		names[book] = form
	}
	return names
}

// notInBook says that what a form is about was taken out in the meantime.
func notInBook(name, try string) error {
	return &kennel.InputError{Field: "name", Value: name, What: "is not in the book any more", Try: try}
}

// isInput reports whether an error is about what somebody wrote.
func isInput(err error) (in *kennel.InputError, is bool) {
	is = errors.As(err, &in)
	return in, is
}
