package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"io"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/net/html"

	"tuckup/optimize"
	"tuckup/reports/layout"
	"tuckup/reports/say"
)

// Kennels at the edges (nothing in them, no hours, names that try to do harm) come out of every report in every
// format as something that can be read.
func TestEveryReportOfEveryKennelCanBeRead(t *testing.T) {
	long(t, "plans whole seasons")
	files, err := filepath.Glob("../../testdata/kennels/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no kennels: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			r := planOf(t, "--kennel", file)
			for name, w := range map[string]writers{
				"plan":      planWriters(r, layout.Look{}),
				"readiness": readinessWriters(r, layout.Look{}),
				"workload":  workloadWriters(r, layout.Look{}, ""),
				"sheet":     sheetWriters(r, layout.Look{}),
			} {
				for format, write := range map[string]func(io.Writer) error{formatText: w.text, formatJSON: w.json, formatCSV: w.csv, formatHTML: w.html} {
					if write == nil {
						continue
					}
					if wrong := unreadable(format, written(t, write)); wrong != "" {
						t.Errorf("%s as %s: %s", name, format, wrong)
					}
				}
			}
		})
	}
}

// planOf is the plan that the program makes of these flags.
func planOf(t *testing.T, args ...string) (r optimize.Result) {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	a := newApp(io.Discard, io.Discard, time.Now)
	c := a.planCommand()
	c.RunE = func(c *cobra.Command, _ []string) (err error) {
		r, err = a.solve(c)
		return err
	}
	c.SetArgs(args)
	if err := c.ExecuteContext(context.Background()); err != nil {
		t.Fatal(err)
	}
	return r
}

func written(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// unreadable says what is wrong with a report, or nothing.
func unreadable(format, out string) string {
	switch format {
	case formatJSON:
		if !json.Valid([]byte(out)) {
			return "no JSON"
		}
	case formatCSV:
		if _, err := csv.NewReader(bytes.NewReader([]byte(out))).ReadAll(); err != nil {
			return err.Error()
		}
	case formatHTML:
		return unbalanced(out)
	default:
		for _, line := range strings.Split(out, "\n") {
			if say.Width(line) > layout.Columns {
				return "wider than the page: " + line
			}
			if strings.ContainsAny(line, "\x1b\r\u202e") {
				return "moves the cursor or turns the line round: " + line
			}
		}
	}
	return ""
}

// unbalanced says which tag of a page is not closed where it should be, or that the page runs something.
func unbalanced(page string) string {
	void := map[string]bool{"meta": true, "br": true, "hr": true, "link": true, "wbr": true, "col": true}
	var open []string
	for z := html.NewTokenizer(strings.NewReader(page)); ; {
		kind := z.Next()
		t := z.Token()
		switch {
		case kind == html.ErrorToken && len(open) > 0:
			return "never closed: " + strings.Join(open, " ")
		case kind == html.ErrorToken:
			return ""
		case t.Data == "script" && kind == html.StartTagToken:
			return "a script"
		case kind == html.StartTagToken && !void[t.Data]:
			open = append(open, t.Data)
		case kind == html.EndTagToken:
			if len(open) == 0 || open[len(open)-1] != t.Data {
				return "</" + t.Data + "> closes what is not open"
			}
			open = open[:len(open)-1]
		}
	}
}
