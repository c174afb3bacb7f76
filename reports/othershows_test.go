package reports

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/reports/layout"
	"tuckup/reports/list"
	"tuckup/reports/sample"
)

// What the plan does nothing for is named in it: shows that name no dog, and shows that are over, also where a book
// left them out of what was planned.
func TestAPlanNamesTheShowsThatItIgnores(t *testing.T) {
	r := sample.Result()
	r.Kennel.Shows = []kennel.Show{
		{Name: "Nodogs", On: sample.Date(4, 20), Days: 1, Chance: 1},
		{Name: "Wrong Year", On: kennel.NewDate(2026, 3, 20), Days: 1, Chance: 1, Dogs: []string{"Moss"}},
		{Name: "Brackenmere", On: sample.Date(1, 12), Days: 1, Chance: 1, Dogs: []string{"Moss"}},
	}
	for n := range 4 {
		r.Options.Over = append(r.Options.Over, kennel.Show{Name: "Held " + string(rune('A'+n)), On: kennel.NewDate(2026, 12, 1+n), Days: 1, Chance: 1, Dogs: []string{"Moss"}})
	}
	for name, f := range map[string]textReport{"plan": Plan, "readiness": Readiness} {
		page := strings.Join(strings.Fields(pageOf(t, f, r, layout.Look{})), " ")
		for _, want := range []string{
			"Without dogs, so no dog is prepared for: Nodogs on Tue 20 Apr.",
			"Over, so not planned for: Held D on Fri 4 Dec 2026, Held C on Thu 3 Dec 2026, Held B on Wed 2 Dec 2026 and 2 more.",
		} {
			if !strings.Contains(page, want) {
				t.Errorf("%s does not say %q:\n%s", name, want, page)
			}
		}
		if strings.Contains(page, "Brackenmere on") {
			t.Errorf("%s: a show ahead with a dog is not ignored", name)
		}
	}
	var b bytes.Buffer
	if err := PlanJSON(&b, r); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Ignored []map[string]string `json:"ignored"`
	}
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	first := map[string]string{"show": "Wrong Year", "on": "2026-03-20", "why": "was 10 months ago", "likely": "2027-03-20"}
	if len(doc.Ignored) != 6 || !reflect.DeepEqual(doc.Ignored[0], first) || doc.Ignored[5]["show"] != "Nodogs" {
		t.Errorf("%v", doc.Ignored)
	}
}

func TestAPlanThatIgnoresNoShowSaysNothingOfIt(t *testing.T) {
	r := sample.Result()
	r.Kennel.Shows = []kennel.Show{{Name: "Brackenmere", On: sample.Date(3, 20), Days: 1, Chance: 1, Dogs: []string{"Moss"}}}
	if page := pageOf(t, Plan, r, layout.Look{}); strings.Contains(page, "Without dogs") || strings.Contains(page, "Over, so") {
		t.Errorf("%s", page)
	}
}

func TestTheListOfShowsMarksThoseThatAreOdd(t *testing.T) {
	var text, doc bytes.Buffer
	k := kennel.Kennel{Shows: []kennel.Show{
		{Name: "Nodogs", On: sample.Date(4, 20), Days: 1, Chance: 1, Weight: 1},
		{Name: "Wrong Year", On: kennel.NewDate(2026, 3, 20), Days: 1, Chance: 1, Weight: 1, Dogs: []string{"Moss"}},
		{Name: "Brackenmere", On: sample.Date(3, 20), Days: 1, Chance: 1, Weight: 1, Dogs: []string{"Moss"}},
	}}
	if err := list.Shows(&text, k, sample.Date(1, 5), layout.Look{}); err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{"Wrong Year entered weight 1 over; Moss\n", "Nodogs entered weight 1 no dogs\n", "Brackenmere entered weight 1 Moss\n"} {
		if !strings.Contains(strings.Join(strings.Fields(text.String()), " ")+"\n", strings.TrimSuffix(line, "\n")) {
			t.Errorf("%q is not in\n%s", line, text.String())
		}
	}
	if err := list.ShowsJSON(&doc, k, sample.Date(1, 5)); err != nil {
		t.Fatal(err)
	}
	if s := doc.String(); strings.Count(s, `"odd"`) != 2 || !strings.Contains(s, `"odd": "was 10 months ago"`) || !strings.Contains(s, `"odd": "names no dog, so no dog is prepared for it"`) {
		t.Errorf("%s", s)
	}
}

func TestADogTooYoungForAShowIsNamed(t *testing.T) {
	r := sample.Result()
	r.Kennel.Dogs[0].Born = sample.Date(1, 20)
	name := r.Kennel.Dogs[0].Name
	r.Kennel.Shows = []kennel.Show{{Name: "Brackenmere", On: sample.Date(6, 30), Days: 1, Chance: 1, Dogs: []string{name}}}
	want := "Brackenmere: " + name + " is 5 months old on the day; UK schedules don't take puppies under six months: see the governing body's rules."
	for report, f := range map[string]textReport{"plan": Plan, "readiness": Readiness} {
		if page := strings.Join(strings.Fields(pageOf(t, f, r, layout.Look{})), " "); !strings.Contains(page, want) {
			t.Errorf("%s does not say %q:\n%s", report, want, page)
		}
	}
	var b bytes.Buffer
	if err := PlanJSON(&b, r); err != nil {
		t.Fatal(err)
	}
	var doc struct {
		TooYoung []map[string]string `json:"too_young"`
	}
	if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
		t.Fatal(err)
	}
	if len(doc.TooYoung) != 1 || doc.TooYoung[0]["dog"] != name || doc.TooYoung[0]["from"] != "2027-07-20" {
		t.Errorf("%v", doc.TooYoung)
	}
	r.Kennel.Shows[0].On = sample.Date(7, 20)
	if page := strings.Join(strings.Fields(pageOf(t, Plan, r, layout.Look{})), " "); strings.Contains(page, "months old on the day") {
		t.Errorf("six months old, and named:\n%s", page)
	}
}
