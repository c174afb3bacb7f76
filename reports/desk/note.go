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
	"nothing":  "Nothing changes: it is so already.",
	"done":     "Written down.",
	"moved":    "Moved and pinned. The plan is being made anew around it.",
	"loosed":   "No longer pinned.",
	"undone":   "Taken back.",
	"restored": "The book holds what the copy holds. The history can take that back.",
	"accepted": "This is the plan now.",
	"refused":  "The plan stays as it was.",
	"kept":     "Kept. This is the plan now.",
	"dropped":  "Dropped.",
	"gone":     "That was thrown away; nothing was changed.",
	"stopped":  "The search is being stopped.",
	"started":  "The plan is being made anew.",
	"left":     "Written down. What is left is planned anew.",
	"ended":    "Ended. It has to be paired again before it can open the desk.",
	"measured": "The length is written down.",
}

func noteOf(r *http.Request) string { return notes[r.URL.Query().Get("said")] }

// back sends the browser to a page of the desk after a form was carried out.
func back(w http.ResponseWriter, r *http.Request, to, said string) {
	u, err := url.Parse(to)
	if err != nil || u.IsAbs() || u.Host != "" || !strings.HasPrefix(u.Path, "/") || strings.HasPrefix(u.Path, "//") || strings.Contains(to, `\`) {
		u = &url.URL{Path: r.URL.Path}
	}
	q := u.Query()
	q.Del("said")
	if said != "" {
		q.Set("said", said)
	}
	u.RawQuery = q.Encode()
	http.Redirect(w, r, u.String(), http.StatusSeeOther)
}
