package authority

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"net"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

var opened = time.Date(2027, 1, 4, 8, 0, 0, 0, time.UTC)

func open(t *testing.T, folder string, now time.Time) *Authority {
	t.Helper()
	a, err := Open(folder, now)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// trusts reports why a phone that trusts the authority refuses a certificate for a host at a time; nil = it does not.
func (a *Authority) trusts(leaf *x509.Certificate, host string, at time.Time) error {
	roots := x509.NewCertPool()
	roots.AddCert(a.cert)
	_, err := leaf.Verify(x509.VerifyOptions{DNSName: host, Roots: roots, CurrentTime: at, KeyUsages: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}})
	return err
}

func TestAnAuthorityIsMadeOnceAndItsKeyIsForItsOwnerAlone(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "state", "tuckup")
	first := open(t, folder, opened)
	if again := open(t, folder, opened.AddDate(8, 0, 0)); !again.cert.Equal(first.cert) || !again.key.Equal(first.key) {
		t.Error("it is made again while it lasts")
	}
	if later := open(t, folder, opened.AddDate(10, 0, 0)); later.cert.Equal(first.cert) {
		t.Error("one that ends before what it signs is used on")
	}
	if info, err := os.Stat(filepath.Join(folder, keyFile)); err != nil || runtime.GOOS != "windows" && info.Mode().Perm() != 0o600 {
		t.Errorf("the key can be read by others: %v %v", info.Mode(), err)
	}
	if left, err := filepath.Glob(filepath.Join(folder, ".*")); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
	if got := first.Fingerprint(); len(strings.Fields(got)) != 16 || got == open(t, t.TempDir(), opened).Fingerprint() {
		t.Errorf("the fingerprint is %q", got)
	}
}

func TestADamagedAuthorityIsSaidAndNotWrittenOver(t *testing.T) {
	for name, spoil := range map[string]func(folder string) error{
		"no key": func(f string) error { return os.WriteFile(filepath.Join(f, keyFile), []byte("gone"), 0o600) },
		"another's key": func(f string) error {
			other := t.TempDir()
			open(t, other, opened)
			data, err := os.ReadFile(filepath.Join(other, keyFile))
			if err != nil {
				return err
			}
			return os.WriteFile(filepath.Join(f, keyFile), data, 0o600)
		},
		"no certificate": func(f string) error { return os.WriteFile(filepath.Join(f, certFile), []byte("gone"), 0o600) },
	} {
		folder := t.TempDir()
		open(t, folder, opened)
		if err := spoil(folder); err != nil {
			t.Fatal(err)
		}
		before, _ := os.ReadFile(filepath.Join(folder, certFile))
		if _, err := Open(folder, opened); err == nil || !strings.Contains(err.Error(), folder) {
			t.Errorf("%s: %v", name, err)
		}
		if after, _ := os.ReadFile(filepath.Join(folder, certFile)); string(after) != string(before) {
			t.Errorf("%s: it was written over", name)
		}
	}
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(filepath.Join(file, "tuckup"), opened); err == nil {
		t.Error("where no folder can be made nothing is said")
	}
}

func TestACertificateIsForTheDesksAddressesAndIsMadeAgainBeforeItEnds(t *testing.T) {
	a := open(t, t.TempDir(), opened)
	now := opened
	d, err := a.For([]string{"127.0.0.1", "localhost", "192.168.1.7", "10.0.0.3"}, func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	first, err := d.certificate()
	if err != nil {
		t.Fatal(err)
	}
	for _, host := range []string{"127.0.0.1", "localhost", "192.168.1.7", "10.0.0.3"} {
		if err := a.trusts(first.Leaf, host, now); err != nil {
			t.Errorf("%s: %v", host, err)
		}
	}
	if err := a.trusts(first.Leaf, "192.168.1.8", now); err == nil {
		t.Error("it is for an address that it was not made for")
	}
	if lasts := first.Leaf.NotAfter.Sub(first.Leaf.NotBefore); lasts > 397*24*time.Hour || lasts < 300*24*time.Hour {
		t.Errorf("it lasts %v", lasts)
	}
	now = first.Leaf.NotAfter.Add(-31 * 24 * time.Hour)
	if same, err := d.certificate(); err != nil || same != first {
		t.Error("it is made again though it lasts")
	}
	now = first.Leaf.NotAfter.Add(-29 * 24 * time.Hour)
	next, err := d.certificate()
	if err != nil || next == first || a.trusts(next.Leaf, "192.168.1.7", first.Leaf.NotAfter.Add(time.Hour)) != nil {
		t.Errorf("it is not made again before it ends: %v", err)
	}
	if _, err := a.For([]string{"203.0.113.9"}, func() time.Time { return now }); err == nil {
		t.Error("it is made for an address of the internet")
	}
}

// Whoever has the key can't pass for a site of the internet: phones refuse what it signs for one.
func TestAnAuthorityCanVouchForNothingElse(t *testing.T) {
	a := open(t, t.TempDir(), opened)
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	sign := func(host string, change func(*x509.Certificate)) *x509.Certificate {
		t.Helper()
		_, serial, err := newKey()
		if err != nil {
			t.Fatal(err)
		}
		c := &x509.Certificate{SerialNumber: serial, NotBefore: opened, NotAfter: opened.AddDate(0, 1, 0), ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}}
		if ip := net.ParseIP(host); ip != nil {
			c.IPAddresses = []net.IP{ip}
		} else {
			c.DNSNames = []string{host}
		}
		change(c)
		der, err := x509.CreateCertificate(rand.Reader, c, a.cert, key.Public(), a.key)
		if err != nil {
			t.Fatal(err)
		}
		c, err = x509.ParseCertificate(der)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	as := func(*x509.Certificate) {}
	at := opened.AddDate(0, 0, 1)
	for _, host := range []string{"192.168.1.7", "10.1.2.3", "172.31.0.1", "kennel.local", "localhost"} {
		if err := a.trusts(sign(host, as), host, at); err != nil || !allowed(host) {
			t.Errorf("%s: %v, allowed %v", host, err, allowed(host))
		}
	}
	for _, host := range []string{"example.com", "local.example.com", "notlocal", "203.0.113.9", "8.8.8.8", "172.32.0.1", "2001:db8::1"} {
		if a.trusts(sign(host, as), host, at) == nil || allowed(host) {
			t.Errorf("it can vouch for %s", host)
		}
	}
	// nor can it make another authority that could
	below := sign("kennel.local", func(c *x509.Certificate) {
		c.IsCA, c.BasicConstraintsValid, c.KeyUsage = true, true, x509.KeyUsageCertSign
	})
	_, serial, err := newKey()
	if err != nil {
		t.Fatal(err)
	}
	der, err := x509.CreateCertificate(rand.Reader, &x509.Certificate{
		SerialNumber: serial, NotBefore: opened, NotAfter: opened.AddDate(0, 1, 0), DNSNames: []string{"kennel.local"}, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}, below, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	roots, between := x509.NewCertPool(), x509.NewCertPool()
	roots.AddCert(a.cert)
	between.AddCert(below)
	if _, err := leaf.Verify(x509.VerifyOptions{DNSName: "kennel.local", Roots: roots, Intermediates: between, CurrentTime: at}); err == nil {
		t.Error("it can make an authority below it")
	}
}
