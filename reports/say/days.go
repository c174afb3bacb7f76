package say

import (
	"fmt"
	"strings"

	"tuckup/kennel"
	"tuckup/optimize"
)

// Start is what to do before anything else.
func Start(t optimize.Timetable, today kennel.Date) string {
	for _, d := range t.Days {
		on, item, ok := firstItem(d)
		if !ok {
			continue
		}
		words := fmt.Sprintf("Start with %s at %s: %s", Day(d.On, today), item.Start, Plain(Item(item)))
		if areas := Touches(item.Areas); len(areas) > 0 {
			a := areas[0]
			words += fmt.Sprintf(", %s, %s, %s", Plain(string(a.Area)), kennel.ShareWords(a.Share), Minutes(a.Minutes))
		}
		if len(d.Hands) > 1 {
			words += " (" + Plain(on) + ")"
		}
		return words + "."
	}
	return "There is no work on these days."
}

// Early says that days begin sooner than the setting asks for, so that they end by nine in the evening; empty where they need not.
func Early(r optimize.Result) string {
	begins := kennel.Clock(float64(r.Options.DayStart) * kennel.MinutesAnHour)
	for _, d := range r.Timetable.Days {
		for _, h := range d.Hands {
			for _, i := range h.Items {
				if i.Dog != "" && !i.Pinned && i.Start < begins {
					return "Days begin before " + begins.String() + ", so that they end by 21:00."
				}
			}
		}
	}
	return ""
}

// firstItem is a day's first work on a dog, and whose it is.
func firstItem(d optimize.Day) (hands string, first optimize.Item, ok bool) {
	for _, h := range d.Hands {
		for _, i := range h.Shown() {
			if i.Dog != "" && (!ok || i.Start < first.Start) {
				hands, first, ok = h.Hands, i, true
			}
		}
	}
	return hands, first, ok
}

// Days names the days of the sheet: "Monday 4 to Sunday 10 January 2027".
func Days(r optimize.Result) string {
	days := r.Timetable.Days
	if len(days) == 0 {
		return LongDay(r.On)
	}
	first, last := days[0].On, days[len(days)-1].On
	if first == last {
		return LongDay(first)
	}
	layout := "Monday 2"
	switch {
	case first.Time().Year() != last.Time().Year():
		layout = "Monday 2 January 2006"
	case first.Time().Month() != last.Time().Month():
		layout = "Monday 2 January"
	}
	return first.Time().Format(layout) + " to " + LongDay(last)
}

// Clock is when a stretch of a day is.
func Clock(i optimize.Item) string {
	if i.Start == 0 && i.End == kennel.DayEnd {
		return "all day"
	}
	return i.Start.String() + "-" + i.End.String()
}

// Item is what a stretch of a day is, without its reason.
func Item(i optimize.Item) string {
	switch i.Kind {
	case optimize.ItemSession:
		return i.Dog
	case optimize.ItemDuty:
		return i.Dog + ": " + i.What
	case optimize.ItemBath:
		return i.Dog + ": lifting bath, left to dry"
	case optimize.ItemTravel:
		return "travel: " + i.What
	}
	return string(i.Kind)
}

// Reason is why a stretch of a day is there, in brackets, and whether the handler chose it.
func Reason(i optimize.Item) string {
	var parts []string
	if i.Why != "" {
		parts = append(parts, Plain(i.Why))
	}
	if i.Pinned {
		parts = append(parts, "your own choice, not moved")
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, "; ") + ")"
}

// How is how a session's hair is made to stand up and what it is pulled with.
func How(i optimize.Item) string {
	words := Minutes(i.SetUp) + " set-up"
	if i.Lift != "" {
		words += "; lift: " + Plain(i.Lift)
	}
	if i.Tool != "" {
		words += "; pull: " + Plain(i.Tool)
	}
	return words
}

// Rest is what is said of the day's n-th item where it is the rest of a session that a break has cut: "again", with the area that the
// break fell in; empty where it is not.
func Rest(h optimize.HandsDay, n int) string {
	switch {
	case !h.GoesOn(n):
		return ""
	case len(h.Items[n].Areas) == 0:
		return "again"
	}
	first := h.Items[n].Areas[0].Area
	for _, a := range h.Shown()[n].Areas {
		if a.Area == first {
			return "again"
		}
	}
	return "again, first the rest of the " + Plain(string(first))
}

// Touches are the areas that are more than a few hairs.
func Touches(areas []optimize.AreaWork) (all []optimize.AreaWork) {
	for _, a := range areas {
		if !a.Few {
			all = append(all, a)
		}
	}
	return all
}

// Few says on which areas only a few hairs are to be pulled: "withers: a few hairs"; empty where there are none.
func Few(areas []optimize.AreaWork) string {
	var names []string
	for _, a := range areas {
		if a.Few {
			names = append(names, Plain(string(a.Area)))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return strings.Join(names, ", ") + ": a few hairs"
}

// LeftOut says what a day could not hold, and why.
func LeftOut(l optimize.LeftOut) string {
	what := Plain(l.Dog) + ", " + Plain(l.Duty)
	if l.Area != "" {
		what = Plain(l.Dog) + ", " + Plain(string(l.Area)) + ", " + kennel.ShareWords(l.Share)
	}
	return what + ": " + Plain(l.Why)
}

// Session is when a session is: to the minute where it is known, else its week.
func Session(s optimize.SessionAt, today kennel.Date) string {
	if s.Hands == "" {
		return "week of " + Week(s.On, today)
	}
	return Day(s.On, today) + " " + s.Start.String() + " " + Plain(s.Hands)
}

// Busy are those who have something on a day.
func Busy(d optimize.Day) (hands []optimize.HandsDay) {
	for _, h := range d.Hands {
		if len(h.Items) > 0 {
			hands = append(hands, h)
		}
	}
	return hands
}

// DayWork says how much work hands have on a day: "2 sessions, 2 h 20".
func DayWork(h optimize.HandsDay) string {
	sessions, busy := 0, kennel.Clock(0)
	for n, i := range h.Items {
		if i.Kind == optimize.ItemSession && !h.GoesOn(n) {
			sessions++
		}
		if i.Dog != "" {
			busy += i.End - i.Start
		}
	}
	if busy == 0 {
		return "away"
	}
	time := fmt.Sprintf("%d min", busy)
	if busy >= kennel.MinutesAnHour {
		time = fmt.Sprintf("%d h %02d", busy/kennel.MinutesAnHour, busy%kennel.MinutesAnHour)
	}
	if sessions == 0 {
		return time
	}
	return Plural(sessions, "session") + ", " + time
}

// Work says what was done in one stretch of work.
func Work(w kennel.Work) string {
	parts := make([]string, 0, len(w.Areas)+1)
	if w.Duty != "" {
		parts = append(parts, w.Duty)
	}
	for _, a := range w.Areas {
		parts = append(parts, string(a.Area)+" "+kennel.ShareWords(a.Share))
	}
	words := strings.Join(parts, ", ")
	if words == "" {
		words = "session"
	}
	if len(w.Looks) > 0 {
		words += "; long layer seen: " + Looks(w.Looks)
	}
	if w.Stopped {
		words += " (stopped early)"
	}
	return words
}

// Looks says how long layers were seen: "ribs none, back thin".
func Looks(looks []kennel.Look) string {
	parts := make([]string, len(looks))
	for i, x := range looks {
		parts[i] = string(x.Area) + " " + string(x.Long)
	}
	return strings.Join(parts, ", ")
}

// Take says what share to take where another was planned: "leave it", "take about 1 in 35 instead of about 1 in 17".
func Take(planned, share kennel.Share) string {
	is, was := kennel.ShareWords(share), kennel.ShareWords(planned)
	switch {
	case share == 0:
		return "leave it"
	case is == was:
		return "take " + is + ", as planned"
	}
	return "take " + is + " instead of " + was
}

// Due says when a duty is due, and when it was last done where that was given: "every 2 weeks, last done 2027-01-04".
func Due(d kennel.Duty) string {
	when := "as its pattern says"
	switch {
	case d.LeaveOut && !d.Timed():
		when = ""
	case d.Before != nil:
		when = fmt.Sprintf("%d to %d days before a show", d.Before.From, d.Before.To)
	case d.Every > 0:
		when = "every " + Plural(int(d.Every), "week")
	}
	if d.LeaveOut {
		when = strings.TrimPrefix(when+", left out", ", ")
	}
	if d.Work != "" {
		when += ", by hands that do " + string(d.Work)
	}
	if d.Done != 0 {
		when += ", last done " + d.Done.String()
	}
	return when
}
