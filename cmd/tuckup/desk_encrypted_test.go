package main

import (
	"crypto/x509"
	"encoding/pem"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"tuckup/reports/desk/authority"
	"tuckup/reports/desk/visit"
)

// A phone that trusts the desk's authority is paired, keeps the pages of the day, and opens them with the network cut; what is ticked then is
// written down when the desk is back. One that does not trust it is warned by its browser.
func TestAPhoneThatTrustsTheDeskOpensItWithTheNetworkCut(t *testing.T) {
	visit.Browser(t)
	book, s := phoneDesk(t)
	a, err := authority.Open(t.TempDir(), time.Now())
	if err != nil {
		t.Fatal(err)
	}
	x, err := a.For([]string{"127.0.0.1"}, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	n := betweenWith(t, s.base, x)
	n.guardedWith(t, x)
	trusted, err := x509.ParseCertificate(x.DER())
	if err != nil {
		t.Fatal(err)
	}
	v := visit.Trusting(t, n.URL, trusted)
	v.Screen(visit.Phone)
	v.Open("/today")
	if v.At() != "/pair" {
		t.Fatal("it is led to", v.At())
	}
	n.pairs(v)
	if v.At() != "/today" {
		t.Fatal("paired it is led to", v.At())
	}
	untilPlanned(v)
	if !visit.Ask[bool](v, `navigator.serviceWorker.ready.then((worker) => isSecureContext && worker.active !== null)`) {
		t.Fatal("the browser keeps no pages")
	}
	v.Open("/today") // the worker is there now
	untilKept(v, 5)

	n.Listener.Close() // the network is cut, first for what would connect again
	n.CloseClientConnections()
	v.Open("/today")
	untilSays(v, ".kept-page", "The desk does not answer. This is the page as it was")
	dog := firstDog(v)
	v.Click(".day-thumb button", "Done: "+dog)
	untilSays(v, ".kept-words", "On this phone.")
	v.Shot("encrypted-offline-390")
	if got := worked(t, book); len(got) != 0 {
		t.Fatalf("the book has the work of %q", got)
	}
	forgiveAClosedDesk(v)
	v.Forgive("ERR_CONNECTION")
	v.Quiet()
}

// The desk makes its authority once and says where a phone learns to trust it; encryption can be left out, and is about other machines only.
func TestTheDeskMakesItsAuthorityOnce(t *testing.T) {
	freshHome(t)
	state := os.Getenv("XDG_STATE_HOME")
	made := func(args ...string) *x509.Certificate {
		t.Helper()
		_, stop := openedDesk(t, args...)
		stop()
		data, err := os.ReadFile(filepath.Join(state, "tuckup", "desk-authority.crt"))
		if err != nil {
			return nil
		}
		b, _ := pem.Decode(data)
		c, err := x509.ParseCertificate(b.Bytes)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	if made() != nil || made("--lan", "--unencrypted") != nil {
		t.Error("one is made that nobody needs")
	}
	first := made("--lan")
	if first == nil || !first.Equal(made("--lan")) {
		t.Error("it is not made once")
	}
	if err := os.WriteFile(filepath.Join(state, "tuckup", "desk-authority.key"), []byte("damaged"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"--lan"}, {"--unencrypted"}} {
		code, _, said := program(t.Context(), append([]string{"serve", "--demo", "--listen", "127.0.0.1:0"}, args...)...)
		if code != codeUsage || !strings.Contains(said, "Try: --lan --unencrypted") {
			t.Errorf("%v: %d %q", args, code, said)
		}
	}
}
