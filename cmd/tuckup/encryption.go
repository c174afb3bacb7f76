package main

import (
	"fmt"
	"net"
	"path/filepath"

	"tuckup/reports/desk/authority"
	"tuckup/reports/desk/guard"
)

// encryption is how the desk answers other machines; nil = none may ask, or without encryption. The authority is made once for all desks of this
// user: a phone that trusts it goes on to trust it, whichever book is open.
func (a *app) encryption(f serveFlags, hosts []string) (guard.Encryption, error) {
	if !f.lan || f.plain {
		return nil, nil
	}
	dir, err := stateFolder()
	if err != nil {
		return nil, noCertificate(err)
	}
	x, err := authority.Open(filepath.Join(dir, "tuckup"), a.now())
	if err != nil {
		return nil, noCertificate(err)
	}
	var names []string
	for _, h := range hosts {
		if name, _, err := net.SplitHostPort(h); err == nil {
			h = name
		}
		names = append(names, h)
	}
	d, err := x.For(names, a.now)
	if err != nil {
		return nil, noCertificate(err)
	}
	return d, nil
}

// noCertificate says why the desk has none.
func noCertificate(err error) error {
	return usage("--lan --unencrypted, to let phones in without encryption", "%s", fmt.Sprintf("the desk has no certificate of its own: %v", err))
}
