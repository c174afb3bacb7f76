package guard

import (
	_ "embed"
	"html/template"
	"net/http"

	"tuckup/reports/desk/assets"
)

//go:embed pair.html
var pairHTML string

var pairPage = template.Must(template.New("pair").Parse(pairHTML))

// servePair shows the page where a code is typed, and takes the code.
func (g *Guard) servePair(w http.ResponseWriter, r *http.Request) {
	now := g.o.Now()
	switch {
	case g.own(remote(r)):
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	case g.sessions.has(r, now):
		http.Redirect(w, r, tablePath, http.StatusSeeOther)
		return
	}
	if safe(r.Method) {
		if err := g.announce(r.Host); err != nil {
			panic(err) // caught above
		}
		g.showPair(w, http.StatusOK, pairForm{Code: r.URL.Query().Get("code")})
		return
	}
	if err := r.ParseForm(); err != nil {
		http.Error(w, "This form can't be read.\nTry: "+origin(r)+pairPath, http.StatusBadRequest)
		return
	}
	typed, name := r.PostForm.Get("code"), r.PostForm.Get("name")
	if !g.pairing.try(typed, now) {
		g.showPair(w, http.StatusUnprocessableEntity, pairForm{Code: typed, Name: name, Wrong: g.pairing.wrong(now)})
		return
	}
	cookie, err := g.sessions.start(now, g.o.Random, name, remote(r).String())
	if err != nil {
		panic(err) // caught above
	}
	if g.o.Paired != nil {
		g.o.Paired(remote(r).String())
	}
	cookie.Secure = r.TLS != nil
	http.SetCookie(w, cookie)
	http.Redirect(w, r, tablePath, http.StatusSeeOther)
}

// tablePath is where a phone that is paired begins: the day's work at the table.
const tablePath = "/today"

// pairForm is what the page where a code is typed shows.
type pairForm struct {
	Head              template.HTML
	Words             string // which code is open
	Code, Name, Wrong string
}

func (g *Guard) showPair(w http.ResponseWriter, status int, f pairForm) {
	f.Head, f.Words = assets.Head(), g.pairing.words(g.o.Now())
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	// What fails here is the connection, and nobody is left to tell.
	_ = pairPage.Execute(w, f)
}
