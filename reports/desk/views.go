package desk

import (
	"bytes"
	"html/template"
	"io"
	"reflect"
	"slices"
	"sync"

	"tuckup/optimize"
	"tuckup/optimize/timetable"
	"tuckup/reports/html"
)

// views keeps what is drawn from one plan, so that a page is not drawn again for every reader.
type views struct {
	mu      sync.Mutex
	ribbons map[int]template.HTML
	hours   []html.Part
	at      map[string][]timetable.Place
	board   map[string]template.HTML
	change  *changesView
	against *optimize.Week
	papers  map[string][]byte
}

// paper is what is printed of the plan, written where it was not yet.
func (v *views) paper(name string, write func(io.Writer) error) ([]byte, error) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if x, ok := v.papers[name]; ok {
		return x, nil
	}
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return nil, err
	}
	if v.papers == nil {
		v.papers = map[string][]byte{}
	}
	v.papers[name] = b.Bytes()
	return b.Bytes(), nil
}

// ribbon is the coat of the n-th dog over the weeks.
func (v *views) ribbon(r optimize.Result, n int) (template.HTML, error) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if x, ok := v.ribbons[n]; ok {
		return x, nil
	}
	x, err := html.Ribbon(r, n)
	if err != nil {
		return "", err
	}
	if v.ribbons == nil {
		v.ribbons = map[int]template.HTML{}
	}
	v.ribbons[n] = x
	return x, nil
}

// workload are the parts of the page of hours.
func (v *views) workload(r optimize.Result) ([]html.Part, error) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.hours == nil {
		parts, err := html.WorkloadParts(r)
		if err != nil {
			return nil, err
		}
		v.hours = parts
	}
	return v.hours, nil
}

// boardRow are the weeks of a dog on the board, drawn where they are not yet.
func (v *views) boardRow(dog string, draw func() template.HTML) template.HTML {
	v.mu.Lock()
	defer v.mu.Unlock()
	if x, ok := v.board[dog]; ok {
		return x
	}
	if v.board == nil {
		v.board = map[string]template.HTML{}
	}
	v.board[dog] = draw()
	return v.board[dog]
}

// places are where a session could be.
func (v *views) places(r optimize.Result, s optimize.SessionIn) []timetable.Place {
	v.mu.Lock()
	defer v.mu.Unlock()
	key := sessionKey(s.Dog, s.At)
	if x, ok := v.at[key]; ok {
		return x
	}
	if v.at == nil {
		v.at = map[string][]timetable.Place{}
	}
	v.at[key] = timetable.Places(r, s)
	return v.at[key]
}

// changes is what sets the plan apart from the one in use when it was made.
func (v *views) changes(before, after optimize.Result) changesView {
	v.mu.Lock()
	defer v.mu.Unlock()
	if len(before.Weeks) > 0 && (v.change == nil || v.against != &before.Weeks[0]) {
		c := newChangesView(before, after)
		v.change, v.against = &c, &before.Weeks[0]
	}
	if v.change == nil {
		return newChangesView(before, after)
	}
	return *v.change
}

// keep are the views of a plan that is seen again on the same day: what is drawn from what has not changed stays.
func (v *views) keep(was, is optimize.Result) *views {
	v.mu.Lock()
	defer v.mu.Unlock()
	n := &views{hours: v.hours, ribbons: map[int]template.HTML{}}
	for i, x := range v.ribbons {
		j := slices.IndexFunc(is.Outlooks, func(o optimize.Outlook) bool { return o.Dog == was.Outlooks[i].Dog })
		if j >= 0 && reflect.DeepEqual(was.Outlooks[i], is.Outlooks[j]) {
			n.ribbons[j] = x
		}
	}
	return n
}
