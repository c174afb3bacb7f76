package html

import (
	"bytes"
	"html"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/reports/sample"
)

func TestADogTooYoungForAShowIsNamedOnThePage(t *testing.T) {
	r := sample.Result()
	r.Kennel.Dogs[0].Born = sample.Date(1, 20)
	r.Kennel.Shows = []kennel.Show{{Name: "Brackenmere", On: sample.Date(6, 30), Days: 1, Chance: 1, Dogs: []string{r.Kennel.Dogs[0].Name}}}
	for on, want := range map[kennel.Date]bool{sample.Date(7, 19): true, sample.Date(7, 20): false} {
		r.Kennel.Shows[0].On = on
		var b bytes.Buffer
		if err := Readiness(&b, r); err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(html.UnescapeString(b.String()), "is 5 months old on the day; UK schedules don't take puppies under six months"); got != want {
			t.Errorf("%s: named %v, want %v", on, got, want)
		}
	}
}
