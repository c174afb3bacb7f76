package guard

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io"
	"maps"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"
)

// sessions are the machines that were paired, by the hash of what their cookie holds. They live as long as the program,
// at most sessionsLast; starting the desk again forgets them all.
type sessions struct {
	mu   sync.Mutex
	all  map[[sha256.Size]byte]*Phone
	last int // number of the newest
}

// Phone is a machine that was paired.
type Phone struct {
	ID     int       // from 1, in the order of pairing
	Name   string    // as it was called when it was paired; "" = it was not
	From   string    // the address that it asked from last
	Paired time.Time // when
	Seen   time.Time // when it asked last
	Until  time.Time // when its pairing ends
}

// longestName is how many letters of a phone's name are kept.
const longestName = 40

const (
	secretBytes  = 32
	mostSessions = 64
)

// NewKey is a secret of 256 bits in letters that may stand in an address: a key for the calendar's. The error is that
// of random.
func NewKey(random io.Reader) (string, error) {
	b := make([]byte, secretBytes)
	if _, err := io.ReadFull(random, b); err != nil {
		return "", fmt.Errorf("make a key: %w", err)
	}
	return base64.RawURLEncoding.EncodeToString(b), nil
}

// start remembers a new session of a machine and returns its cookie. Beyond mostSessions the one that ends first is
// forgotten.
func (s *sessions) start(now time.Time, random io.Reader, name, from string) (*http.Cookie, error) {
	secret, err := NewKey(random)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.forget(now)
	if s.all == nil {
		s.all = map[[sha256.Size]byte]*Phone{}
	}
	if len(s.all) >= mostSessions {
		first := s.sorted()[0].ID
		maps.DeleteFunc(s.all, func(_ [sha256.Size]byte, p *Phone) bool { return p.ID == first })
	}
	s.last++
	s.all[sha256.Sum256([]byte(secret))] = &Phone{ID: s.last, Name: called(name), From: from, Paired: now, Seen: now, Until: now.Add(sessionsLast)}
	return &http.Cookie{
		Name: cookieName, Value: secret, Path: "/", MaxAge: int(sessionsLast / time.Second),
		HttpOnly: true, SameSite: http.SameSiteStrictMode,
	}, nil
}

// called is a phone's name as it is kept: on one line, and not too long.
func called(name string) string {
	words := []rune(strings.Join(strings.Fields(strings.ToValidUTF8(name, "")), " "))
	return string(words[:min(len(words), longestName)])
}

// forget drops the sessions that have ended.
func (s *sessions) forget(now time.Time) {
	maps.DeleteFunc(s.all, func(_ [sha256.Size]byte, p *Phone) bool { return !now.Before(p.Until) })
}

// sorted are the phones in the order of pairing.
func (s *sessions) sorted() []Phone {
	phones := make([]Phone, 0, len(s.all))
	for _, p := range s.all {
		phones = append(phones, *p)
	}
	slices.SortFunc(phones, func(a, b Phone) int { return a.ID - b.ID })
	return phones
}

// has reports whether a request carries the cookie of a session that has not ended, and notes that it asked.
func (s *sessions) has(r *http.Request, now time.Time) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, c := range r.CookiesNamed(cookieName) {
		if p, ok := s.all[sha256.Sum256([]byte(c.Value))]; ok && now.Before(p.Until) {
			p.Seen, p.From = now, remote(r).String()
			return true
		}
	}
	return false
}

// Phones are the machines that are paired now, in the order of pairing.
func (g *Guard) Phones() []Phone {
	s := &g.sessions
	s.mu.Lock()
	defer s.mu.Unlock()
	s.forget(g.o.Now())
	return s.sorted()
}

// EndPhone ends the pairing of the machine with the number, and reports whether there was one.
func (g *Guard) EndPhone(id int) bool {
	s := &g.sessions
	s.mu.Lock()
	defer s.mu.Unlock()
	before := len(s.all)
	maps.DeleteFunc(s.all, func(_ [sha256.Size]byte, p *Phone) bool { return p.ID == id })
	return len(s.all) < before
}
