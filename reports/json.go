package reports

import (
	"encoding/json"
	"io"
)

// writeJSON writes v indented, as one document with a line end. Numbers that are not finite are an error.
func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// Decimals of the numbers in JSON and CSV: enough that nothing is lost that a person or a check could want, few
// enough to read.
const (
	shareDecimals  = 6
	pointDecimals  = 6
	scoreDecimals  = 2
	chanceDecimals = 4
	priceDecimals  = 6
	hourDecimals   = 4
)
