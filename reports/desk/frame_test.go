package desk

import (
	"strings"
	"testing"
)

// A page's template is read when it is first asked for: each of them can be, and is read once.
func TestEveryPageIsReadWithItsFrame(t *testing.T) {
	files, err := pageFiles.ReadDir("pages")
	if err != nil || len(files) < 10 {
		t.Fatal(files, err)
	}
	pages := loadPages(func() (string, error) { return "", nil })
	for _, f := range files {
		name := strings.TrimSuffix(f.Name(), ".html")
		if name == "frame" || name == "parts" || name == "steps" {
			continue
		}
		p := pages(name)
		for _, part := range []string{"frame", "page"} {
			if p.Lookup(part) == nil {
				t.Errorf("the page %s has no %s", name, part)
			}
		}
		if pages(name) != p {
			t.Errorf("the page %s is read again", name)
		}
	}
}
