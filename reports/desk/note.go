package desk

import (
	"net/http"
	"net/url"
	"strings"
)

// What was done is told on the page that is opened after it: the address carries one of these words, so that an address
// can't make the page say anything else.
var notes = map[string]string{
	"saved":    "Saved.",
	"settings": "Saved. The next plan is made with it.",
	"rest":     "Saved. A part of the coat has no day: it counts as longer than any pull that is known of.",
	"nothing":  "Nothing changes: it is so already.",
	"done":     "Written down.", // Today names the dog: justNow
	"moved":    "Moved and pinned.",
	"loosed":   "No longer pinned.",
	"undone":   "Undone.",
	"brought":  "Taken: the book holds what the file says. The history can undo that.",
	"learned":  "Taken: plans count on it from now on. The history can take that back.",
	"restored": "The book holds what the copy holds. The history can take that back.",
	"taken":    "Taken. This is the plan now.",
	"refused":  "The plan stays as it was.",
	"kept":     "Taken. This is the plan now.",
	"dropped":  "Taken out again.",
	"gone":     "That was thrown away; nothing was changed.",
	"stopped":  "The search is being stopped.",
	"started":  "The plan is being made again.",
	"left":     "Written down. What is left waits for the next plan.",
	"ended":    "Ended. It has to be paired again before it can open the desk.",
}

func noteOf(r *http.Request) string { return notes[r.URL.Query().Get("said")] }

// back leads the browser to a page of the desk after a form was carried out.
func back(w http.ResponseWriter, r *http.Request, to, said string) {
	lead(w, r, address(r, to, said))
}

// address is where a form leads that was carried out: the page of the desk, which says what was done. about is what that
// is about, a name and its value in turn.
func address(r *http.Request, to, said string, about ...string) string {
	u, err := url.Parse(to)
	if err != nil || u.IsAbs() || u.Host != "" || !strings.HasPrefix(u.Path, "/") || strings.HasPrefix(u.Path, "//") || strings.Contains(to, `\`) {
		u = &url.URL{Path: r.URL.Path}
	}
	q := u.Query()
	q.Del("said")
	if said != "" {
		q.Set("said", said)
	}
	for i := 0; i+1 < len(about); i += 2 {
		q.Set(about[i], about[i+1])
	}
	u.RawQuery = q.Encode()
	return u.String()
}
