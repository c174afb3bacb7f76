package calendar

import (
	"strings"
	"time"
	"unicode"

	ics "github.com/arran4/golang-ical"

	"tuckup/kennel"
)

// alarmBefore is two days before at nine in the morning, counted from the midnight at which the day begins.
const alarmBefore = "-PT39H"

// event is the entry under its name, without SEQUENCE and stamp.
func (e entry) event(uid, zone string) *ics.VEvent {
	v := ics.NewEvent(uid)
	v.SetProperty(ics.ComponentPropertyDtStart, e.from.words(e.wholeDay), e.place(zone)...)
	v.SetProperty(ics.ComponentPropertyDtEnd, e.to.words(e.wholeDay), e.place(zone)...)
	v.SetSummary(text(e.summary))
	if len(e.says) > 0 {
		v.SetDescription(text(strings.Join(e.says, "\n")))
	}
	v.AddProperty(ics.ComponentPropertyCategories, e.slot.kind)
	v.SetStatus(ics.ObjectStatusConfirmed)
	if e.hopedFor {
		v.SetStatus(ics.ObjectStatusTentative)
	}
	v.SetTimeTransparency(ics.TransparencyOpaque)
	if e.slot.kind == slotEntries {
		v.SetTimeTransparency(ics.TransparencyTransparent)
	}
	if e.alarm != "" {
		a := v.AddAlarm()
		a.SetAction(ics.ActionDisplay)
		a.SetProperty(ics.ComponentPropertyDescription, text(e.alarm))
		a.SetTrigger(alarmBefore)
	}
	return v
}

// place says how a time is to be read: as a day, in the kennel's zone, or by the clock on the wall.
func (e entry) place(zone string) []ics.PropertyParameter {
	switch {
	case e.wholeDay:
		return []ics.PropertyParameter{ics.WithValue(string(ics.ValueDataTypeDate))}
	case zone != "":
		return []ics.PropertyParameter{ics.WithTZID(zone)}
	}
	return nil
}

const (
	dayLayout   = "20060102"
	timeLayout  = "20060102T150405"
	stampLayout = "20060102T150405Z"
)

func (m moment) words(wholeDay bool) string {
	if wholeDay {
		return m.on.Time().Format(dayLayout)
	}
	return m.on.Time().Add(time.Duration(m.at) * time.Minute).Format(timeLayout)
}

// momentOf reads a time as an event carries it.
func momentOf(p *ics.IANAProperty) (moment, bool) {
	if p == nil {
		return moment{}, false
	}
	t, err := time.Parse(timeLayout, strings.TrimSuffix(p.Value, "Z"))
	if err != nil {
		t, err = time.Parse(dayLayout, p.Value)
	}
	return moment{kennel.DateOf(t), kennel.Clock(t.Hour()*kennel.MinutesAnHour + t.Minute())}, err == nil
}

// text is a text that a calendar may hold (RFC 5545, 3.3.11): line ends become single line feeds, which the
// writer escapes; other control characters and those that turn a line round become a middle dot. A name may have
// signs, emoji and letters of any script.
func text(s string) string {
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n", "\t", " ").Replace(strings.ToValidUTF8(s, "\uFFFD"))
	return strings.Map(func(r rune) rune {
		if r != '\n' && unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Bidi_Control, r) {
			return '·'
		}
		return r
	}, s)
}
