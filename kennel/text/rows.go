package text

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"tuckup/kennel"
	"tuckup/kennel/fields"
)

// Rows are dogs and shows of a table or a calendar. Such a file tells less than a kennel file: what it leaves out stays
// as it is where the dog or the show is known already.
type Rows struct {
	Dogs  []Row[kennel.Dog]
	Shows []Row[kennel.Show]
}

// Row is what one row tells of a thing.
type Row[T any] struct {
	Name string
	On   kennel.Date // of a show
	Line int
	Set  func(*T) // writes what the row tells over what is known
}

// splitter stands between the names, or the layers, in one cell.
const splitter = ";"

// mostRows is how many rows a table may have.
const mostRows = 10000

// ReadCSV reads a table of dogs or of shows (RFC 4180, with commas, semicolons or tabs between the cells) whose first line names the columns: those of the kennel
// file. A table with a column pattern or coat is one of dogs, one with a column on is one of shows. The error is a
// *kennel.InputError with line and column.
func ReadCSV(name string, data []byte) (Rows, error) { return ReadTable(name, data, TableLook{}) }

// ReadTable is ReadCSV for a table of which is known how it is written.
func ReadTable(name string, data []byte, look TableLook) (Rows, error) {
	t := csvTable{file: name, look: look}
	rows, err := t.read(data)
	if err != nil {
		err.File = name
		return Rows{}, err
	}
	return rows, nil
}

type csvTable struct {
	file    string
	look    TableLook
	columns []string
}

// csvRow is one row with its cells by column.
type csvRow struct {
	of    *csvTable
	cells []string
	at    []place
	err   *kennel.InputError
}

var (
	dogColumns  = append(columns(fields.Dog), "coat", "spells")
	showColumns = append(columns(fields.Show), "away_from", "away_to", "dogs")
)

// columns are the names of the fields that are single values.
func columns[T any](t fields.Thing[T]) (names []string) {
	for _, f := range t.Single() {
		names = append(names, f.Name())
	}
	return names
}

func (t *csvTable) read(data []byte) (rows Rows, wrong *kennel.InputError) {
	if len(data) > largest {
		return rows, &kennel.InputError{Field: "size", Value: fmt.Sprintf("%d bytes", len(data)), What: "is too large for a table", Try: fmt.Sprintf("a file of at most %d bytes", largest)}
	}
	if wrong := stranger(data); wrong != nil {
		return rows, wrong
	}
	data = bytes.TrimPrefix(fromUTF16(data), []byte("\ufeff"))
	if wrong := checkBytes(data, true); wrong != nil {
		return rows, wrong
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma, r.FieldsPerRecord = cmp.Or(t.look.Separator, separator(data)), -1
	head, err := r.Read()
	if errors.Is(err, io.EOF) {
		return rows, &kennel.InputError{Line: 1, Column: 1, What: "the table is empty", Try: "a first line like " + strings.Join(showColumns[:2], ",")}
	}
	if err != nil {
		return rows, csvWrong(err)
	}
	if len(head) == 1 && strings.TrimSpace(head[0]) == "" {
		return rows, &kennel.InputError{Line: 1, Column: 1, What: "the first line names no columns", Try: "a first line like " + strings.Join(showColumns[:2], ",")}
	}
	shows, wrong := t.head(head, r)
	if wrong != nil {
		return rows, wrong
	}
	for n := 0; ; n++ {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return rows, csvWrong(err)
		}
		row := csvRow{of: t, cells: cells}
		for i := range cells {
			line, column := r.FieldPos(i)
			row.at = append(row.at, place{line: line, column: column})
		}
		if strings.TrimSpace(strings.Join(cells, "")) == "" {
			continue // a spreadsheet's empty row
		}
		if wrong := row.width(); wrong != nil {
			return Rows{}, wrong
		}
		if n >= mostRows {
			return rows, &kennel.InputError{Line: row.at[0].line, Column: 1, What: fmt.Sprintf("the table has more than %d rows", mostRows), Try: "several smaller tables"}
		}
		if shows {
			rows.Shows = append(rows.Shows, row.show())
		} else {
			rows.Dogs = append(rows.Dogs, row.dog())
		}
		if row.err != nil {
			return Rows{}, row.err
		}
	}
}

// head reads the names of the columns and says whether the table is one of shows.
func (t *csvTable) head(head []string, r *csv.Reader) (shows bool, wrong *kennel.InputError) {
	for _, h := range head {
		t.columns = append(t.columns, strings.ReplaceAll(strings.ToLower(strings.TrimSpace(h)), " ", "_"))
	}
	shows = slices.Contains(t.columns, "on")
	known := dogColumns
	if shows {
		known = showColumns
	}
	for i, c := range t.columns {
		line, column := r.FieldPos(i)
		switch {
		case !slices.Contains(known, c):
			return shows, &kennel.InputError{
				Line: line, Column: column, Field: "column", Value: shortened(head[i]), What: "is not a column that is known",
				Try: strings.Join(kennel.Nearest(c, known, nearKeys), ", ") + " (known are " + strings.Join(known, ", ") + ")",
			}
		case slices.Index(t.columns, c) < i:
			return shows, &kennel.InputError{Line: line, Column: column, Field: "column", Value: shortened(head[i]), What: "appears twice", Try: "leave one of the two out"}
		}
	}
	if !slices.Contains(t.columns, "name") {
		return shows, &kennel.InputError{Line: 1, Column: 1, Field: "column", Value: "name", What: "is missing", Try: "a first line that names the columns, one of them name"}
	}
	return shows, nil
}

// separator is the sign between the cells: of comma, semicolon and tab the one that the first line has most often.
func separator(data []byte) rune {
	head, _, _ := bytes.Cut(data, []byte("\n"))
	best, most := ',', 0
	for _, sign := range []rune{',', ';', '\t'} {
		if n := bytes.Count(head, []byte(string(sign))); n > most {
			best, most = sign, n
		}
	}
	return best
}

// width refuses a row with more cells than there are columns; cells that are left out at its end are empty.
func (r *csvRow) width() *kennel.InputError {
	n := len(r.of.columns)
	if len(r.cells) <= n || strings.TrimSpace(strings.Join(r.cells[n:], "")) == "" {
		return nil
	}
	return &kennel.InputError{
		Line: r.at[n].line, Column: r.at[n].column, Field: "cell", Value: shortened(r.cells[n]),
		What: fmt.Sprintf("is in no column: the first line names %d", n), Try: "quotes around a cell that holds the sign between cells, like \"0,5\"",
	}
}

// csvWrong places what the CSV reader says.
func csvWrong(err error) *kennel.InputError {
	in := &kennel.InputError{What: "the table can't be read", Try: "quotes around the whole of every cell that holds a comma or a quote, and two for each quote in it"}
	var at *csv.ParseError
	if errors.As(err, &at) {
		in.Line, in.Column, in.Field, in.What = at.Line, at.Column, "cell", "has a quote in it that does not go around all of it"
	}
	return in
}

// cell is what stands under a column, "" where the table or the row has nothing.
func (r *csvRow) cell(column string) string {
	if i := slices.Index(r.of.columns, column); i >= 0 && i < len(r.cells) {
		s := r.cells[i]
		if strings.ContainsFunc(s, breaks) {
			r.fail(column, "holds a line break or a control character", "words on one line")
			return ""
		}
		return r.of.look.Dates.ordered(column, strings.TrimSpace(s))
	}
	return ""
}

// fail keeps the row's first trouble.
func (r *csvRow) fail(column, what, try string) {
	if r.err != nil {
		return
	}
	in := &kennel.InputError{Field: column, What: what, Try: try}
	if i := slices.Index(r.of.columns, column); i >= 0 && i < len(r.cells) {
		in.Value, in.Line, in.Column = shortened(r.cells[i]), r.at[i].line, r.at[i].column
	} else if len(r.at) > 0 {
		in.Line, in.Column = r.at[0].line, 1
	}
	r.err = in
}

// refuse keeps why a cell's words can't be read.
func (r *csvRow) refuse(column string, err error) {
	var in *kennel.InputError
	if errors.As(err, &in) {
		r.fail(column, in.What, in.Try)
	}
}

// set gives a setter for a cell, nil where the cell is empty. read turns its words into a value.
func set[T, V any](r *csvRow, column string, read func(string) (V, error), write func(*T, V)) func(*T) {
	words := r.cell(column)
	if words == "" {
		return nil
	}
	v, err := read(words)
	r.refuse(column, err)
	return func(to *T) { write(to, v) }
}

// all is one setter of several.
func all[T any](sets ...func(*T)) func(*T) {
	return func(to *T) {
		for _, s := range sets {
			if s != nil {
				s(to)
			}
		}
	}
}

func (r *csvRow) name() string {
	n, err := asText(r.cell("name"))
	r.refuse("name", err)
	if n == "" {
		r.fail("name", "is missing", "a name in every row")
	}
	return n
}
