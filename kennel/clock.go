package kennel

import "fmt"

// Clock is a time of day in whole minutes after midnight, 0 to 1440, as the kennel's own clock shows it.
type Clock int

// String is the 24-hour form, like "09:05".
func (c Clock) String() string {
	return fmt.Sprintf("%02d:%02d", int(c)/minutesAnHour, int(c)%minutesAnHour)
}

// ParseClock reads a time of day like "09:05" or "24:00". The error names the value.
func ParseClock(s string) (Clock, error) {
	var h, m int
	if n, err := fmt.Sscanf(s, "%02d:%02d", &h, &m); n != 2 || err != nil || Clock(h*minutesAnHour+m).String() != s ||
		m >= minutesAnHour || h*minutesAnHour+m > minutesADay {
		return 0, fmt.Errorf("%q is not a time of day like 09:05", s)
	}
	return Clock(h*minutesAnHour + m), nil
}

const (
	minutesAnHour = 60
	minutesADay   = 24 * minutesAnHour
)
