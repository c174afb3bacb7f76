package desk

import (
	"fmt"
	"net/http"
	"path"
	"strings"
	"sync"

	"tuckup/kennel/picture"
)

// A file that somebody sends is held in memory, shown, and taken or thrown away: until it is taken nothing is written.

// The largest files that are taken in, in bytes: a kennel file, table or calendar, and a copy of the book.
const (
	LargestFile = 8 << 20
	LargestCopy = 64 << 20
)

// Larger is how many bytes may be posted to the paths where files are sent, with what a form has around them.
func Larger() map[string]int64 {
	const around = 64 << 10
	return map[string]int64{bringPath: LargestFile + around, "/copies": LargestCopy + around, photosPath: picture.Largest + around}
}

// mostHeld is how many files are held at once; a newer one takes the place of the oldest.
const mostHeld = 4

// held is one file that was sent.
type held struct {
	id, name string
	data     []byte
}

type heldFiles struct {
	mu  sync.Mutex
	all []held // the oldest first
}

func (h *heldFiles) put(x held) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.all) >= mostHeld {
		h.all = h.all[1:]
	}
	h.all = append(h.all, x)
}

func (h *heldFiles) get(id string) (held, bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for _, x := range h.all {
		if x.id == id && id != "" {
			return x, true
		}
	}
	return held{}, false
}

func (h *heldFiles) drop(id string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for i, x := range h.all {
		if x.id == id {
			h.all = append(h.all[:i:i], h.all[i+1:]...)
			return
		}
	}
}

var errHeldGone = &statusError{http.StatusGone, "That file is not held any more; nothing was changed.", "sending it again"}

// isFile reports whether a form was sent with a file.
func isFile(r *http.Request) bool {
	return strings.HasPrefix(r.Header.Get("Content-Type"), "multipart/form-data")
}

// hold reads the file of a form and holds it. The error says what to choose instead.
func (d *Desk) hold(r *http.Request, largest int64) (id string, err error) {
	data, name, err := sentFile(r, largest)
	if err != nil {
		return "", err
	}
	if id, err = d.newKey(); err != nil {
		return "", err
	}
	d.held.put(held{id, path.Base(strings.ReplaceAll(name, `\`, "/")), data})
	return id, nil
}

func tooLarge(largest int64) error {
	return &statusError{http.StatusRequestEntityTooLarge, fmt.Sprintf("The file is larger than %d MB.", largest>>20), "a smaller file"}
}
