package guard

import (
	"encoding/base32"
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
)

// Pairing is what the terminal shows, to type into the phone.
type Pairing struct {
	Code  string   // two groups of four letters and digits
	URLs  []string // the page of the phone, with the code filled in, by each name of the desk; the likeliest first
	Until time.Time

	Trust       []string // where a phone learns to trust the desk's certificate; empty = there is none
	Fingerprint string   // of its authority
}

// pairing is the code that is open now. It opens the desk to one machine, lasts codeLasts, and is withdrawn after
// wrongTries; then there is a pause before the next. 40 bits against 5 tries a minute are out of reach.
type pairing struct {
	mu    sync.Mutex
	code  string // without the dash; "" = none is open
	until time.Time
	left  int       // wrong tries that are left
	pause time.Time // no code before
}

const (
	codeLasts  = 10 * time.Minute
	wrongTries = 5
	codePause  = time.Minute
	codeBytes  = 5 // eight letters of five bits
)

// letters are 32 that are hard to mistake; who types an O, I or L means the figure.
var (
	letters    = base32.NewEncoding("0123456789ABCDEFGHJKMNPQRSTVWXYZ").WithPadding(base32.NoPadding)
	asTheyMean = strings.NewReplacer("-", "", " ", "", "O", "0", "I", "1", "L", "1")
)

// open makes sure that a code is open, and reports whether it is a new one. No code is open during the pause.
func (p *pairing) open(now time.Time, random io.Reader) (code string, until time.Time, isNew bool, err error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.code != "" && now.Before(p.until) || now.Before(p.pause) {
		return p.code, p.until, false, nil
	}
	b := make([]byte, codeBytes)
	if _, err := io.ReadFull(random, b); err != nil {
		return "", time.Time{}, false, fmt.Errorf("make a pairing code: %w", err)
	}
	p.code, p.until, p.left = letters.EncodeToString(b), now.Add(codeLasts), wrongTries
	return p.code, p.until, true, nil
}

// try uses the code up if it is the one that is open.
func (p *pairing) try(typed string, now time.Time) (ok bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.code == "" || !now.Before(p.until) {
		return false
	}
	if same(asTheyMean.Replace(strings.ToUpper(typed)), p.code) {
		p.code = ""
		return true
	}
	if p.left--; p.left == 0 {
		p.code, p.pause = "", now.Add(codePause)
	}
	return false
}

// words say which code is open, as the page where it is typed needs to know.
func (p *pairing) words(now time.Time) string {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch {
	case now.Before(p.pause):
		wait := int(p.pause.Sub(now).Round(time.Second) / time.Second)
		return fmt.Sprintf("Wrong codes were typed %d times, so the code was withdrawn. Open this page again in %d seconds: a new one then appears in the terminal.",
			wrongTries, max(wait, 1))
	case p.code == "" || !now.Before(p.until):
		return "No code is open: each works once, for ten minutes. Open this page again, and a new one appears in the terminal."
	}
	return "The terminal where the desk was started shows a code. It works once, for ten minutes."
}

// wrong says what is wrong with a code that was typed, after it was tried.
func (p *pairing) wrong(now time.Time) string {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.code == "" || !now.Before(p.until) {
		return "This code does not work, or does not work any more."
	}
	return fmt.Sprintf("This is not the code in the terminal. After %d more wrong tries it is withdrawn.", p.left)
}

func grouped(code string) string {
	return code[:len(code)/2] + "-" + code[len(code)/2:]
}

// announce tells the code that is open to the person at the terminal, after making one if there is none.
func (g *Guard) announce(hosts ...string) error {
	code, until, isNew, err := g.pairing.open(g.o.Now(), g.o.Random)
	if err != nil || !isNew || g.o.Announce == nil {
		return err
	}
	p := Pairing{Code: grouped(code), Until: until}
	scheme := "http://"
	if g.o.Encryption != nil {
		scheme = "https://"
		for _, host := range hosts {
			p.Trust = append(p.Trust, "http://"+host+trustPath)
		}
		p.Fingerprint = g.o.Encryption.Fingerprint()
	}
	for _, host := range hosts {
		p.URLs = append(p.URLs, scheme+host+pairPath+"?code="+p.Code)
	}
	g.o.Announce(p)
	return nil
}

// Open announces the first pairing code when other machines may ask; later ones are announced when a machine that is
// not paired asks for the desk and none is open. The error is that of Random.
func (g *Guard) Open() error {
	if !g.o.LAN {
		return nil
	}
	var hosts []string
	for _, h := range g.o.Hosts {
		if !ownName(h) {
			hosts = append(hosts, h)
		}
	}
	return g.announce(hosts...)
}
