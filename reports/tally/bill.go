package tally

import (
	"tuckup/kennel"
	"tuckup/reports/layout"
)

// Bill is the work on an owner's dogs in a month, a line a dog.
type Bill struct {
	Month   kennel.Date // its first day
	Lines   []BillLine
	Minutes layout.Hundredths
	Amount  string // in the currency, written; empty where nothing is charged
	Rule    string // how minutes are counted
}

// BillLine is the work on one dog.
type BillLine struct {
	Dog              string
	Sessions, Duties int
	Minutes          layout.Hundredths // as counted
	Amount           string
}
