package desk

import (
	"net/http"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"

	"tuckup/kennel"
	"tuckup/reports/help"
)

func TestThePagesOfHelpAreShownInTheDesk(t *testing.T) {
	r := opened(t)
	p := r.get(helpPath)
	for _, x := range help.Pages(r.desk.opt.Patterns) {
		if p.Find("main a[href='/help/"+x.Name+"']").Length() != 1 {
			t.Errorf("nothing leads to %s", x.Name)
		}
		on := r.get("/help/" + x.Name)
		on.says("h1", x.Title)
		for _, part := range x.Parts {
			on.says("main", strings.Join(strings.Fields(part.Lines[0]), " "))
		}
	}
	if p := r.ask(http.MethodGet, "/help/none", nil); p.status != http.StatusNotFound {
		t.Errorf("a page that is not there: %d", p.status)
	}
}

// Beside each line of the sheet is the figure behind it, as the pattern has it, with its source and mark.
func TestEachLineOfTheSheetSaysWhy(t *testing.T) {
	r := opened(t)
	p := r.get(whyPath)
	lines := 0
	for _, day := range r.use().days(r.day) {
		for _, h := range day.Hands {
			for _, i := range h.Items {
				lines += len(i.Areas)
			}
		}
	}
	if got := p.Find(".why-lines > li").Length(); got == 0 || got != lines {
		t.Errorf("%d lines of %d say why", got, lines)
	}
	if n := p.Find(".why-lines > li > details li").Length(); n != 5*lines {
		t.Errorf("%d figures behind %d lines", n, lines)
	}
	a, _ := r.desk.opt.Patterns["border-terrier"].Area(kennel.AreaSkirtLine)
	line := p.Find(".why-lines > li").FilterFunction(func(_ int, s *goquery.Selection) bool { return s.Find("b").Text() == "skirt line" }).Last()
	text := strings.Join(strings.Fields(line.Text()), " ")
	for _, want := range []string{"long enough to show " + kennel.Number(a.Ready.Value) + " weeks after the pull", a.Ready.Source, string(a.Ready.Mark)} {
		if want == "" || !strings.Contains(p.Find("main").Text(), want) {
			t.Errorf("%q is not said beside: %s", want, text)
		}
	}
	open(t, kennel.Kennel{}).get(whyPath).says("main", "There is no plan yet")
}
