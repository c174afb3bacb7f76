package desk

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"sync"
	"testing"
	"time"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// longString is a string of so many dogs with a season of shows and four pairs of hands.
func longString(dogs int) kennel.Kennel {
	small := twoDogs()
	k := kennel.Kennel{Name: "Thornfield", Weeks: 26, Units: kennel.UnitsMillimetres}
	for h := range 4 {
		k.Hands = append(k.Hands, kennel.Hands{Name: fmt.Sprintf("Hands %d", h+1), Hours: [kennel.DaysAWeek]kennel.Hours{6, 6, 6, 6, 6}})
	}
	for n := range dogs {
		d := small.Dogs[n%2]
		d.Name = fmt.Sprintf("Dog %02d", n+1)
		k.Dogs = append(k.Dogs, d)
	}
	for s := range 20 {
		show := kennel.Show{Name: fmt.Sprintf("Show %d", s+1), On: monday.AddDays(19 + 7*s), Days: 1, Weight: 1, Chance: 1}
		for n := range 6 {
			show.Dogs = append(show.Dogs, k.Dogs[(s*6+n)%dogs].Name)
		}
		k.Shows = append(k.Shows, show)
	}
	return k
}

// ofSixty is a desk with a plan for sixty dogs: the best that a search of a second finds, for what is measured is the page.
func ofSixty(b *testing.B) *room {
	b.Helper()
	r := open(b, longString(60))
	time.AfterFunc(time.Second, r.desk.plans.stop)
	r.planned()
	if r.use() == nil {
		b.Fatal("no plan")
	}
	for n := range 60 { // a season of records
		dog := fmt.Sprintf("Dog %02d", n+1)
		r.change(func(s *book.State) {
			for w := range 20 {
				s.Record(kennel.Work{Dog: dog, On: monday.AddDays(-7 * w), Hands: "Hands 1", Minutes: 40, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 0.05}}})
			}
		})
	}
	return r
}

var everyPage = []string{
	"/", "/today", "/week", "/string", "/dogs/Dog%2007", "/shows", "/hours", "/workload", "/history", "/copies", "/plan", "/work?dog=Dog+07", "/setup", "/papers", "/account", "/why",
}

// everyPaper is what is drawn from a plan to be printed.
var everyPaper = []string{"/papers/sheet.html", "/papers/season.html", "/papers/readiness.html", "/papers/workload.html"}

// BenchmarkPages is how long the server takes for each page of a string of sixty, as it is anyway and with the dates in another order; it
// must stay under 100 ms.
func BenchmarkPages(b *testing.B) {
	r := ofSixty(b)
	r.measure(b, everyPage)
	r.change(func(s *book.State) { s.Kennel.Dates = kennel.MonthFirst })
	b.Run("month first", func(b *testing.B) { r.measure(b, everyPage) })
}

// BenchmarkPapers is how long each paper of a string of sixty takes.
func BenchmarkPapers(b *testing.B) { ofSixty(b).measure(b, everyPaper) }

func (r *room) measure(b *testing.B, paths []string) {
	b.Helper()
	for _, path := range paths {
		b.Run(path, func(b *testing.B) {
			for b.Loop() {
				w := httptest.NewRecorder()
				r.desk.ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
				if w.Code != http.StatusOK {
					b.Fatal(w.Code)
				}
				b.ReportMetric(float64(w.Body.Len())/1024, "KiB")
			}
		})
	}
}

// BenchmarkLoad is the 95th percentile of the pages of a string of sixty with 20 readers and 2 writers, who leave a little
// time between two pages as people do.
func BenchmarkLoad(b *testing.B) {
	r := ofSixty(b)
	const readers, writers, each = 20, 2, 15
	for b.Loop() {
		var mu sync.Mutex
		var took []time.Duration
		var all sync.WaitGroup
		for n := range readers {
			all.Go(func() {
				for i := range each {
					path := everyPage[(n+i)%len(everyPage)]
					w := httptest.NewRecorder()
					start := time.Now()
					r.desk.ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
					mu.Lock()
					took = append(took, time.Since(start))
					mu.Unlock()
					if w.Code != http.StatusOK {
						b.Errorf("%s: %d", path, w.Code)
					}
					time.Sleep(200 * time.Millisecond)
				}
			})
		}
		for n := range writers {
			all.Go(func() {
				for range each {
					dog := fmt.Sprintf("Dog %02d", n+1)
					_, err := r.book.Change(context.Background(), book.AnyVersion, "a duty", func(s *book.State) error {
						s.Record(kennel.Work{Dog: dog, On: monday, Hands: "Hands 1", Minutes: 10, Duty: "nails"})
						return nil
					})
					if err != nil {
						b.Error(err)
					}
					time.Sleep(200 * time.Millisecond)
				}
			})
		}
		all.Wait()
		r.desk.plans.stop()
		b.ReportMetric(float64(percentile(took, 95).Milliseconds()), "ms-p95")
		b.ReportMetric(float64(percentile(took, 100).Milliseconds()), "ms-most")
	}
}

func percentile(all []time.Duration, p int) time.Duration {
	sorted := append([]time.Duration(nil), all...)
	for i := range sorted {
		for j := i; j > 0 && sorted[j] < sorted[j-1]; j-- {
			sorted[j], sorted[j-1] = sorted[j-1], sorted[j]
		}
	}
	return sorted[(len(sorted)-1)*p/100]
}

// BenchmarkBoardAnew is the board of sixty dogs when nothing of it was drawn before, as after each change of the book.
func BenchmarkBoardAnew(b *testing.B) {
	r := ofSixty(b)
	r.get("/")
	for b.Loop() {
		r.use().views.board = nil
		r.desk.ServeHTTP(httptest.NewRecorder(), httptest.NewRequest(http.MethodGet, "/", nil))
	}
}
