package kennel

import "testing"

func TestClockReadsWhatItWrites(t *testing.T) {
	for c := Clock(0); c <= 1440; c++ {
		back, err := ParseClock(c.String())
		if err != nil || back != c {
			t.Fatalf("%d minutes are %q and read back as %d (%v)", c, c, back, err)
		}
	}
}

func TestClockRefusesWhatIsNoTimeOfDay(t *testing.T) {
	for _, s := range []string{"", "9:05", "09:5", "09.05", "24:01", "25:00", "12:60", "-1:00", "09:05 ", "09:05x", "０９:05"} {
		if c, err := ParseClock(s); err == nil {
			t.Errorf("%q was read as %s", s, c)
		}
	}
}
