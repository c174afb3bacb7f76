package guard

import (
	"net/http"
	"strings"

	"tuckup/reports/desk/assets"
)

// policy is the content security policy of every page: its own files only, nothing written into the page runs, nobody
// frames it, and its forms go nowhere else. The style sheet has its little pictures inside, hence data:.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; " +
	"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// setHeaders sets what every answer carries. The referrer is kept from other sites, but not from the desk: without it
// browsers send forms with the origin "null". The opener policy goes only with the names of the desk's own machine: elsewhere
// browsers heed it only with encryption, and complain.
func setHeaders(h http.Header, r *http.Request) {
	h.Set("Content-Security-Policy", policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Referrer-Policy", "same-origin")
	if ownName(r.Host) || r.TLS != nil {
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
	}
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cross-Origin-Embedder-Policy", "require-corp")
	h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()")
	h.Set("Cache-Control", "no-store")
}

// ownName reports whether a host is a name of the machine that only itself can use.
func ownName(host string) bool {
	return strings.HasPrefix(host, "127.") || strings.HasPrefix(host, "localhost")
}

// public reports whether a request is for a file that every page uses, and which says nothing of the kennel.
func public(r *http.Request) bool {
	return safe(r.Method) && strings.HasPrefix(r.URL.Path, assets.Prefix)
}
