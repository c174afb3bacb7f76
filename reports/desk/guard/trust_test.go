package guard

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"

	"tuckup/reports/desk/authority"
)

// encryptedFor is the encryption of a desk that is called by the hosts.
func encryptedFor(t *testing.T, hosts ...string) *authority.Desk {
	t.Helper()
	a, err := authority.Open(t.TempDir(), time.Now())
	if err != nil {
		t.Fatal(err)
	}
	d, err := a.For(hosts, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// encrypted sends a request as ask does, on an encrypted connection.
func (d *trial) encrypted(from, host, method, target, body string, fields ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	r.RemoteAddr, r.Host, r.TLS = from, host, &tls.ConnectionState{}
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", "https://"+host)
	}
	r.Header.Set("Accept", "text/html")
	for i := 0; i < len(fields); i += 2 {
		r.Header.Set(fields[i], fields[i+1])
	}
	w := httptest.NewRecorder()
	d.Wrap(d.pages).ServeHTTP(w, r)
	return w
}

func TestWithoutEncryptionAPhoneIsOnlyLedToIt(t *testing.T) {
	x := encryptedFor(t, "192.168.1.7")
	d := newTrial(t, func(o *Options) { o.LAN, o.Encryption = true, x })
	for _, path := range []string{"/", "/today", "/pair", "/pair?code=AAAA-AAAA", "/worker.js", "/calendar.ics"} {
		if w := d.ask(phone, network, "GET", path, ""); w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/trust" || d.reached > 0 {
			t.Errorf("%s: %d to %q", path, w.Code, w.Header().Get("Location"))
		}
	}
	for _, path := range []string{"/pair", "/week", "/trust"} {
		if w := d.ask(phone, network, "POST", path, "code=x"); w.Code != http.StatusForbidden || !strings.Contains(w.Body.String(), "Try: https://") || d.reached > 0 {
			t.Errorf("a form for %s: %d %s", path, w.Code, w.Body)
		}
	}
	if len(d.codes) != 0 {
		t.Error("a code was announced")
	}
	w := d.ask(phone, network, "GET", "/trust", "")
	for _, words := range []string{x.Fingerprint(), "/trust/tuckup-desk.crt", "https://" + network + "/pair", "Android", "iPhone", "key file"} {
		if !strings.Contains(w.Body.String(), words) {
			t.Errorf("the page says nothing of %q", words)
		}
	}
	w = d.ask(phone, network, "GET", "/trust/tuckup-desk.crt", "")
	if c, err := x509.ParseCertificate(w.Body.Bytes()); err != nil || !c.IsCA || w.Header().Get("Content-Type") != "application/x-x509-ca-cert" {
		t.Errorf("it is sent %v, %v", c, err)
	}
	d.let(t, "the calendar's key", d.ask(phone, network, "GET", "/calendar.ics?key="+key, ""))
	d.let(t, "the desk's own machine", d.ask(here, home, "GET", "/week", ""))
	if w := d.ask("8.8.8.8:5000", network, "GET", "/trust", ""); w.Code != http.StatusForbidden {
		t.Errorf("another network: %d", w.Code)
	}
}

func TestAPhoneIsPairedWithEncryption(t *testing.T) {
	d := newTrial(t, func(o *Options) { o.LAN, o.Encryption = true, encryptedFor(t, "192.168.1.7") })
	if err := d.Open(); err != nil {
		t.Fatal(err)
	}
	p := d.codes[0]
	if len(p.URLs) != 1 || !strings.HasPrefix(p.URLs[0], "https://"+network+"/pair?code=") || len(p.Trust) != 1 || p.Trust[0] != "http://"+network+"/trust" || strings.Contains(p.Trust[0], p.Code) {
		t.Errorf("announced is %+v", p)
	}
	d.refused(t, "not paired", d.encrypted(phone, network, "GET", "/week", ""), http.StatusSeeOther)
	form := url.Values{"code": {p.Code}}.Encode()
	d.refused(t, "a form from a page without encryption", d.encrypted(phone, network, "POST", "/pair", form, "Origin", "http://"+network), http.StatusForbidden)
	w := d.encrypted(phone, network, "POST", "/pair", form)
	cookies := w.Result().Cookies()
	if w.Code != http.StatusSeeOther || len(cookies) != 1 || !cookies[0].Secure || !cookies[0].HttpOnly {
		t.Fatalf("%d %+v", w.Code, cookies)
	}
	cookie := cookies[0].Name + "=" + cookies[0].Value
	w = d.encrypted(phone, network, "GET", "/week", "", "Cookie", cookie)
	d.let(t, "paired", w)
	if w.Header().Get("Cross-Origin-Opener-Policy") != "same-origin" {
		t.Error("an encrypted page lacks the opener's policy")
	}
	d.let(t, "a form", d.encrypted(phone, network, "POST", "/week", "day=1", "Cookie", cookie))
	if w := d.ask(phone, network, "GET", "/week", "", "Cookie", cookie); w.Code != http.StatusSeeOther || d.reached > 0 {
		t.Errorf("paired, but without encryption: %d", w.Code)
	}
}

// One port answers both: who asks without encryption on this machine, and who trusts the desk's authority with it.
func TestOnePortAnswersWithAndWithoutEncryption(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	l, hosts, err := Listen(ctx, "127.0.0.1:0", false)
	if err != nil {
		t.Fatal(err)
	}
	x := encryptedFor(t, "127.0.0.1", "localhost")
	g, err := New(Options{Now: time.Now, Random: &counting{}, Hosts: hosts, Encryption: x})
	if err != nil {
		t.Fatal(err)
	}
	times := DefaultTimes()
	times.Header, times.Stop = 300*time.Millisecond, time.Second
	ended := make(chan error, 1)
	go func() {
		ended <- g.Serve(ctx, l, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { fmt.Fprint(w, "encrypted: ", r.TLS != nil) }), times)
	}()
	silent, err := net.Dial("tcp4", hosts[0]) // it holds up nobody, and is hung up on
	if err != nil {
		t.Fatal(err)
	}
	defer silent.Close()
	trusting := x509.NewCertPool()
	c, err := x509.ParseCertificate(x.DER())
	if err != nil {
		t.Fatal(err)
	}
	trusting.AddCert(c)
	get := func(address string, roots *x509.CertPool) (string, error) {
		client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}, DisableKeepAlives: true}}
		resp, err := client.Get(address)
		if err != nil {
			return "", err
		}
		defer resp.Body.Close()
		body, err := io.ReadAll(resp.Body)
		return string(body), err
	}
	for address, want := range map[string]string{"http://" + hosts[0]: "encrypted: false", "https://" + hosts[0]: "encrypted: true", "https://" + hosts[1]: "encrypted: true"} {
		for range 3 {
			if got, err := get(address, trusting); err != nil || got != want {
				t.Errorf("%s: %q, %v", address, got, err)
			}
		}
	}
	if got, err := get("https://"+hosts[0], x509.NewCertPool()); err == nil {
		t.Errorf("who does not trust the authority is answered %q", got)
	}
	if err := silent.SetReadDeadline(time.Now().Add(5 * time.Second)); err != nil {
		t.Fatal(err)
	}
	if _, err := silent.Read(make([]byte, 1)); !errors.Is(err, io.EOF) {
		t.Errorf("who says nothing is not hung up on: %v", err)
	}
	stop()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(5 * time.Second):
		t.Error("the desk does not stop")
	}
	if _, err := get("http://"+hosts[0], trusting); err == nil {
		t.Error("it answers after its end")
	}
}
