package guard

import (
	"crypto/tls"
	_ "embed"
	"html/template"
	"net/http"

	"tuckup/reports/desk/assets"
)

// Encryption is how the desk answers other machines: with a certificate of an authority of its own, which they can be asked to trust.
type Encryption interface {
	Config() *tls.Config
	DER() []byte         // the authority's certificate
	Fingerprint() string // of it, for people to compare
}

// Where a phone is led that asks without encryption, and fetches the authority's certificate.
const (
	trustPath     = "/trust"
	authorityPath = "/trust/tuckup-desk.crt"
)

//go:embed trust.html
var trustHTML string

var trustPage = template.Must(template.New("trust").Parse(trustHTML))

// led reports whether a request is from another machine without encryption, where there is one: it is only led to it. A calendar
// program with the key is answered: few of them can be asked to trust an authority.
func (g *Guard) led(r *http.Request) bool {
	calendar := r.URL.Path == g.o.CalendarPath && r.URL.Query().Has("key")
	return g.o.Encryption != nil && r.TLS == nil && !g.own(remote(r)) && !public(r) && !calendar
}

// serveTrust says how a phone is made to trust the desk, and sends the authority's certificate.
func (g *Guard) serveTrust(w http.ResponseWriter, r *http.Request) {
	switch {
	case !safe(r.Method):
		http.Error(w, "Nothing is taken without encryption; nothing was changed.\nTry: https://"+r.Host+"/", http.StatusForbidden)
	case r.URL.Path == authorityPath:
		w.Header().Set("Content-Type", "application/x-x509-ca-cert")
		w.Header().Set("Content-Disposition", `attachment; filename="tuckup-desk.crt"`)
		// What fails here is the connection, and nobody is left to tell.
		_, _ = w.Write(g.o.Encryption.DER())
	case r.URL.Path != trustPath:
		http.Redirect(w, r, trustPath, http.StatusSeeOther)
	default:
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		_ = trustPage.Execute(w, struct {
			Head                    template.HTML
			File, Fingerprint, Desk string
		}{assets.Style(), authorityPath, g.o.Encryption.Fingerprint(), "https://" + r.Host + pairPath})
	}
}
