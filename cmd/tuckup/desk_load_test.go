package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"tuckup/kennel/text"
	"tuckup/testdata/demo"
)

// The load that the desk is held to: more readers than a kennel has people, on more dogs than one handler has.
const (
	loadDogs    = 60
	loadReaders = 20
	loadWriters = 2
	loadLasts   = 8 * time.Second
	loadPause   = 250 * time.Millisecond // nobody opens more than four pages a second
)

// largeString writes a kennel file of n dogs: those of the demo again and again, with as many hands for them.
func largeString(t testing.TB, most int) (file string) {
	t.Helper()
	k, _, err := text.Read(demoName, demo.Kennel)
	if err != nil {
		t.Fatal(err)
	}
	dogs, hands := slices.Clone(k.Dogs), slices.Clone(k.Hands)
	for round := 2; len(k.Dogs) < most; round++ {
		for _, h := range hands {
			h.Name = fmt.Sprintf("%s %d", h.Name, round)
			k.Hands = append(k.Hands, h)
		}
		for _, d := range dogs[:min(len(dogs), most-len(k.Dogs))] {
			was := d.Name
			d.Name = fmt.Sprintf("%s %d", d.Name, round)
			k.Dogs = append(k.Dogs, d)
			for i := range k.Shows {
				if slices.Contains(k.Shows[i].Dogs, was) {
					k.Shows[i].Dogs = append(slices.Clone(k.Shows[i].Dogs), d.Name)
				}
			}
		}
	}
	data, err := text.Write(k)
	if err != nil {
		t.Fatal(err)
	}
	file = filepath.Join(t.TempDir(), "large.yaml")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// largeDesk is a desk on a book of n dogs, whose plan is what a search of the given seconds finds.
func largeDesk(t testing.TB, dogs int, seconds string) *served {
	t.Helper()
	file := largeString(t, dogs)
	book := filepath.Join(filepath.Dir(file), "book.db")
	if code, _, said := program(context.Background(), "import", file, "--book", book, "--today", "2027-01-04"); code != codeDone {
		t.Fatal(said)
	}
	return serveDesk(t, "--book", book, "--today", "2027-01-04", "--time-limit", seconds)
}

// tries are how long requests took, and what their answers were.
type tries struct {
	mu       sync.Mutex
	took     []time.Duration
	statuses map[int]int
}

func (x *tries) add(took time.Duration, status int) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.statuses == nil {
		x.statuses = map[int]int{}
	}
	x.took = append(x.took, took)
	x.statuses[status]++
}

// within is the time that the share of the requests took at most, in milliseconds.
func (x *tries) within(share float64) float64 {
	slices.SortFunc(x.took, cmp.Compare)
	return float64(x.took[int(share*float64(len(x.took)-1))].Microseconds()) / 1000
}

// get opens a page as a browser does, and returns it.
func (s *served) get(path string) (status int, page string, err error) {
	resp, err := http.Get(s.base + path)
	if err != nil {
		return 0, "", err
	}
	defer resp.Body.Close()
	b, err := io.ReadAll(resp.Body)
	return resp.StatusCode, string(b), err
}

// post sends a form as a browser does, and does not follow where it leads.
func (s *served) post(path string, form url.Values) (status int, err error) {
	r, err := http.NewRequest(http.MethodPost, s.base+path, strings.NewReader(form.Encode()))
	if err != nil {
		return 0, err
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	r.Header.Set("Origin", s.base)
	resp, err := http.DefaultTransport.RoundTrip(r)
	if err != nil {
		return 0, err
	}
	defer resp.Body.Close()
	_, err = io.Copy(io.Discard, resp.Body)
	return resp.StatusCode, err
}

var versionField = regexp.MustCompile(`name="version" value="(\d+)"`)

// BenchmarkDeskUnderLoad measures how long pages take while many read and some write; every write has a plan made anew
// behind it. It prints the times within which half, 95 % and all of the pages were there, and 95 % of the writes.
func BenchmarkDeskUnderLoad(b *testing.B) {
	http.DefaultTransport.(*http.Transport).MaxIdleConnsPerHost = 2 * (loadReaders + loadWriters)
	s := largeDesk(b, loadDogs, "20")
	planned := false
	for range 600 {
		if _, page, err := s.get("/plan"); err == nil && strings.Contains(page, "The plan in use") {
			planned = true
			break
		}
		time.Sleep(200 * time.Millisecond)
	}
	if !planned {
		b.Fatal("no plan is made: ", s.said)
	}
	pages := []string{"/", "/today", "/week", "/string", "/dogs/Sorrel", "/dogs/Moss%203", "/shows", "/hours", "/workload", "/history", "/plan", "/work?dog=Ember%202"}
	for _, p := range pages { // each is there before it is asked for again and again
		if status, page, err := s.get(p); err != nil || status != http.StatusOK {
			b.Fatalf("%s: status %d, %v: %s", p, status, err, page)
		}
	}
	var reads, writes tries
	for b.Loop() {
		end := time.Now().Add(loadLasts)
		var all sync.WaitGroup
		var number atomic.Int64
		for reader := range loadReaders {
			all.Go(func() {
				for n := reader; time.Now().Before(end); n++ {
					start := time.Now()
					status, _, err := s.get(pages[n%len(pages)])
					if err != nil {
						b.Error(err)
						return
					}
					reads.add(time.Since(start), status)
					time.Sleep(loadPause)
				}
			})
		}
		for writer := range loadWriters {
			all.Go(func() {
				dog := []string{"Sorrel 4", "Pewter 5"}[writer%2]
				for time.Now().Before(end) {
					_, page, err := s.get("/work?dog=" + url.QueryEscape(dog))
					m := versionField.FindStringSubmatch(page)
					if err != nil || m == nil {
						b.Error("the form has no version: ", err)
						return
					}
					start := time.Now()
					status, err := s.post("/work", url.Values{
						"version": {m[1]}, "dog": {dog}, "on": {"2027-01-04"}, "hands": {"Handler"}, "duty": {"nails"}, "minutes": {"10"},
						"note": {fmt.Sprintf("writer %d, note %d", writer, number.Add(1))}, "do": {"save"},
					})
					if err != nil {
						b.Error(err)
						return
					}
					writes.add(time.Since(start), status)
					time.Sleep(loadPause)
				}
			})
		}
		all.Wait()
	}
	if reads.statuses[http.StatusOK] != len(reads.took) || writes.statuses[http.StatusSeeOther] == 0 {
		b.Errorf("answers: reading %v, writing %v", reads.statuses, writes.statuses)
	}
	b.Logf("%d reads %v, %d writes %v", len(reads.took), reads.statuses, len(writes.took), writes.statuses)
	b.ReportMetric(reads.within(0.5), "half-ms")
	b.ReportMetric(reads.within(0.95), "95%-ms")
	b.ReportMetric(reads.within(1), "all-ms")
	b.ReportMetric(writes.within(0.95), "write95%-ms")
	b.ReportMetric(float64(len(reads.took))/loadLasts.Seconds()/float64(b.N), "reads/s")
}

// BenchmarkDeskStart measures the time from the command until the first page is answered.
func BenchmarkDeskStart(b *testing.B) {
	for b.Loop() {
		s := serveDesk(b, "--demo")
		if status, _, err := s.get("/today"); err != nil || status != http.StatusOK {
			b.Fatal(status, err)
		}
		b.StopTimer()
		s.ends(b)
		b.StartTimer()
	}
}
