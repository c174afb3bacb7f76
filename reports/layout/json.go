package layout

import (
	"encoding/json"
	"io"
)

// JSON writes v indented, as one document with a line end. Numbers that are not finite are an error.
func JSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

// Decimals of the numbers in JSON and CSV: enough that nothing is lost that a person or a check could want, few
// enough to read.
const (
	ShareDecimals  = 6
	PointDecimals  = 6
	ScoreDecimals  = 2
	ChanceDecimals = 4
	PriceDecimals  = 6
	HourDecimals   = 4
)
