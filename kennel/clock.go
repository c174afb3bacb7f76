package kennel

import (
	"fmt"
	"strconv"
)

// Clock is a time of day in whole minutes after midnight, 0 to 1440, as the kennel's own clock shows it.
type Clock int

// String is the 24-hour form, like "09:05".
func (c Clock) String() string {
	return fmt.Sprintf("%02d:%02d", int(c)/MinutesAnHour, int(c)%MinutesAnHour)
}

// ParseClock reads a time of day like "09:05" or "24:00". The error names the value.
func ParseClock(s string) (Clock, error) {
	if len(s) == len("09:05") {
		h, errH := strconv.Atoi(s[:2])
		m, errM := strconv.Atoi(s[3:])
		c := Clock(h*MinutesAnHour + m)
		if errH == nil && errM == nil && c >= 0 && c <= minutesADay && c.String() == s {
			return c, nil
		}
	}
	return 0, fmt.Errorf("%q is not a time of day like 09:05", s)
}

// DayEnd is the end of a day, 24:00.
const DayEnd Clock = minutesADay

// MinutesAnHour turns hours into minutes.
const MinutesAnHour = 60

const minutesADay = 24 * MinutesAnHour
