package desk

import (
	"fmt"
	"slices"
	"strings"

	"tuckup/kennel"
)

// A coat is asked for in rows, a day and a share each; whoever likes can write it out in one field instead.

// mostLayerRows is how many layers the rows of a form have room for.
const mostLayerRows = 4

// layerRow is one layer of a form.
type layerRow struct{ Day, Share fieldView }

// layerRows are the rows of a form for the layers of a coat.
func layerRows(f *form) (rows []layerRow) {
	for n := range mostLayerRows {
		day, share := layerNames(n)
		which := [mostLayerRows]string{"All of it, or one layer,", "Second layer", "Third layer", "Fourth layer"}[n]
		rows = append(rows, layerRow{
			newField(f, day, which+" last pulled on", "type=date"),
			newField(f, share, "Its share", "hint=half, 1 in 3 or 40%; empty: the rest"),
		})
	}
	return rows
}

func layerNames(n int) (day, share string) {
	return fmt.Sprintf("layer_day.%d", n+1), fmt.Sprintf("layer_share.%d", n+1)
}

// coatWords is the coat as a form says it, written out: 0.6 2026-09-20 0.4 2026-12-01. One share may be left out: it is the rest. What
// can't be is noted beside its row; at is the field that the words came from.
func (f *form) coatWords() (words []string, at string) {
	at, _ = layerNames(0)
	type row struct {
		share kennel.Share
		day   kennel.Date
		rest  bool
		field string
	}
	var rows []row
	var sum kennel.Share
	for n := range mostLayerRows {
		day, share := layerNames(n)
		if f.get(day)+f.get(share) == "" {
			continue
		}
		x := row{field: share, rest: f.get(share) == ""}
		if f.get(day) == "" {
			f.wrong(day, "is missing: the day when this layer was last pulled")
		}
		x.day = f.date(day, false)
		if !x.rest {
			v, err := kennel.ParseShare(f.get(share))
			if x.share = parsed(f, share, v, err); x.share == 0 && err == nil {
				f.wrong(share, "is no hair at all. Try: a share above 0, or nothing in this row")
			}
		}
		sum += x.share
		rows = append(rows, x)
	}
	if len(rows) == 0 {
		words = strings.Fields(f.get("coat"))
		for i, w := range words {
			if d, err := f.Dates.ParseDay(w); err == nil {
				words[i] = d.String()
			}
		}
		return words, "coat"
	}
	const hair = 1e-9 // what shares like 1/3 miss of a whole
	if f.get("coat") != "" {
		f.wrong("coat", "says the coat a second time. Try: the rows above, or this, and not both")
	}
	if sum > 1+hair {
		f.wrong(rows[len(rows)-1].field, fmt.Sprintf("makes %.0f %% together: shares add up to all of it at most", 100*sum))
	}
	if n := slices.IndexFunc(rows, func(x row) bool { return x.rest }); n >= 0 {
		if rows[n].share = 1 - sum; rows[n].share < hair {
			f.wrong(rows[n].field, "is missing: the other layers are all of it already")
		}
		for _, x := range rows[n+1:] {
			if x.rest {
				f.wrong(x.field, "is missing: only one layer can be the rest")
			}
		}
	}
	for _, x := range rows {
		words = append(words, kennel.Number(float64(x.share)), x.day.String())
	}
	return words, at
}

// dutyWords is a duty as a form says it, written out: nails 10 every 2w.
func (f *form) dutyWords() (words, at string) {
	name, minutes, every, before := f.get("duty_name"), f.get("duty_minutes"), f.get("duty_every"), f.get("duty_before")
	if name+minutes+every+before == "" {
		return f.get("duty"), "duty"
	}
	if f.get("duty") != "" {
		f.wrong("duty", "says the duty a second time. Try: the fields above, or this, and not both")
	}
	if name == "" {
		f.wrong("duty_name", "is missing: what is done, like nails")
	}
	if minutes == "" {
		f.wrong("duty_minutes", "is missing: how long it takes")
	}
	words = name + " " + minutes
	switch {
	case every != "" && before != "":
		f.wrong("duty_before", "says when a second time. Try: every few weeks, or before a show, and not both")
	case every == "" && before == "":
		f.wrong("duty_every", "is missing: every how many weeks, or below how many days before a show")
	case every != "":
		if n := f.whole("duty_every", 0); n < 1 {
			f.wrong("duty_every", "is not a number of weeks from 1 on")
		}
		words += " every " + every + "w"
	default:
		for _, days := range strings.FieldsFunc(before, func(c rune) bool { return c == ',' || c == ' ' }) {
			if !strings.Contains(words, " before") {
				words += " before"
			}
			words += " " + strings.TrimSuffix(days, "d") + "d"
		}
	}
	return words, "duty_name"
}
