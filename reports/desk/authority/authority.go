// Package authority gives the desk a certificate of its own: a small authority that is made once on a machine, which phones can be asked
// to trust, and certificates for the machine's addresses that it signs. What it may sign for is bounded in its own certificate: addresses
// of private networks and the machine itself, so that who has its key can't pass for any site of the internet.
//
// What it can't do: whoever has the key file can pass for the desk on networks of the phones that trust it, and read what is sent to it there.
package authority

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"net"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// How long certificates last. Phones refuse those of a server that last longer than leafLasts.
const (
	authorityLasts = 10 * 365 * 24 * time.Hour
	leafLasts      = 397*24*time.Hour - time.Hour // an hour of it lies before it is made, for clocks that are behind
	renewBefore    = 30 * 24 * time.Hour
	clocksBehind   = time.Hour
)

// The files of an authority in its folder: its certificate, and its key, which nobody else may read.
const (
	certFile = "desk-authority.crt"
	keyFile  = "desk-authority.key"
	keyMode  = 0o600
	certMode = 0o644
	dirMode  = 0o700
)

// private are the networks that an authority may sign addresses of.
var private = []string{"127.0.0.0/8", "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16"}

// ownNames are the names that it may sign: the machine itself, and names that are only of a local network.
var ownNames = []string{"localhost", "local"}

// Authority signs the certificates of one machine's desk.
type Authority struct {
	cert *x509.Certificate
	key  *ecdsa.PrivateKey
}

// Open reads the authority of a folder, or makes one where there is none or the old one ends soon. Its keys are of the system's own randomness. The error says which file can't be used.
func Open(folder string, now time.Time) (*Authority, error) {
	a, err := read(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, err
	case now.Add(leafLasts).Before(a.cert.NotAfter): // as long as what it signs
		return a, nil
	}
	return create(folder, now)
}

func read(folder string) (*Authority, error) {
	file := filepath.Join(folder, certFile)
	cert, err := block(file, "CERTIFICATE", x509.ParseCertificate)
	if err != nil {
		return nil, err
	}
	name := filepath.Join(folder, keyFile)
	key, err := block(name, "EC PRIVATE KEY", x509.ParseECPrivateKey)
	switch public, ok := cert.PublicKey.(*ecdsa.PublicKey); {
	case err != nil:
		return nil, err
	case !ok || !public.Equal(key.Public()) || !cert.IsCA || !cert.PermittedDNSDomainsCritical:
		return nil, fmt.Errorf("%s does not belong to %s", file, name)
	}
	return &Authority{cert, key}, nil
}

// block reads the one block of a PEM file.
func block[T any](file, kind string, parse func([]byte) (T, error)) (x T, err error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return x, err
	}
	b, rest := pem.Decode(data)
	if b == nil || b.Type != kind || len(bytes.TrimSpace(rest)) > 0 {
		return x, fmt.Errorf("%s is damaged", file)
	}
	if x, err = parse(b.Bytes); err != nil {
		return x, fmt.Errorf("%s is damaged: %w", file, err)
	}
	return x, nil
}

// create makes an authority and writes its files, the key first.
func create(folder string, now time.Time) (*Authority, error) {
	key, serial, err := newKey()
	if err != nil {
		return nil, err
	}
	made := &x509.Certificate{
		SerialNumber: serial, Subject: pkix.Name{CommonName: "tuckup desk, made " + now.Format("2 January 2006")},
		NotBefore: now.Add(-clocksBehind), NotAfter: now.Add(authorityLasts),
		IsCA: true, BasicConstraintsValid: true, MaxPathLenZero: true,
		KeyUsage: x509.KeyUsageCertSign, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		PermittedDNSDomainsCritical: true, PermittedDNSDomains: ownNames,
	}
	for _, network := range private {
		_, n, err := net.ParseCIDR(network)
		if err != nil {
			return nil, err
		}
		made.PermittedIPRanges = append(made.PermittedIPRanges, n)
	}
	der, err := x509.CreateCertificate(rand.Reader, made, made, key.Public(), key)
	if err != nil {
		return nil, err
	}
	secret, err := x509.MarshalECPrivateKey(key)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(folder, dirMode); err != nil {
		return nil, err
	}
	for _, f := range []struct {
		name, kind string
		data       []byte
		mode       os.FileMode
	}{{keyFile, "EC PRIVATE KEY", secret, keyMode}, {certFile, "CERTIFICATE", der, certMode}} {
		if err := write(filepath.Join(folder, f.name), pem.EncodeToMemory(&pem.Block{Type: f.kind, Bytes: f.data}), f.mode); err != nil {
			return nil, err
		}
	}
	cert, err := x509.ParseCertificate(der)
	return &Authority{cert, key}, err
}

// write puts a file in its place, whole.
func write(file string, data []byte, mode os.FileMode) error {
	temp, err := os.CreateTemp(filepath.Dir(file), ".authority-*") // for nobody else to read
	if err != nil {
		return err
	}
	defer os.Remove(temp.Name()) // gone already where it took its place
	_, err = temp.Write(data)
	if err := errors.Join(err, temp.Chmod(mode), temp.Sync(), temp.Close()); err != nil {
		return err
	}
	return os.Rename(temp.Name(), file)
}

// newKey is a key for a certificate, with a serial number that no other has.
func newKey() (key *ecdsa.PrivateKey, serial *big.Int, err error) {
	if key, err = ecdsa.GenerateKey(elliptic.P256(), rand.Reader); err != nil {
		return nil, nil, err
	}
	const bits = 120
	serial, err = rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), bits))
	return key, serial, err
}

// DER is the authority's certificate as phones take it.
func (a *Authority) DER() []byte { return a.cert.Raw }

// Until is when the authority ends.
func (a *Authority) Until() time.Time { return a.cert.NotAfter }

// Fingerprint is the SHA-256 of the authority's certificate in groups that people can compare.
func (a *Authority) Fingerprint() string {
	var groups []string
	sum := sha256.Sum256(a.cert.Raw)
	for i := 0; i < len(sum); i += 2 {
		groups = append(groups, fmt.Sprintf("%02X%02X", sum[i], sum[i+1]))
	}
	return strings.Join(groups, " ")
}

// allowed reports whether the authority may sign for a host, an address or a name.
func allowed(host string) bool {
	a, err := netip.ParseAddr(host)
	if err != nil {
		return host == "localhost" || strings.HasSuffix(host, ".local")
	}
	for _, network := range private {
		if netip.MustParsePrefix(network).Contains(a) {
			return true
		}
	}
	return false
}
