package html

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"tuckup/optimize"
	"tuckup/reports"
	"tuckup/reports/desk/visit"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
)

func TestTheSheetsPageIsSoundWhateverTheNames(t *testing.T) {
	for _, who := range sample.HostileNames {
		page := writtenBy(t, Sheet, sample.Hostile(who))
		for _, wrong := range badHTML(page) {
			t.Errorf("with %q: %s", who, wrong)
		}
		if bytes.Contains(page, []byte("<script>alert")) {
			t.Errorf("%q is not escaped", who)
		}
	}
	for _, wrong := range badHTML(writtenBy(t, Sheet, optimize.Result{On: sample.Date(1, 4)})) {
		t.Errorf("without days: %s", wrong)
	}
}

func TestTheSheetsPageHasABoxForEveryTouchDutyAndBath(t *testing.T) {
	page := string(writtenBy(t, Sheet, sample.Result()))
	var text bytes.Buffer
	if err := reports.Sheet(&text, sample.Result(), layout.Look{}); err != nil {
		t.Fatal(err)
	}
	if got, want := strings.Count(page, `<span class="tick">`), strings.Count(text.String(), "[ ] "); got != want || want == 0 {
		t.Errorf("%d boxes, the text has %d", got, want)
	}
	for _, want := range []string{
		"Tuesday 5 to Monday 11 January 2027", "<time>09:00-09:43</time>", "<b>Sorrel</b>", "Brackenmere in 10 weeks", "<b>1 in 17</b>",
		"lift: back-comb with powder; pull: fingers and stone", "lifting bath, left to dry", "travel: Fallowgate Open", "no work",
		"Moss, ribs, about 1 in 20: no hours left on its days", "Cannot be met", "the vet decide",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

// What hangs on the wall is one sheet of paper, also for twelve dogs with two sessions each; a week of twice that shows
// that pages are counted.
func TestTheSheetOfTwelveDogsPrintsOnOnePage(t *testing.T) {
	twice := sample.FullWeek()
	for d := range twice.Timetable.Days {
		day := &twice.Timetable.Days[d]
		day.Hands = append(day.Hands, day.Hands...)
	}
	papers := []string{"A4", "Letter"}
	if testing.Short() {
		papers = papers[:1] // a browser starts for each
	}
	for _, c := range []struct {
		name string
		r    optimize.Result
		one  bool
	}{{"twelve dogs", sample.FullWeek(), true}, {"two dogs", sample.Result(), true}, {"twenty-four dogs", twice, false}} {
		for _, paper := range papers {
			if pages := printedPages(t, writtenBy(t, Sheet, c.r), paper); (pages == 1) != c.one || pages == 0 {
				t.Errorf("%s on %s: %d pages", c.name, paper, pages)
			}
		}
	}
}

func TestLettersAreAsLargeAsTheWorkLeavesRoomFor(t *testing.T) {
	few, many := letterSize(dayViews(sample.Result()), nil), letterSize(dayViews(sample.FullWeek()), nil)
	if few != largestLetters || many >= few || many < smallestLetters {
		t.Errorf("two dogs in %v pt, twelve in %v pt", few, many)
	}
	if notes := letterSize(dayViews(sample.Result()), strings.Split(strings.Repeat("left out,", 60), ",")); notes >= few {
		t.Errorf("sixty notes leave room for %v pt", notes)
	}
}

// printedPages is how many pages of the paper a browser prints.
func printedPages(t *testing.T, page []byte, paper string) int {
	t.Helper()
	browser := visit.Browser(t)
	dir := t.TempDir()
	file, pdf := filepath.Join(dir, "sheet.html"), filepath.Join(dir, "sheet.pdf")
	sized := bytes.Replace(page, []byte("</head>"), []byte("<style>@page { size: "+paper+"; }</style></head>"), 1)
	if err := os.WriteFile(file, sized, 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	out, err := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
		"--user-data-dir="+filepath.Join(dir, "profile"), "--print-to-pdf="+pdf, "file://"+file).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	printed, err := os.ReadFile(pdf)
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return len(regexp.MustCompile(`/Type\s*/Page\b`).FindAll(printed, -1))
}
