package learn

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"tuckup/kennel"
)

// lookedAt rolls a dog of a planted growth for so many weeks by a book that has 1: each week the long layers of two areas are looked at, by an eye
// that is off by a tenth, and what follows is pulled.
func lookedAt(t *testing.T, seed uint64, growth float64, weeks int) (all []Look) {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 9))
	p := builtin(t)["wire-fox-terrier"]
	book := foxTerrier(1)
	for n := range 16 {
		book.All = append(book.All, kennel.Layer{Share: 1.0 / 16, Pulled: today.AddDays(-7 * (n + 1))})
	}
	pulled := book // as the days of its pulls make it
	for week := range weeks {
		on := today.AddDays(7 * week)
		w := kennel.Work{Dog: "Sorrel", On: on}
		for _, name := range []kennel.AreaName{kennel.AreaRibs, kennel.AreaShoulder} {
			a, _ := p.Area(name)
			long := a.LongAfter(kennel.Coat{}) / growth * math.Exp(0.1*random.NormFloat64())
			var is kennel.Share
			for _, l := range pulled.LayersOf(a) {
				if float64(on-l.Pulled)/kennel.DaysAWeek >= long {
					is += l.Share
				}
			}
			h := kennel.Kennel{}.LongHair(book, p, a, nil, on)
			seen := slices.MinFunc(kennel.LongSeens(), func(x, y kennel.LongSeen) int {
				off := func(s kennel.LongSeen) float64 {
					return math.Abs(math.Log(float64(h.Seen(s))+0.01) - math.Log(float64(is)+0.01))
				}
				switch {
				case off(x) < off(y):
					return -1
				case off(x) > off(y):
					return 1
				}
				return 0
			})
			look := kennel.Look{Area: name, Long: seen, Share: h.Seen(seen)}
			all = append(all, Look{Look: look, Dog: "Sorrel", On: on, Layers: pulled.LayersOf(a)})
			w.Looks = append(w.Looks, look)
			if take := h.Take(seen, h.Week); take > 0 {
				w.Areas = append(w.Areas, kennel.Pulled{Area: name, Share: take})
			}
		}
		book = book.Worked(p, w)
		w.Looks = nil
		pulled = pulled.Worked(p, w)
	}
	return all
}

// None where a long layer was expected is slower growth, thick is faster, and a season of looks finds the growth that was planted.
func TestLooksFindThePlantedGrowth(t *testing.T) {
	held, all := 0.0, 0.0
	for _, planted := range []float64{0.8, 0.9, 1.12, 1.25} {
		for seed := range uint64(25) {
			d := fitOne(t, foxTerrier(1), Records{Looks: lookedAt(t, seed, planted, 26)})
			if d.Growth.Records == 0 || (d.Growth.Value > 1) != (planted > 1) {
				t.Errorf("growth %v was planted, learned is %+v", planted, d.Growth)
			}
			held += in(planted, d.Growth)
			all++
		}
	}
	t.Logf("%.0f of %.0f ranges hold what was planted", held, all)
	if held < 0.8*all {
		t.Errorf("only %.0f of %.0f ranges hold what was planted", held, all)
	}
	usual := 0.0
	for seed := range uint64(25) {
		d := fitOne(t, foxTerrier(1), Records{Looks: lookedAt(t, seed, 1, 26)})
		usual += in(1, d.Growth) / 25
	}
	if usual < 0.85 {
		t.Errorf("of dogs that grow as their pattern says, %.2f are found to", usual)
	}
}

// A look that bounds nothing says why, and one that agrees moves nothing.
func TestALookSaysOnlyWhatItBounds(t *testing.T) {
	at := func(share kennel.Share, weeks int) kennel.Layer {
		return kennel.Layer{Share: share, Pulled: today.AddDays(-7 * weeks)}
	}
	look := func(area kennel.AreaName, long kennel.LongSeen, share kennel.Share, layers ...kennel.Layer) Look {
		return Look{Look: kennel.Look{Area: area, Long: long, Share: share}, Dog: "Sorrel", On: today, Layers: layers}
	}
	ribs := kennel.AreaRibs
	d := fitOne(t, foxTerrier(1), Records{Looks: []Look{
		look(ribs, kennel.LongNone, 0, at(0.4, 20), at(0.5, 3)),                  // a tenth of unknown age
		look(kennel.AreaFurnishings, kennel.LongNone, 0, at(1, 20)),              // kept
		look(ribs, kennel.LongExpected, 0, at(1, 5)),                             // nothing was expected
		look(ribs, kennel.LongThick, 0.5, kennel.Layer{Share: 1, Pulled: today}), // no hair yet
	}})
	if len(d.Records) != 0 || len(d.Unused) != 4 || d.Growth.Records != 0 {
		t.Errorf("%+v", d)
	}
	for _, u := range d.Unused {
		if u.Why == "" || u.What != WhatLook {
			t.Errorf("%+v", u)
		}
	}
	for name, c := range map[string]struct {
		look Look
		side int // of 1 that the growth is found on
	}{
		"none of old hair":           {look(ribs, kennel.LongNone, 0, at(1, 22)), -1},
		"none of young hair":         {look(ribs, kennel.LongNone, 0, at(1, 8)), 0},
		"thick of young hair":        {look(ribs, kennel.LongThick, 0.5, at(1, 9)), 1},
		"thick of old hair":          {look(ribs, kennel.LongThick, 0.5, at(1, 22)), 0},
		"half of it, all of one age": {look(ribs, kennel.LongThin, 0.5, at(1, 20)), -1},
	} {
		d := fitOne(t, foxTerrier(1), Records{Looks: []Look{c.look}})
		got := 0
		if x := math.Log(d.Growth.Value); math.Abs(x) > 1e-6 {
			got = int(math.Copysign(1, x))
		}
		if got != c.side || d.Growth.Records != 1 {
			t.Errorf("%s: growth %v from %d records (%v)", name, d.Growth.Value, d.Growth.Records, d.Unused)
		}
	}
}
