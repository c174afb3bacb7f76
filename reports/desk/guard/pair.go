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
	if g.own(remote(r)) || g.sessions.has(r, now) {
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return
	}
	if safe(r.Method) {
		if err := g.announce(r.Host); err != nil {
			panic(err) // caught above
		}
		showPair(w, http.StatusOK, r.URL.Query().Get("code"), "")
		return
	}
	if err := r.ParseForm(); err != nil {
		http.Error(w, "This form can't be read.\nTry: http://"+r.Host+pairPath, http.StatusBadRequest)
		return
	}
	typed := r.PostForm.Get("code")
	if !g.pairing.try(typed, now) {
		showPair(w, http.StatusUnprocessableEntity, typed, "This is not the code that is open now: each works once, for ten minutes, and after five wrong ones there is a minute's pause.")
		return
	}
	cookie, err := g.sessions.start(now, g.o.Random)
	if err != nil {
		panic(err) // caught above
	}
	if g.o.Paired != nil {
		g.o.Paired(remote(r).String())
	}
	http.SetCookie(w, cookie)
	http.Redirect(w, r, "/", http.StatusSeeOther)
}

func showPair(w http.ResponseWriter, status int, code, wrong string) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	// What fails here is the connection, and nobody is left to tell.
	_ = pairPage.Execute(w, struct {
		Head        template.HTML
		Code, Wrong string
	}{assets.Head(), code, wrong})
}
