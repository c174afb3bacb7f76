package desk

import (
	"net/url"
	"strconv"
)

// justNow is what was done to one dog's work just now. For some seconds it stands where the button of that dog stood, so
// that a second tap there does nothing.
type justNow struct {
	Words string
	Undo  int64 // the work to take out again; 0 = none
}

// saysOfWork reports whether an address speaks of one dog's work.
func saysOfWork(q url.Values) bool {
	switch q.Get("said") {
	case "done", "left", "dropped":
		return true
	}
	return false
}

// justNowOf is what an address says was done to work; nil when it says nothing, or what is not so in the book.
func justNowOf(l look, q url.Values) *justNow {
	if !saysOfWork(q) {
		return nil
	}
	if q.Get("said") == "dropped" {
		if dog, ok := l.dogNamed(q.Get("dog")); ok {
			return &justNow{Words: dog.Name + ": taken out again"}
		}
		return nil
	}
	id, err := strconv.ParseInt(q.Get("work"), 10, 64)
	if err != nil {
		return nil
	}
	for _, w := range l.state.Work {
		if w.ID != id {
			continue
		}
		words := w.Dog
		if w.Duty != "" {
			words += ": " + w.Duty
		}
		return &justNow{Words: words + " written down", Undo: id}
	}
	return nil
}
