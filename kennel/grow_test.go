package kennel

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// What is said at any length takes memory that grows as its length does.
func TestReadingGrowsAsWhatIsSaidDoes(t *testing.T) {
	const length, most = 1000, 2.6 // twice the length, and a little for what is rounded up
	for name, f := range map[string]func(n int) error{
		"work": func(n int) error {
			_, err := ParseWork([]string{strings.Repeat("sorrel ", n)}, []string{"Sorrel", "Old Sorrel"})
			return err
		},
		"shares": func(n int) error {
			_, err := ParseWork([]string{"sorrel " + strings.Repeat("back 1 in 17, ", n)}, []string{"Sorrel"})
			return err
		},
		"an area": func(n int) error { _, err := ParsePulled([]string{strings.Repeat("skirt ", n)}); return err },
		"layers":  func(n int) error { _, err := ParseLayers([]string{strings.Repeat("0.1 9 March 2026 ", n)}); return err },
		"hours":   func(n int) error { _, err := ParseHours([]string{"mon 2h " + strings.Repeat("tue=2 ", n)}); return err },
		"a duty":  func(n int) error { _, err := ParseDuty(strings.Repeat("nails ", n) + "10 every 2w"); return err },
		"a date":  func(n int) error { _, err := ParseDay(strings.Repeat("March ", n)); return err },
		"a length": func(n int) error {
			_, err := ParseLength(strings.Repeat("3", 300*n)+"mm", UnitsMillimetres)
			return err
		},
		"a name": func(n int) error {
			_, err := Match("dog", strings.Repeat("x", n), []string{strings.Repeat("y", n), strings.Repeat("z", n), "Moss"})
			return err
		},
		"the checks": func(n int) error { return Check(manyNames(n), nil) },
	} {
		takes := func(n int) float64 {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			if err := f(n); err != nil && len(err.Error()) > 700*n {
				t.Errorf("%s: an error of %d letters", name, len(err.Error()))
			}
			runtime.ReadMemStats(&after)
			return float64(after.TotalAlloc - before.TotalAlloc)
		}
		takes(length) // what is made once
		if once, twice := takes(length), takes(2*length); twice > most*once {
			t.Errorf("%s: %.0f bytes for %d, %.0f for twice as many", name, once, length, twice)
		}
	}
}

// manyNames is a kennel of many dogs, and a show with as many that it does not have.
func manyNames(n int) (k Kennel) {
	k.Shows = []Show{{Name: "Show", On: 20000, Days: 1, Weight: 1, Chance: 1}}
	for i := range n {
		k.Dogs = append(k.Dogs, Dog{Name: fmt.Sprintf("Dog %d", i)})
		k.Shows[0].Dogs = append(k.Shows[0].Dogs, fmt.Sprintf("Other %d", i))
	}
	return k
}
