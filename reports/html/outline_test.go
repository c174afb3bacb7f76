package html

import (
	"bytes"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/reports/sample"
)

// What is wanted of an area is beside it on the sheet and on the dog's page, as words and not as markup.
func TestAnOutlineIsBesideItsAreaOnPages(t *testing.T) {
	r := sample.Pictured(sample.Result())
	r.Kennel = r.Kennel.Clone()
	for _, a := range kennel.AreaNames() {
		r.Kennel.Dogs[0].SetOutline(kennel.Outline{Area: a, Note: "leave <b>it", Least: 30})
	}
	var sheet, dog bytes.Buffer
	if err := Sheet(&sheet, r); err != nil {
		t.Fatal(err)
	}
	if err := Dog(&dog, r, r.Kennel.Dogs[0].Name, Records{}); err != nil {
		t.Fatal(err)
	}
	for name, page := range map[string]string{"sheet": sheet.String(), "dog": dog.String()} {
		if !strings.Contains(page, "leave &lt;b&gt;it, not under 30 mm") {
			t.Errorf("the %s has no outline", name)
		}
		if wrong := badHTML([]byte(page)); len(wrong) > 0 {
			t.Errorf("the %s: %s", name, strings.Join(wrong, "; "))
		}
	}
}
