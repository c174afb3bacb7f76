package reports

import (
	"context"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/sample"
)

// sheetCell is a cell of a spreadsheet as LibreOffice wrote it.
type sheetCell struct{ text, formula string }

// cellsOf reads the rows of a flat OpenDocument spreadsheet.
func cellsOf(t *testing.T, file string) (rows [][]sheetCell) {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var cell *sheetCell
	times, paragraphs := 1, 0
	for d := xml.NewDecoder(f); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return rows
		}
		if err != nil {
			t.Fatal(err)
		}
		switch x := token.(type) {
		case xml.StartElement:
			switch x.Name.Local {
			case "table-row":
				rows = append(rows, nil)
			case "table-cell":
				cell, times, paragraphs = &sheetCell{}, 1, 0
				for _, a := range x.Attr {
					switch a.Name.Local {
					case "formula":
						cell.formula = a.Value
					case "number-columns-repeated":
						times, _ = strconv.Atoi(a.Value)
					}
				}
			case "p":
				if paragraphs++; cell != nil && paragraphs > 1 {
					cell.text += "\n"
				}
			}
		case xml.CharData:
			if cell != nil && paragraphs > 0 {
				cell.text += string(x)
			}
		case xml.EndElement:
			if x.Name.Local == "table-cell" && len(rows) > 0 {
				for range min(times, 40) {
					rows[len(rows)-1] = append(rows[len(rows)-1], *cell)
				}
				cell = nil
			}
		}
	}
}

// LibreOffice opens every CSV with the columns that it has, and takes nothing for a formula.
func TestASpreadsheetOpensTheCSVAndRunsNothing(t *testing.T) {
	office, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("there is no LibreOffice: ", err)
	}
	dir := t.TempDir()
	var files []string
	put := func(name string, data []byte) {
		file := filepath.Join(dir, name+".csv")
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	formulas := []string{"=1+1", "+1+1", "@SUM(1)", "-1+1", sample.FormulaName, "  =1+1", "=HYPERLINK(\"http://example.org\")"}
	for i, who := range formulas {
		for name, report := range csvReports {
			put(strings.ReplaceAll(name, " ", "-")+strconv.Itoa(i), bytesOf(t, report, sample.Hostile(who)))
		}
		k := kennel.Kennel{Dogs: []kennel.Dog{{Name: who, Owner: who}}}
		a, err := NewAccount(k, []kennel.Work{{Dog: who, On: sample.Date(1, 5), Hands: who, Minutes: 5, Duty: who}}, Terms{})
		if err != nil {
			t.Fatal(err)
		}
		put("account"+strconv.Itoa(i), bytesOf(t, func(w io.Writer, _ optimize.Result) error { return AccountCSV(w, a) }, optimize.Result{}))
	}
	put("unsafe", []byte("name,minutes\r\n=1+1,2\r\n")) // what is not made safe must be found
	ctx, stop := context.WithTimeout(context.Background(), 4*time.Minute)
	defer stop()
	// UTF-8, commas, quotes, and formulas looked for in every cell: the most that the import can run.
	args := append([]string{
		"-env:UserInstallation=file://" + filepath.Join(dir, "profile"), "--headless", "--infilter=CSV:44,34,76,1,,0,false,true,false,false,false,-1",
		"--convert-to", "fods", "--outdir", dir,
	}, files...)
	if out, err := exec.CommandContext(ctx, office, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	ran := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		converted, err := filepath.Glob(strings.TrimSuffix(file, ".csv") + "*.fods")
		if err != nil || len(converted) != 1 {
			t.Fatalf("%s became %v: %v", filepath.Base(file), converted, err)
		}
		got := cellsOf(t, converted[0])
		for y, row := range want {
			for x, cell := range row {
				var c sheetCell
				if y < len(got) && x < len(got[y]) {
					c = got[y][x]
				}
				if c.formula != "" {
					ran++
					if filepath.Base(file) != "unsafe.csv" {
						t.Errorf("%s: %q is run", filepath.Base(file), cell)
					}
				}
				_, notWords := strconv.ParseFloat(cell, 64)
				if notWords != nil && c.formula == "" && squeezed(c.text) != squeezed(cell) && !isWhen(cell) {
					t.Errorf("%s row %d column %d: %q became %q", filepath.Base(file), y+1, x+1, cell, c.text)
				}
			}
		}
	}
	if ran == 0 {
		t.Error("the formula that was not made safe was not found")
	}
}

// squeezed leaves out white space, which OpenDocument writes as elements, and the apostrophe that marks text.
func squeezed(s string) string {
	return strings.TrimPrefix(strings.Join(strings.Fields(s), ""), "'")
}

// isWhen reports whether the cell is a date or a time of day, which a spreadsheet shows in its own way.
func isWhen(s string) bool {
	_, notDate := time.Parse(time.DateOnly, s)
	return notDate == nil || s == "24:00" || len(s) == len("15:04") && s[2] == ':'
}
