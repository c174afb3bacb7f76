package guard

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io"
	"net/http"
	"sync"
	"time"
)

// sessions are the machines that were paired, by the hash of what their cookie holds. They live as long as the program,
// at most sessionsLast; starting the desk anew forgets them all.
type sessions struct {
	mu    sync.Mutex
	until map[[sha256.Size]byte]time.Time
}

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

// start remembers a new session and returns its cookie. Beyond mostSessions the one that ends first is forgotten.
func (s *sessions) start(now time.Time, random io.Reader) (*http.Cookie, error) {
	secret, err := NewKey(random)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.until == nil {
		s.until = map[[sha256.Size]byte]time.Time{}
	}
	var first [sha256.Size]byte
	for id, until := range s.until {
		if !now.Before(until) {
			delete(s.until, id)
		} else if end, ok := s.until[first]; !ok || until.Before(end) {
			first = id
		}
	}
	if len(s.until) >= mostSessions {
		delete(s.until, first)
	}
	s.until[sha256.Sum256([]byte(secret))] = now.Add(sessionsLast)
	return &http.Cookie{
		Name: cookieName, Value: secret, Path: "/", MaxAge: int(sessionsLast / time.Second),
		HttpOnly: true, SameSite: http.SameSiteStrictMode,
	}, nil
}

// has reports whether a request carries the cookie of a session that has not ended.
func (s *sessions) has(r *http.Request, now time.Time) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, c := range r.CookiesNamed(cookieName) {
		if until, ok := s.until[sha256.Sum256([]byte(c.Value))]; ok && now.Before(until) {
			return true
		}
	}
	return false
}
