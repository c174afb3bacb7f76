package book

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"tuckup/kennel"
)

// bigBook is a string of so many dogs with layers on every area and so many sessions of work each.
func bigBook(b *testing.B, dogs, sessions int) *Book {
	b.Helper()
	k := open(b, filepath.Join(b.TempDir(), "book.db"), options())
	_, err := k.Change(context.Background(), AnyVersion, "moved in", func(s *State) error {
		*s = later(len(migrations()))
		one := s.Kennel.Dogs[0]
		for d := range dogs - len(s.Kennel.Dogs) {
			dog := one
			dog.Name, dog.Areas = fmt.Sprint("Dog ", d), nil
			for _, a := range kennel.AreaNames()[:8] {
				layers := make([]kennel.Layer, 6)
				for i := range layers {
					layers[i] = kennel.Layer{Share: 1.0 / 7, Pulled: kennel.NewDate(2026, 9, 1+14*i)}
				}
				dog.Areas = append(dog.Areas, kennel.AreaCoat{Area: a, Layers: layers})
			}
			s.Kennel.Dogs = append(s.Kennel.Dogs, dog)
			for n := range sessions {
				w := kennel.Work{Dog: dog.Name, On: kennel.NewDate(2027, 1, 5+4*n), Hands: "Handler", Minutes: 50}
				for _, a := range kennel.AreaNames()[:6] {
					w.Areas = append(w.Areas, kennel.Pulled{Area: a, Share: 0.05})
				}
				s.Work = append(s.Work, Work{Work: w})
			}
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	return k
}

func BenchmarkRead(b *testing.B) {
	for _, sessions := range []int{0, 100, 300} {
		b.Run(fmt.Sprintf("60 dogs, %d sessions each", sessions), func(b *testing.B) {
			k := bigBook(b, 60, sessions)
			for b.Loop() {
				if _, _, err := k.Read(context.Background()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkCheck(b *testing.B) {
	k := bigBook(b, 60, 100)
	for b.Loop() {
		if wrong, err := k.Check(context.Background()); err != nil || len(wrong) > 0 {
			b.Fatal(wrong, err)
		}
	}
}

// What the first change of a day takes longer than the others.
func BenchmarkDayCopy(b *testing.B) {
	k := bigBook(b, 60, 100)
	for n := 0; b.Loop(); n++ {
		k.opt.Now = func() time.Time { return noon.AddDate(0, 0, n) }
		if err := (&dayCopy{book: k}).make(context.Background(), 1); err != nil {
			b.Fatal(err)
		}
	}
}
