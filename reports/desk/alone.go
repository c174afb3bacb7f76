package desk

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"io"
	"net/http"
	"regexp"
	"strings"
)

var styles = regexp.MustCompile(`(?s)<style>(.*?)</style>`)

// alone answers with a page that has its own style inside, like those that are printed. The desk's pages may bring no style with them, so the
// browser is given the sums of those that this page has, and of no other; a script it may not have at all.
func (d *Desk) alone(w http.ResponseWriter, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	h := w.Header()
	letStyle(h, b.Bytes())
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Cache-Control", "no-store")
	_, err := w.Write(d.reader().page(b.Bytes()))
	return err
}

// letStyle lets the browser use the styles inside a page, and nothing else of it.
func letStyle(h http.Header, page []byte) {
	var sums []string
	for _, m := range styles.FindAllSubmatch(page, -1) {
		sum := sha256.Sum256(m[1])
		sums = append(sums, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	h.Set("Content-Security-Policy", "default-src 'none'; style-src "+strings.Join(sums, " ")+"; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
}
