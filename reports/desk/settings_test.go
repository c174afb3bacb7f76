package desk

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports"
)

// withSettings is a desk with two settings, of which the second was set where the program was started; what is asked of it is noted.
func withSettings(t *testing.T) (r *room, asked *[]map[string]string, value *float64) {
	t.Helper()
	r = opened(t)
	value, asked = new(float64), new([]map[string]string)
	*value = 1
	r.desk.opt.Settings = func() ([]reports.SettingRow, error) {
		return []reports.SettingRow{
			{Key: "free_days", Value: *value, Unit: "days", Range: "0 to 6, whole", From: "default", About: "least free days", Usual: 1},
			{Key: "pick", Value: 2, Unit: "times", Range: "1 to 5", From: "environment TUCKUP_PICK", About: "how many times", Usual: 3, Fixed: true},
		}, nil
	}
	r.desk.opt.SetSettings = func(given map[string]string) (map[string]string, error) {
		*asked = append(*asked, given)
		x, err := kennel.ParseNumber(given["free_days"])
		if err != nil || x > 6 {
			return map[string]string{"free_days": "is outside 0 to 6"}, nil
		}
		*value = x
		return nil, nil
	}
	seen := r.desk.opt.Seen
	r.desk.opt.Seen = func(use optimize.Result, w Wish) optimize.Result {
		use.Options.FreeDays += int(*value) - 1 // as if it was made with another value than now
		return seen(use, w)
	}
	return r, asked, value
}

func fromHere(path string, form url.Values) *http.Request {
	method := http.MethodPost
	if form == nil {
		method = http.MethodGet
	}
	req := asked(method, path, form)
	req.RemoteAddr = "127.0.0.1:5000"
	return req
}

func TestASettingIsChangedOnThePageAndThePlanSaysSo(t *testing.T) {
	r, given, value := withSettings(t)
	p := r.answer(fromHere("/setup", nil))
	form := p.form("main", "settings")
	if form.Get("free_days") != "1" || form.Has("pick") || !strings.Contains(p.Find(".settings").Text(), "set by the environment TUCKUP_PICK") {
		t.Fatalf("the form holds %v: %s", form, p.Find(".settings").Text())
	}
	if strings.Contains(p.Find("main").Text(), "Changed since") {
		t.Fatal("something has changed already")
	}
	form.Set("free_days", "2")
	form.Set("pick", "5")
	done := r.answer(fromHere("/setup", form))
	if done.status != http.StatusSeeOther || len(*given) != 1 || len((*given)[0]) != 1 || *value != 2 {
		t.Fatalf("%d: asked for %v, now %v", done.status, *given, *value)
	}
	p = r.answer(fromHere(done.to, nil))
	if said := p.Find(".plan-note").Text(); !strings.Contains(said, "settings") || !strings.Contains(said, "Plan again") {
		t.Errorf("of the plan is said %q", said)
	}
	if p.form("main", "settings").Get("free_days") != "2" || !strings.Contains(p.Find(".said").Text(), "Saved") {
		t.Error("the page does not show what was saved")
	}
}

func TestABadSettingIsSaidBesideItsFieldAndChangesNothing(t *testing.T) {
	r, _, value := withSettings(t)
	form := r.answer(fromHere("/setup", nil)).form("main", "settings")
	form.Set("free_days", "9")
	p := r.answer(fromHere("/setup", form))
	if p.status != http.StatusUnprocessableEntity || *value != 1 {
		t.Errorf("%d, the value is %v", p.status, *value)
	}
	field := p.Find("#settings-free_days")
	if said := p.Find("#settings-free_days-error").Text(); said != "is outside 0 to 6" || field.AttrOr("value", "") != "9" || field.AttrOr("aria-invalid", "") == "" {
		t.Errorf("beside the field is %q, in it %q", said, field.AttrOr("value", ""))
	}
	if p.form("main", "save").Get("name") != "Thornfield" {
		t.Error("the kennel's own form is empty")
	}
}

func TestSettingsThatSomebodyElseChangedAreNotWrittenOver(t *testing.T) {
	r, given, value := withSettings(t)
	form := r.answer(fromHere("/setup", nil)).form("main", "settings")
	*value = 4
	form.Set("free_days", "2")
	p := r.answer(fromHere("/setup", form))
	if len(*given) != 0 || !strings.Contains(p.Find("#settings-free_days-error").Text(), "was changed to 4") {
		t.Fatalf("asked for %v: %s", *given, p.Find(".error").Text())
	}
	if p := r.answer(fromHere("/setup", p.form("main", "settings"))); p.status != http.StatusSeeOther || *value != 2 {
		t.Errorf("saved again: %d, the value is %v", p.status, *value)
	}
}

func TestOnlyTheDesksOwnComputerChangesSettingsAndNeverFromAMadeUpString(t *testing.T) {
	r, given, _ := withSettings(t)
	form := r.answer(fromHere("/setup", nil)).form("main", "settings")
	form.Set("free_days", "2")
	for name, ask := range map[string]func(url.Values) page{
		"a phone":   func(v url.Values) page { return r.ask(http.MethodPost, "/setup", v) },
		"a made-up": func(v url.Values) page { r.desk.opt.MadeUp = true; return r.answer(fromHere("/setup", v)) },
	} {
		if p := ask(form); p.status != http.StatusNotFound || len(*given) != 0 {
			t.Errorf("%s: %d, asked for %v", name, p.status, *given)
		}
		if p := r.get("/setup"); p.Find("main button[value=settings]").Length() != 0 || !strings.Contains(p.Find("main").Text(), "change") {
			t.Errorf("%s is offered to change settings", name)
		}
	}
}
