package main

import (
	"context"
	"crypto/hmac"
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"github.com/gofrs/flock"

	"tuckup/reports/desk/guard"
)

// A desk that is open holds a lock on a file of its book, and writes beside it where it answers. A second start finds the
// lock taken, reads the address, and makes sure that this desk answers there: a port may have gone to another program.

// herePath is where an open desk shows that it is the one that the note speaks of.
const herePath = "/here"

// note is what an open desk leaves for the next start.
type note struct {
	Address string `json:"address"` // host:port
	Key     string `json:"key"`     // only who can read the note knows it
}

// claim is the hold on a book's note; nil holds nothing.
type claim struct {
	lock *flock.Flock
	path string // of the note
	key  string
}

// stateFolder is where what is only about the machine's present state is kept: XDG_STATE_HOME where it is set (XDG base directories), else
// what the system has for it.
func stateFolder() (string, error) {
	if dir := os.Getenv("XDG_STATE_HOME"); filepath.IsAbs(dir) {
		return dir, nil
	}
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		return dataFolder()
	}
	home, err := os.UserHomeDir()
	return filepath.Join(home, ".local", "state"), err
}

// notePath is where the desk of a book leaves its note.
func notePath(book string) (string, error) {
	dir, err := stateFolder()
	if err != nil {
		return "", err
	}
	if book, err = filepath.Abs(book); err != nil {
		return "", err
	}
	if real, err := filepath.EvalSymlinks(book); err == nil {
		book = real
	}
	const letters = 8 // of the hash: books of one person, so few
	sum := sha256.Sum256([]byte(book))
	return filepath.Join(dir, "tuckup", "desk-"+hex.EncodeToString(sum[:letters])+".json"), nil
}

// claimDesk takes the hold on the book's note. free is false where an open desk has it.
func claimDesk(book string) (c *claim, free bool, err error) {
	path, err := notePath(book)
	if err != nil {
		return nil, false, err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return nil, false, err
	}
	lock := flock.New(path + ".lock")
	if free, err = lock.TryLock(); err != nil || !free {
		return nil, false, err
	}
	key, err := guard.NewKey(rand.Reader)
	if err != nil {
		return nil, false, errors.Join(err, lock.Unlock())
	}
	return &claim{lock, path, key}, true, nil
}

// tell writes down where the desk answers.
func (c *claim) tell(address string) error {
	if c == nil {
		return nil
	}
	data, err := json.Marshal(note{address, c.key})
	if err != nil {
		return err
	}
	return os.WriteFile(c.path, data, 0o600)
}

// drop ends the hold.
func (c *claim) drop() {
	if c == nil {
		return
	}
	os.Remove(c.path)
	c.lock.Unlock() //nolint:errcheck // it ends with the program at the latest
}

// answers puts the proof before the pages.
func (c *claim) answers(pages http.Handler) http.Handler {
	if c == nil {
		return pages
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != herePath {
			pages.ServeHTTP(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		io.WriteString(w, proof(c.key, r.URL.Query().Get("word"))) //nolint:errcheck // who asked has gone
	})
}

// proof shows that who makes it knows the key, for a word that was not used before.
func proof(key, word string) string {
	h := hmac.New(sha256.New, []byte(key))
	io.WriteString(h, word) //nolint:errcheck // a hash takes everything
	return hex.EncodeToString(h.Sum(nil))
}

// openDesk is the address of the desk that is open on a book. It may be starting still: it is waited for.
func (a *app) openDesk(ctx context.Context, book string) (address string, err error) {
	const pause = 100 * time.Millisecond
	path, err := notePath(book)
	if err != nil {
		return "", err
	}
	limit, cancel := context.WithTimeout(ctx, a.patience)
	defer cancel()
	for {
		if address, err = deskOf(limit, path); err == nil {
			return address, nil
		}
		a.log.Debug().Err(err).Msg("the open desk does not answer yet")
		select {
		case <-limit.Done():
			return "", usage("to close it first: Ctrl-C where it was started, or end tuckup in the list of programs that run",
				"a desk is open on this book already, but it does not answer")
		case <-time.After(pause):
		}
	}
}

// deskOf is the address in the note, if the desk that wrote it answers there.
func deskOf(ctx context.Context, path string) (string, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	var n note
	if err := json.Unmarshal(data, &n); err != nil {
		return "", err
	}
	word, err := guard.NewKey(rand.Reader)
	if err != nil {
		return "", err
	}
	u := url.URL{Scheme: "http", Host: n.Address, Path: herePath, RawQuery: url.Values{"word": {word}}.Encode()}
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, u.String(), nil)
	if err != nil {
		return "", err
	}
	client := http.Client{Transport: &http.Transport{DisableKeepAlives: true}} // no proxy stands between a machine and itself
	resp, err := client.Do(req)
	if err != nil {
		return "", err
	}
	defer resp.Body.Close() //nolint:errcheck // only read
	said, err := io.ReadAll(io.LimitReader(resp.Body, 1<<10))
	if err != nil {
		return "", err
	}
	if want := proof(n.Key, word); subtle.ConstantTimeCompare(said, []byte(want)) != 1 {
		return "", fmt.Errorf("something else answers at %s", n.Address)
	}
	return n.Address, nil
}
