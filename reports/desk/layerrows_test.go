package desk

import (
	"net/http"
	"testing"

	"tuckup/kennel"
)

// A coat is filled in by days and shares, and nothing but rows that can be is saved.
func TestACoatIsFilledInByDaysAndShares(t *testing.T) {
	r := opened(t)
	path := "/dogs/Sorrel"
	fill := func(values ...string) page {
		form := r.get(path).form("main", "coat")
		form.Set("area", "back")
		for i := 0; i+1 < len(values); i += 2 {
			form.Set(values[i], values[i+1])
		}
		return r.ask(http.MethodPost, path, form)
	}
	layers := func() []kennel.Layer {
		d := r.state().Kennel.Dogs[0]
		p, _ := r.desk.opt.Patterns[d.Pattern].Area("back")
		return d.LayersOf(p)
	}
	if p := fill("layer_day.1", "2026-10-12"); p.status != http.StatusSeeOther {
		t.Fatalf("one day: %d %s", p.status, p.Find(".error").Text())
	}
	if got := layers(); len(got) != 1 || got[0].Share != 1 || got[0].Pulled.String() != "2026-10-12" {
		t.Errorf("one day is %v", got)
	}
	if p := fill("layer_day.1", "2026-09-20", "layer_share.1", "60%", "layer_day.3", "2026-12-01"); p.status != http.StatusSeeOther {
		t.Fatalf("a share and the rest: %d %s", p.status, p.Find(".error").Text())
	}
	if got := layers(); len(got) != 2 || got[0].Share != 0.6 || got[1].Share < 0.3999 || got[1].Share > 0.4001 {
		t.Errorf("a share and the rest are %v", got)
	}
	before := r.version()
	for _, c := range []struct {
		field, words string
		values       []string
	}{
		{"layer_day.2", "is missing", []string{"layer_day.1", "2026-09-20", "layer_share.2", "half"}},
		{"layer_share.2", "120 % together", []string{"layer_day.1", "2026-09-20", "layer_share.1", "0.6", "layer_day.2", "2026-10-20", "layer_share.2", "0.6"}},
		{"layer_share.2", "only one layer can be the rest", []string{"layer_day.1", "2026-09-20", "layer_day.2", "2026-10-20"}},
		{"layer_share.1", "is not a part", []string{"layer_day.1", "2026-09-20", "layer_share.1", "some"}},
		{"layer_share.1", "no hair at all", []string{"layer_day.1", "2026-09-20", "layer_share.1", "0"}},
		{"layer_day.1", "is not a date", []string{"layer_day.1", "soon"}},
		{"layer_day.1", "can't be seen", []string{"layer_day.1", "2027-03-01"}},
		{"coat", "a second time", []string{"layer_day.1", "2026-09-20", "coat", "2026-09-20"}},
	} {
		p := fill(c.values...)
		typed := ""
		for i := 0; i+1 < len(c.values); i += 2 {
			if c.values[i] == c.field {
				typed = c.values[i+1]
			}
		}
		if p.status != http.StatusUnprocessableEntity {
			t.Errorf("%v: %d", c.values, p.status)
			continue
		}
		p.wrongAt(c.field, c.words, typed)
	}
	if r.version() != before {
		t.Error("what can't be was saved")
	}
}

func TestADutyIsFilledInByFields(t *testing.T) {
	r := opened(t)
	fill := func(values ...string) page {
		form := r.get("/dogs/Moss").form("main", "duty")
		for i := 0; i+1 < len(values); i += 2 {
			form.Set(values[i], values[i+1])
		}
		return r.ask(http.MethodPost, "/dogs/Moss", form)
	}
	if p := fill("duty_name", "close trim", "duty_minutes", "30", "duty_before", "10, 7"); p.status != http.StatusSeeOther {
		t.Fatalf("%d %s", p.status, p.Find(".error").Text())
	}
	if p := fill("duty_name", "ears", "duty_minutes", "5", "duty_every", "3"); p.status != http.StatusSeeOther {
		t.Fatalf("%d %s", p.status, p.Find(".error").Text())
	}
	duties := r.state().Kennel.Dogs[1].Duties
	trim, ears := duties[len(duties)-2], duties[len(duties)-1]
	if trim.Name != "close trim" || trim.Minutes != 30 || trim.Before == nil || trim.Before.From != 10 || trim.Before.To != 7 || ears.Every != 3 {
		t.Errorf("the duties are %+v", duties)
	}
	for _, c := range []struct {
		field, words string
		values       []string
	}{
		{"duty_name", "is missing", []string{"duty_minutes", "5", "duty_every", "1"}},
		{"duty_minutes", "is missing", []string{"duty_name", "ears", "duty_every", "1"}},
		{"duty_every", "is missing", []string{"duty_name", "ears", "duty_minutes", "5"}},
		{"duty_before", "a second time", []string{"duty_name", "ears", "duty_minutes", "5", "duty_every", "1", "duty_before", "7"}},
		{"duty_every", "not a whole number", []string{"duty_name", "ears", "duty_minutes", "5", "duty_every", "often"}},
	} {
		p := fill(c.values...)
		if p.status != http.StatusUnprocessableEntity || p.Find(`[name="`+c.field+`"][aria-invalid]`).Length() != 1 {
			t.Errorf("%v: %d %s", c.values, p.status, p.Find(".error").Text())
		}
	}
}
