package authority

import (
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"fmt"
	"net"
	"sync"
	"time"
)

// Desk is the encryption of a desk: a certificate for its hosts, which is made when the desk opens and made again before it ends. Its methods may
// be called from several goroutines.
type Desk struct {
	*Authority
	hosts []string
	now   func() time.Time

	mu   sync.Mutex
	leaf *tls.Certificate
}

// For is the encryption of a desk that is called by the hosts: addresses of private networks, or names of the machine, without ports. The
// error names a host that the authority may not sign for.
func (a *Authority) For(hosts []string, now func() time.Time) (*Desk, error) {
	for _, h := range hosts {
		if !allowed(h) {
			return nil, fmt.Errorf("%q is not an address of a private network", h)
		}
	}
	d := &Desk{Authority: a, hosts: hosts, now: now}
	_, err := d.certificate()
	return d, err
}

// Config is what a server encrypts with.
func (d *Desk) Config() *tls.Config {
	return &tls.Config{
		MinVersion: tls.VersionTLS12, NextProtos: []string{"http/1.1"},
		GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) { return d.certificate() },
	}
}

// certificate is the desk's, with its authority's behind it.
func (d *Desk) certificate() (*tls.Certificate, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	if d.leaf != nil && now.Add(renewBefore).Before(d.leaf.Leaf.NotAfter) {
		return d.leaf, nil
	}
	made, err := d.sign(now)
	if err == nil {
		d.leaf = made
	}
	return made, err
}

// sign makes a certificate and its key. The key is kept in memory only.
func (d *Desk) sign(now time.Time) (*tls.Certificate, error) {
	key, serial, err := newKey()
	if err != nil {
		return nil, err
	}
	from := now.Add(-clocksBehind)
	made := &x509.Certificate{
		SerialNumber: serial, Subject: pkix.Name{CommonName: "tuckup desk"}, NotBefore: from, NotAfter: from.Add(leafLasts),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}, BasicConstraintsValid: true,
	}
	for _, h := range d.hosts {
		if ip := net.ParseIP(h); ip != nil {
			made.IPAddresses = append(made.IPAddresses, ip)
		} else {
			made.DNSNames = append(made.DNSNames, h)
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, made, d.cert, key.Public(), d.key)
	if err != nil {
		return nil, err
	}
	leaf, err := x509.ParseCertificate(der)
	return &tls.Certificate{Certificate: [][]byte{der, d.cert.Raw}, PrivateKey: key, Leaf: leaf}, err
}
