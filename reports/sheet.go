package reports

import (
	"fmt"
	"io"
	"strings"

	"tuckup/optimize"
)

// box is what is ticked when the work is done.
const box = "[ ] "

// Sheet writes this week's work as a list to hang up: dogs in working order, the slowest areas first, with boxes to
// tick, then the duties and the cautions.
func Sheet(w io.Writer, r optimize.Result, l Look) error {
	p := newPage(w, l)
	week := thisWeek(r)
	p.strong(plain(r.Kennel.Name), "work for the week of "+longDay(week.Week))
	p.line(strings.Repeat("=", p.columns))
	if len(week.Dogs) == 0 {
		p.say(0, "", "No dog is to be pulled this week.")
	}
	for _, d := range week.Dogs {
		sheetDog(p, d)
	}
	if len(week.Duties) > 0 {
		p.heading("DUTIES", "")
		for _, d := range week.Duties {
			p.say(2, box, "%s: %s, %s (%s)", plain(d.Dog), plain(d.Name), minutesWords(d.Minutes), plain(d.Why))
		}
	}
	for i, c := range r.Cannot {
		if i == 0 {
			p.heading("CANNOT BE MET", "")
		}
		p.say(2, "- ", "%s: %s", plain(c.What), plain(c.Why))
	}
	cautionsFoot(p)
	return p.done()
}

func sheetDog(p *page, d optimize.DogWeek) {
	about := fmt.Sprintf("%s, %s with set-up", sessionsWords(d), minutesWords(d.Minutes+d.SetUp))
	if d.Why != "" {
		about += ", " + plain(d.Why)
	}
	p.heading(strings.ToUpper(plain(d.Dog)), about)
	if d.Lift != "" {
		p.say(2, "Lift: ", "%s", plain(d.Lift))
	}
	if d.Tool != "" {
		p.say(2, "Pull: ", "%s", plain(d.Tool))
	}
	t := table{right: map[int]bool{2: true}}
	for _, a := range d.Areas {
		t.add(box+plain(string(a.Area)), shareWords(a.Share), minutesWords(a.Minutes), "")
	}
	p.table(2, t)
	for range d.Sessions {
		p.line("  Done on ____________  minutes ______  left over ________________")
	}
}
