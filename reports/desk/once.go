package desk

import (
	"cmp"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strconv"
	"sync"
	"time"
)

// Every form of the desk carries a key, so that it is known when it comes again: tapped twice, sent again because the
// answer was lost, or loaded again by the browser. It is then answered as it was, and nothing is done.

// keyBytes make a key that no other form has.
const keyBytes = 16

// newKey is the key of one form of one page.
func (d *Desk) newKey() (string, error) {
	b := make([]byte, keyBytes)
	if _, err := io.ReadFull(d.opt.Random, b); err != nil {
		return "", fmt.Errorf("make the key of a form: %w", err)
	}
	return base64.RawURLEncoding.EncodeToString(b), nil
}

// postKey tells the form that was sent from all others: by its key and by what is in it, for who goes back in the
// browser, changes a field and saves again has sent another form. It is empty where the form has no key.
func postKey(r *http.Request) string {
	if r.PostForm.Get("key") == "" {
		return ""
	}
	sum := sha256.Sum256([]byte(r.URL.Path + "\n" + r.PostForm.Encode()))
	return base64.RawURLEncoding.EncodeToString(sum[:])
}

// posts are where the newest forms led. Those that changed the book are in the book as well, and for longer.
type posts struct {
	mu    sync.Mutex
	all   map[string]*post
	order []string // the oldest first
}

// post is one form; it is locked while it is carried out.
type post struct {
	mu sync.Mutex
	to string // where it led; empty = it was not carried out yet
	at time.Time
}

// How many forms are remembered, and how long: as long as somebody taps again who saw no answer.
const (
	mostPosts = 1000
	postsLast = 2 * time.Minute
)

func (p *posts) of(key string) *post {
	p.mu.Lock()
	defer p.mu.Unlock()
	if x := p.all[key]; x != nil {
		return x
	}
	if p.all == nil {
		p.all = map[string]*post{}
	}
	if len(p.order) >= mostPosts {
		delete(p.all, p.order[0])
		p.order = p.order[1:]
	}
	x := &post{}
	p.all[key], p.order = x, append(p.order, key)
	return x
}

// once answers a form that was carried out before as it was answered then. Of the same form sent twice at once, the
// second waits for the first.
func (d *Desk) once(serve handler) handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		if err := r.ParseForm(); err != nil {
			return &statusError{http.StatusBadRequest, "The form could not be read.", "the page again"}
		}
		key := postKey(r)
		if key == "" {
			return serve(w, r)
		}
		p := d.posts.of(key)
		p.mu.Lock()
		defer p.mu.Unlock()
		if p.to == "" || d.opt.Now().Sub(p.at) > postsLast || d.draftGone(p.to) {
			var err error
			if p.to, _, err = d.opt.Book.Answered(r.Context(), key); err != nil {
				return err
			}
		}
		if p.to != "" {
			lead(w, r, p.to)
			return nil
		}
		err := serve(w, r)
		p.to, p.at = cmp.Or(w.Header().Get("Location"), w.Header().Get(goHeader)), d.opt.Now()
		return err
	}
}

// draftGone reports whether an address is that of a draft that was kept or thrown away, so that its form may make another.
func (d *Desk) draftGone(to string) bool {
	u, err := url.Parse(to)
	if err != nil {
		return false
	}
	id, err := strconv.Atoi(u.Query().Get("draft"))
	return err == nil && d.drafts.get(id) == nil
}

// A form that the desk's own script sends says so, and is told where to go instead of being sent there.
const (
	formHeader = "Desk-Form"
	goHeader   = "Desk-Go"
)

// lead leads the browser to an address of the desk after a form was carried out.
func lead(w http.ResponseWriter, r *http.Request, to string) {
	if r.Header.Get(formHeader) == "" {
		http.Redirect(w, r, to, http.StatusSeeOther)
		return
	}
	w.Header().Set(goHeader, to)
	w.WriteHeader(http.StatusNoContent)
}
