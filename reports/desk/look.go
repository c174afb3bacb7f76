package desk

import (
	"context"
	"sync"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/reports/html"
)

// look is what a request sees: the book at one change, and the plan in use. It is read only.
type look struct {
	state   book.State
	version int64
	today   kennel.Date
	plan    *planned // in use; nil when none was taken yet
	unread  error    // why the plan in use can't be read
	next    *planned // made since, not taken yet
	status  status
	photos  []html.Photo // of all dogs, with their addresses at the desk
}

// shelf keeps the book as it was read last.
type shelf struct {
	mu      sync.Mutex
	full    bool
	state   book.State
	version int64
}

// read is the book as it is.
func (s *shelf) read(ctx context.Context, b *book.Book) (book.State, int64, error) {
	version, err := b.Version(ctx)
	if err != nil {
		return book.State{}, 0, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.full && s.version == version {
		return s.state, version, nil
	}
	state, version, err := b.Read(ctx)
	if err != nil {
		return book.State{}, 0, err
	}
	s.full, s.state, s.version = true, state, version
	return state, version, nil
}

// look reads the book with its plan in use, and sees to it that the first plan of a book is being made, or a better one.
func (d *Desk) look(ctx context.Context) (look, error) {
	var l look
	var err error
	if l.state, l.version, err = d.shelf.read(ctx, d.opt.Book); err != nil {
		return l, err
	}
	of := l.state.PhotosOf()
	for i, p := range l.state.Photos {
		l.photos = append(l.photos, html.Photo{Photo: p.Photo, Of: of[i], Src: d.photoAddress(p.Digest)})
	}
	if l.today, err = d.opt.Today(l.state.Kennel); err != nil {
		return l, err
	}
	l.plan, l.unread = d.inUse.of(l, d.opt)
	if ctx.Value(unplannedKey{}) == nil {
		d.plans.want(l)
	}
	var own *planned
	if l.next, own, l.status = d.plans.stand(); l.state.Plan.Result == nil && own != nil {
		l.plan = seenOf(own.whole, nil, l, d.opt, own)
	}
	return l, nil
}

// dogs are the dogs in hand.
func (l look) dogs() []kennel.Dog { return l.state.Kennel.InHand(l.today).Dogs }

// dogNamed is the dog with the name.
func (l look) dogNamed(name string) (kennel.Dog, bool) {
	for _, d := range l.state.Kennel.Dogs {
		if d.Name == name {
			return d, true
		}
	}
	return kennel.Dog{}, false
}
