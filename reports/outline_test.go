package reports

import (
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
)

// outlined is a plan in which something is wanted of every area of every dog.
func outlined() optimize.Result {
	r := sample.Result()
	r.Kennel = r.Kennel.Clone()
	for i := range r.Kennel.Dogs {
		for _, a := range kennel.AreaNames() {
			r.Kennel.Dogs[i].SetOutline(kennel.Outline{Area: a, Note: "leave it here", Least: 30})
		}
	}
	return r
}

// What is wanted of an area is beside it in the plan and on the sheet.
func TestAnOutlineIsBesideItsArea(t *testing.T) {
	for name, page := range map[string]string{
		"plan": pageOf(t, Plan, outlined(), layout.Look{}), "sheet": pageOf(t, Sheet, outlined(), layout.Look{}),
	} {
		areas := 0
		for line := range strings.Lines(page) {
			if strings.Contains(line, "skirt line ") && strings.Contains(line, " min ") {
				areas++
				if !strings.Contains(line, "leave it here, not under 30 mm") {
					t.Errorf("%s: %q", name, line)
				}
			}
		}
		if areas == 0 {
			t.Errorf("%s: no area is to be seen", name)
		}
	}
}
