package reports

import (
	"bytes"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
)

// sampleChanges are changes of everything that can change, of a dog, a show and hands of this name.
func sampleChanges(name string) optimize.Changes {
	on := sample.Date(1, 4)
	at := optimize.SessionAt{On: on + 1, Start: 545, Hands: name}
	return optimize.Changes{
		From: on, Weeks: 2, PointsBefore: 10, PointsAfter: 9.25,
		Sessions:       []optimize.SessionChange{{Dog: name, Kind: optimize.SessionMoved, From: at, To: optimize.SessionAt{On: on + 7}}, {Dog: name, Kind: optimize.SessionAdded, To: at}, {Dog: name, Kind: optimize.SessionDropped, From: optimize.SessionAt{On: on + 70}}},
		Shares:         []optimize.ShareChange{{Week: on, Dog: name, Area: kennel.AreaSkirtLine, Before: 0.1}, {Week: on + 70, Dog: name, Area: kennel.AreaBack, After: 0.1}},
		Hours:          []optimize.HoursChange{{Week: on, Before: 5, After: 4, ThereBefore: 9, ThereAfter: 4}, {Week: on + 7, Before: 5, After: 5, ThereBefore: 9, ThereAfter: 9}},
		Readiness:      []optimize.ReadinessChange{{Dog: name, Show: name, On: on + 70, InBefore: true, InAfter: true, Before: 99, After: 79.9}, {Dog: name, Show: name, On: on + 80, InAfter: true, After: 50}, {Dog: name, Show: name, On: on + 90, InBefore: true, InAfter: true}},
		Dogs:           []optimize.DogChange{{Dog: name, InBefore: true, InAfter: true, Before: 5, After: 4.25}, {Dog: name, InBefore: true, Before: 5}},
		NewlyCannot:    []optimize.Cannot{{What: name, Why: name}},
		NoLongerCannot: []optimize.Cannot{{What: name, Why: name}},
	}
}

func changesOf(t *testing.T, c optimize.Changes) string {
	t.Helper()
	var b bytes.Buffer
	if err := Changes(&b, c, sample.Date(1, 4), layout.Look{}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestChangesSayWhatChangedAndWhoPays(t *testing.T) {
	c := sampleChanges("Sorrel")
	page := strings.Join(strings.Fields(changesOf(t, c)), " ")
	for _, want := range []string{
		"The season loses 0.75 points: 10.00 before, 9.25 after.",
		"moved Sorrel Tue 5 Jan 09:05 Sorrel -> week of 11 January",
		"skirt line about 1 in 10 -> none",
		"5.0 of 9.0 4.0 of 4.0",
		"Sorrel 99 79", // 79.9 is no 80
		"Sorrel - 50",
		"1 other as before",
		"Sorrel 5.00 4.25 -0.75",
		"Sorrel 5.00 - -5.00",
		"and 1 more in later weeks",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("it does not say %q:\n%s", want, page)
		}
	}
	if strings.Contains(page, "18 January") {
		t.Errorf("hours that are as before are told:\n%s", page)
	}
	var none optimize.Changes
	if page := changesOf(t, none); !strings.Contains(page, "worth the same") || !strings.Contains(page, "nobody") {
		t.Errorf("%s", page)
	}
}
