package desk

import (
	"net/http"

	"tuckup/reports/desk/guard"
)

// samplePath leads to a made-up string to look round in: a desk of its own, with a book of its own.
const samplePath = "/sample"

// maySample reports whether the made-up string can be opened from where the request comes from: it answers its own machine only.
func (d *Desk) maySample(r *http.Request) bool { return d.opt.Sample != nil && guard.OwnMachine(r) }

func (d *Desk) sample(w http.ResponseWriter, r *http.Request) error {
	if !d.maySample(r) {
		return notFound("page")
	}
	address, err := d.opt.Sample(r.Context())
	if err != nil {
		return err
	}
	http.Redirect(w, r, address, http.StatusSeeOther)
	return nil
}
