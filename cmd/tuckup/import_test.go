package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"
)

// calendarFile writes a calendar of n events with the rule.
func calendarFile(t *testing.T, n int, rule string) {
	t.Helper()
	var b strings.Builder
	b.WriteString("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//none//none//EN\r\n")
	for i := range n {
		fmt.Fprintf(&b, "BEGIN:VEVENT\r\nUID:%d@example\r\nDTSTAMP:20260101T000000Z\r\nSUMMARY:Show %d\r\nDTSTART;VALUE=DATE:20270102\r\nRRULE:%s\r\nEND:VEVENT\r\n", i, i, rule)
	}
	b.WriteString("END:VCALENDAR\r\n")
	if err := os.WriteFile("shows.ics", []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
}

func noBook(t *testing.T) {
	t.Helper()
	if _, err := os.Stat("fresh.db"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a book was begun: %v", err)
	}
}

// A calendar is read before the book is opened to write: one that is refused leaves no book behind.
func TestACalendarIsReadBeforeTheBookIsLocked(t *testing.T) {
	inExamples(t)
	calendarFile(t, 5000, "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30")
	code, out, said := program(context.Background(), "import", "shows.ics", "--book", "fresh.db")
	if code != codeUsage || out != "" || !strings.Contains(said, "names days that never come\nTry: ") {
		t.Errorf("code %d, wrote %q, said %q", code, out, said)
	}
	noBook(t)
}

func TestAnInterruptEndsTheReadingOfACalendar(t *testing.T) {
	inExamples(t)
	calendarFile(t, 5000, "FREQ=YEARLY")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	code, out, said := program(ctx, "import", "shows.ics", "--book", "fresh.db")
	if code != codeFailed || out != "" || said != "tuckup: stopped while \"shows.ics\" was read; nothing was changed\n" {
		t.Errorf("code %d, wrote %q, said %q", code, out, said)
	}
	noBook(t)
}
