package guard

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"tuckup/reports/desk/assets"
	"tuckup/reports/desk/visit"
)

func head(w io.Writer, title string) {
	fmt.Fprintf(w, `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>%s</title>%s</head><body><main><h1>%s</h1>`, title, assets.Head(), title)
}

// The protections hold in a real browser, not only on paper.
func TestABrowserKeepsPagesElsewhereOut(t *testing.T) {
	var saved, framed atomic.Int64
	s := serve(t, func(w http.ResponseWriter, r *http.Request) {
		switch {
		case strings.HasPrefix(r.URL.Path, assets.Prefix):
			assets.Handler().ServeHTTP(w, r)
		case r.URL.Path == "/worker.js": // the desk's keeps pages; here there are none to keep
			w.Header().Set("Content-Type", "text/javascript")
		case r.Method == http.MethodPost:
			saved.Add(1)
			http.Redirect(w, r, "/", http.StatusSeeOther)
		case r.URL.Path == "/inline":
			w.Header().Set("Content-Type", "text/html")
			head(w, "own")
			io.WriteString(w, `<p id="p" onclick="document.title='handler'" style="position:fixed">p</p><script>document.title = "inline"</script>`)
		default:
			if r.Header.Get("Sec-Fetch-Dest") == "iframe" {
				framed.Add(1)
			}
			w.Header().Set("Content-Type", "text/html")
			head(w, "own")
			io.WriteString(w, `<form method="post" action="/week"><input name="day" aria-label="day"><button>Keep</button></form>`)
		}
	}, DefaultTimes())
	elsewhere := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Access-Control-Allow-Origin", "*") // it is the desk's policy that refuses
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprintf(w, `<!DOCTYPE html><title>elsewhere</title><iframe id="frame" src="%[1]s/"></iframe><img id="img" src="%[1]s/" alt="">
			<form id="form" method="post" action="%[1]s/week"><input name="day" value="1"></form><a id="link" href="%[1]s/">link</a>`, s.url)
	}))
	defer elsewhere.Close()

	v := visit.New(t, s.url)
	v.Open("/")
	v.Leaves(func() { v.Click("button", "Keep") })
	if saved.Load() != 1 {
		t.Fatal("the desk's own form was not taken:", v.Says())
	}
	v.Quiet()

	v.Open("/inline")
	if title := visit.Ask[string](v, "document.title"); title != "own" {
		t.Error("a script in the page ran:", title)
	}
	visit.Ask[bool](v, `(document.getElementById("p").click(), true)`)
	if title := visit.Ask[string](v, "document.title"); title != "own" {
		t.Error("a handler in the page ran:", title)
	}
	if p := visit.Ask[string](v, `getComputedStyle(document.getElementById("p")).position`); p == "fixed" {
		t.Error("a style in the page held")
	}
	if why := visit.Ask[string](v, `fetch("`+elsewhere.URL+`").then(() => "fetched", () => "refused")`); why != "refused" {
		t.Error("the page could fetch from elsewhere")
	}

	other := visit.New(t, elsewhere.URL)
	other.Open("/")
	other.Leaves(func() { visit.Ask[bool](other, `(document.getElementById("form").submit(), true)`) })
	if saved.Load() != 1 || !strings.Contains(other.Says(), "not the desk's") {
		t.Error("a form from elsewhere was taken:", other.Says())
	}
	if framed.Load() != 0 {
		t.Error("a page elsewhere has the desk in a frame")
	}
	other.Open("/")
	if why := visit.Ask[string](other, `fetch("`+s.url+`/week", {method: "POST", mode: "no-cors", body: "day=1"}).then(r => r.type, () => "failed")`); saved.Load() != 1 {
		t.Error("a script elsewhere could save:", why)
	}
	other.Leaves(func() { other.Click("#link", "link") })
	if title := visit.Ask[string](other, "document.title"); title != "own" {
		t.Error("a link to the desk is refused:", other.Says())
	}
}

// The script of the desk writes what a stream tells as text, and goes where it says.
func TestAStreamIsWrittenIntoThePage(t *testing.T) {
	if testing.Short() {
		t.Skip("left out of the quick round: waits in the browser")
	}
	goOn := make(chan struct{})
	var opened, streams atomic.Int64
	s := serve(t, func(w http.ResponseWriter, r *http.Request) {
		switch {
		case strings.HasPrefix(r.URL.Path, assets.Prefix):
			assets.Handler().ServeHTTP(w, r)
		case r.URL.Path == assets.WorkerPath:
			assets.Worker().ServeHTTP(w, r)
		case r.URL.Path == "/events":
			streams.Add(1)
			stream, err := OpenStream(w, r)
			if err != nil {
				t.Error(err)
				return
			}
			stream.Send("progress", "<b>half</b>\nway")
			stream.Send("share", "50")
			select {
			case <-goOn:
			case <-stream.Done():
			}
			stream.Send(r.URL.Query().Get("last"), r.URL.Query().Get("to"))
		case r.URL.Path == "/after":
			w.Header().Set("Content-Type", "text/html")
			head(w, "after")
		default:
			opened.Add(1)
			w.Header().Set("Content-Type", "text/html")
			head(w, "before")
			if opened.Load()%2 == 1 {
				fmt.Fprintf(w, `<form><input id="note" aria-label="note"></form><section data-stream="/events?%s"><output data-event="progress"></output><progress max="100" data-event="share" aria-label="share"></progress></section>`, r.URL.RawQuery)
			}
		}
	}, DefaultTimes())
	v := visit.New(t, s.url)
	v.Open("/?last=go&to=/after")
	v.Until(`document.querySelector("output").textContent === "<b>half</b>\nway" && document.querySelector("progress").value === 50`)
	if n := visit.Ask[int](v, `document.querySelectorAll("output *").length`); n != 0 {
		t.Error("what was streamed became HTML")
	}
	v.Leaves(func() { goOn <- struct{}{} })
	if v.At() != "/after" {
		t.Error("the page that is open is", v.At())
	}

	opened.Store(0)
	v.Open("/?last=go&to=https://evil.example/")
	v.Until(`document.querySelector("progress").value === 50`)
	goOn <- struct{}{}
	time.Sleep(200 * time.Millisecond)
	if v.At() != "/?last=go&to=https://evil.example/" {
		t.Error("the stream led elsewhere:", v.At())
	}

	opened.Store(0)
	v.Open("/?last=end")
	v.Until(`document.querySelector("progress").value === 50`)
	v.Leaves(func() { goOn <- struct{}{} })
	if visit.Ask[int](v, `document.querySelectorAll("section").length`) != 0 {
		t.Error("the page was not opened anew at the end of the stream")
	}

	opened.Store(0)
	v.Open("/?last=end")
	v.Until(`document.querySelector("progress").value === 50`)
	v.Type("#note", "typed")
	before := streams.Load()
	goOn <- struct{}{}
	time.Sleep(4 * time.Second) // longer than a browser waits before it asks for a stream again
	if typed := visit.Ask[string](v, `document.querySelector("#note").value`); typed != "typed" || streams.Load() != before {
		t.Errorf("what was typed is %q; the stream was asked for %d more times", typed, streams.Load()-before)
	}
	v.Quiet()
}
