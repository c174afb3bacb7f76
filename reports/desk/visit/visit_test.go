package visit

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// What a visit notes, it must be able to note: each kind of trouble is provoked once.
func TestAVisitNotesWhatAPersonShouldNotMeet(t *testing.T) {
	other := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) {}))
	defer other.Close()
	page := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		switch r.URL.Path {
		case "/good":
			w.Write([]byte("<!DOCTYPE html><html lang=en><title>good</title><link rel=icon href=data:,><main><h1>good</h1></main>"))
		case "/foreign":
			w.Write([]byte("<!DOCTYPE html><link rel=icon href=data:,><img alt='' src='" + other.URL + "/a.png'>"))
		case "/talks":
			w.Write([]byte("<!DOCTYPE html><link rel=icon href=data:,><script>console.error('talking')</script>"))
		case "/throws":
			w.Write([]byte("<!DOCTYPE html><link rel=icon href=data:,><script>throw new Error('thrown')</script>"))
		case "/lacks":
			w.Write([]byte("<!DOCTYPE html><link rel=icon href=data:,><script src=/gone.js></script>"))
		default:
			http.NotFound(w, r)
		}
	}))
	defer page.Close()
	v := New(t, page.URL)
	if status := v.Open("/good"); status != http.StatusOK || len(v.Foreign())+len(v.Complaints()) > 0 {
		t.Errorf("status %d, %q, %q", status, v.Foreign(), v.Complaints())
	}
	v.Open("/foreign")
	if f := v.Foreign(); len(f) != 1 || !strings.HasPrefix(f[0], other.URL) {
		t.Errorf("foreign requests: %q", f)
	}
	for path, words := range map[string]string{"/talks": "talking", "/throws": "Uncaught", "/lacks": "gone.js"} {
		v.Open(path)
		if c := strings.Join(v.Complaints(), "\n"); !strings.Contains(c, words) {
			t.Errorf("%s: complaints %q", path, c)
		}
	}
}

func TestWithoutABrowserTheTestIsSkippedButFailsInCI(t *testing.T) {
	t.Setenv("PATH", "")
	for ci, want := range map[string]string{"": "skipped", "true": "failed"} {
		t.Setenv("CI", ci)
		f := &fake{TB: t}
		done := make(chan struct{})
		go func() { defer close(done); Browser(f) }()
		<-done
		if f.ended != want {
			t.Errorf("CI=%q: %q, want %q", ci, f.ended, want)
		}
	}
}

func TestScriptsCanBeSwitchedOff(t *testing.T) {
	page := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		w.Write([]byte("<!DOCTYPE html><title>plain</title><link rel=icon href=data:,><script>document.title = 'run'</script>"))
	}))
	defer page.Close()
	v := New(t, page.URL)
	for _, run := range []bool{true, false} {
		v.Scripts(run)
		v.Open("/")
		if ran := Ask[string](v, "document.title") == "run"; ran != run {
			t.Errorf("scripts are to run: %t, and ran: %t", run, ran)
		}
	}
}
