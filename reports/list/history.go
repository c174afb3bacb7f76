package list

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"time"

	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// HistoryRow is one change of the book.
type HistoryRow struct {
	Change        int64
	At            time.Time
	Who, What     string
	Before, After string // JSON
	Undoes        int64  // 0 = none
	Undone        bool
}

type toldChange struct {
	Change int64           `json:"change"`
	At     string          `json:"at"`
	Who    string          `json:"who"`
	What   string          `json:"what"`
	Undoes int64           `json:"undoes,omitempty"`
	Undone bool            `json:"undone,omitempty"`
	Before json.RawMessage `json:"before"`
	After  json.RawMessage `json:"after"`
}

// History writes changes as a page of text, times in UTC.
func History(w io.Writer, rows []HistoryRow, l layout.Look) error {
	p := layout.NewPage(w, l)
	if len(rows) == 0 {
		p.Say(0, "", "nothing was changed yet")
	}
	t := layout.Table{Right: map[int]bool{0: true}}
	for _, r := range rows {
		what := say.Plain(r.What)
		switch {
		case r.Undone:
			what += " (taken back)"
		case r.Undoes > 0:
			what += fmt.Sprintf(" (change %d)", r.Undoes)
		}
		t.Add(strconv.FormatInt(r.Change, 10), r.At.UTC().Format("2006-01-02 15:04"), say.Plain(r.Who), what)
	}
	p.Table(0, t)
	return p.Done()
}

// HistoryJSON writes a list of objects, one for each change, with the rows that went and those that came.
func HistoryJSON(w io.Writer, rows []HistoryRow) error {
	docs := []toldChange{}
	for _, r := range rows {
		docs = append(docs, toldChange{
			r.Change, r.At.UTC().Format(time.RFC3339), r.Who, r.What, r.Undoes, r.Undone, json.RawMessage(r.Before), json.RawMessage(r.After),
		})
	}
	return layout.JSON(w, docs)
}

// HistoryCSV writes one row for each change.
func HistoryCSV(w io.Writer, rows []HistoryRow) error {
	var cells [][]string
	for _, r := range rows {
		undoes := ""
		if r.Undoes > 0 {
			undoes = strconv.FormatInt(r.Undoes, 10)
		}
		cells = append(cells, []string{
			strconv.FormatInt(r.Change, 10), r.At.UTC().Format(time.RFC3339), layout.Cell(r.Who), layout.Cell(r.What), undoes, strconv.FormatBool(r.Undone),
		})
	}
	return layout.CSV(w, []string{"change", "at", "who", "what", "undoes", "undone"}, cells)
}
