package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"tuckup/config"
	"tuckup/kennel"
	"tuckup/kennel/fields"
	"tuckup/kennel/patterns"
	"tuckup/optimize"
	"tuckup/testdata/demo"
)

func allCommands(c *cobra.Command) []*cobra.Command {
	all := []*cobra.Command{c}
	for _, s := range c.Commands() {
		all = append(all, allCommands(s)...)
	}
	return all
}

func commandTree() *cobra.Command {
	root := newApp(io.Discard, io.Discard, time.Now).rootCommand()
	root.InitDefaultHelpFlag()
	return root
}

func TestEveryCommandAndFlagIsDocumented(t *testing.T) {
	readme := textOf(t, commandsPage)
	for _, c := range allCommands(commandTree()) {
		if c.HasParent() && !c.HasSubCommands() && !strings.Contains(readme, "`"+c.CommandPath()+"`") {
			t.Errorf("the table of commands has no `%s`", c.CommandPath())
		}
		if c.Example == "" && c.HasParent() {
			t.Errorf("%s --help has no examples", c.CommandPath())
		}
		c.Flags().VisitAll(func(f *pflag.Flag) {
			if !strings.Contains(readme, "`--"+f.Name+"`") {
				t.Errorf("the table of flags does not explain `--%s` of %s", f.Name, c.CommandPath())
			}
		})
	}
}

func TestEveryKeyOfTheKennelFileIsDocumented(t *testing.T) {
	readme := textOf(t, kennelPage)
	file := regexp.MustCompile(`#.*`).ReplaceAllString(string(demo.Kennel), "")
	for _, m := range regexp.MustCompile(`[{\s-]([a-z_]+):`).FindAllStringSubmatch(file, -1) {
		key := m[1]
		if !regexp.MustCompile("`([a-z]+[.])?"+key+"[.`]").MatchString(readme) && !isArea(key) {
			t.Errorf("the page of the kennel file does not explain the key %q", key)
		}
	}
}

// What pages say of keys, columns and flags is what the fields say. -update writes it again.
func TestPagesSayOfFieldsWhatTheirDescriptionsSay(t *testing.T) {
	between := func(page, name, want string) {
		before, after := "<!-- "+name+" -->\n", "<!-- /"+name+" -->"
		heldTo(t, page, regexp.MustCompile("(?s)"+before+".*?"+after), before+want+after)
	}
	between(kennelPage, "keys", fields.Tables())
	between(kennelPage, "columns", "- dogs: "+fields.Dog.Names()+" and `coat` (layers with `;` between: `0.6 2026-09-20; 0.4 2026-12-01`)\n"+
		"- shows: "+fields.Show.Names()+", `away_from`, `away_to` and `dogs` (names with `;` between)\n")
	var flags []string
	for _, f := range fields.Dog.Single("name") {
		flags = append(flags, "`--"+f.Flag()+"`")
	}
	heldTo(t, commandsPage, regexp.MustCompile("(?m)^.* \\| `dog` \\| as in the kennel file"), "| "+strings.Join(flags, ", ")+" | `dog` | as in the kennel file")
}

// heldTo fails where a page has another text at the one place that the pattern finds; -update writes it there.
func heldTo(t *testing.T, page string, place *regexp.Regexp, want string) {
	t.Helper()
	text := textOf(t, page)
	at := place.FindAllStringIndex(text, -1)
	if len(at) != 1 {
		t.Fatalf("%s has %d places for %s", page, len(at), place)
	}
	if text[at[0][0]:at[0][1]] == want {
		return
	}
	if !*update {
		t.Errorf("%s does not say\n%s\ngo test ./cmd/tuckup -run PagesSay -update writes it", page, want)
		return
	}
	if err := os.WriteFile(filepath.Join(here, page), []byte(text[:at[0][0]]+want+text[at[0][1]:]), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestEveryAreaAndPatternIsNamed(t *testing.T) {
	readme := textOf(t, patternsPage)
	for _, a := range kennel.AreaNames() {
		if !strings.Contains(readme, "`"+string(a)+"`") {
			t.Errorf("the page of patterns does not name the area %s", a)
		}
	}
	ps, err := patterns.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range ps.Names() {
		if !strings.Contains(readme, "`"+name+"`") {
			t.Errorf("the page of patterns does not name the pattern %s", name)
		}
	}
}

func isArea(key string) bool {
	return slices.ContainsFunc(kennel.AreaNames(), func(a kennel.AreaName) bool { return strings.HasSuffix(string(a), key) })
}

func TestEverySettingIsDocumentedWithItsDefault(t *testing.T) {
	readme := textOf(t, commandsPage)
	for _, b := range bindings() {
		row := regexp.MustCompile("(?m)^\\| `" + b.Key + "` \\|.*\\| " + regexp.QuoteMeta(b.Unit) + " \\| " +
			regexp.QuoteMeta(config.Number(b.get(optimize.DefaultOptions()))) + " \\|$")
		if !row.MatchString(readme) {
			t.Errorf("the table of settings has no row for %s with unit %q and default %v", b.Key, b.Unit, b.get(optimize.DefaultOptions()))
		}
	}
	for _, s := range describedAccountSettings() {
		end := regexp.QuoteMeta(s.Unit) + " \\| " + config.Number(accountSettings()[s.Key])
		if !regexp.MustCompile("(?m)^\\| `" + s.Key + "` \\|.*\\| " + end + " \\|$").MatchString(readme) {
			t.Errorf("the table of settings has no row for %s that ends in %q", s.Key, end)
		}
	}
}

// Every command line of the pages runs as it is written there, on the files that they show, one page after the other.
func TestTheCommandsOfThePagesRun(t *testing.T) {
	long(t, "plans whole seasons")
	for _, page := range pages {
		text := textOf(t, page)
		t.Run(page, func(t *testing.T) {
			inExamples(t)
			for _, block := range regexp.MustCompile("(?s)```sh\n(.*?)```").FindAllStringSubmatch(text, -1) {
				for _, line := range strings.Split(strings.TrimSpace(block[1]), "\n") {
					words := strings.Fields(line)
					if words[0] != "tuckup" {
						t.Errorf("no command of this program: %q", line)
						continue
					}
					code, out, said := program(context.Background(), words[1:]...)
					if code != codeDone || out == "" && !slices.Contains(words, "--out") {
						t.Errorf("%q ended with %d, wrote %d bytes and said %q", line, code, len(out), said)
					}
					if i := slices.Index(words, "--out"); i >= 0 {
						if info, err := os.Stat(words[i+1]); err != nil || info.Size() == 0 {
							t.Errorf("%q wrote no %s: %v", line, words[i+1], err)
						}
					}
				}
			}
		})
	}
}

// The README is read in one go; what is looked up is on other pages, and their addresses are right.
func TestTheReadmeIsShortAndItsLinksLeadSomewhere(t *testing.T) {
	readme := textOf(t, readmePage)
	if lines := strings.Count(readme, "\n"); lines > 150 {
		t.Errorf("the README has %d lines, more than 150", lines)
	}
	for _, page := range pages {
		dir := filepath.Dir(page)
		links := regexp.MustCompile(`\]\(([^)#]+)[^)]*\)`).FindAllStringSubmatch(textOf(t, page), -1)
		if page == readmePage && len(links) < len(pages) {
			t.Errorf("the README has only %d links", len(links))
		}
		for _, m := range links {
			if _, err := os.Stat(filepath.Join(dir, m[1])); err != nil {
				t.Errorf("%s leads to %s, which is not there", page, m[1])
			}
		}
	}
	for _, page := range pages {
		if rel := strings.TrimPrefix(page, "../../"); page != readmePage && !strings.Contains(readme, "("+rel+")") {
			t.Errorf("the README does not lead to %s", rel)
		}
	}
}

func TestTheReadmesTestCommandIsWhatTheChecksRun(t *testing.T) {
	script, err := os.ReadFile("../../.ci/run")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`(?m)^    go run ./cmd/tuckup plan --demo --time-limit 5\n    (go test .*)$`).FindStringSubmatch(textOf(t, readmePage))
	if m == nil {
		t.Fatal("the README does not give its two commands")
	}
	if !regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(m[1]) + `$`).Match(script) {
		t.Errorf(".ci/run does not run %q", m[1])
	}
}

func TestTheTranscriptIsReal(t *testing.T) {
	readme := textOf(t, planPage)
	plan, err := os.ReadFile(goldenDir + "plan.txt")
	if err != nil {
		t.Fatal(err)
	}
	const before, after = "<!-- transcript -->\n```text\n", "```\n<!-- /transcript -->"
	start, end := strings.Index(readme, before), strings.Index(readme, after)
	if start < 0 || end < start {
		t.Fatal("there is no transcript")
	}
	if *update {
		readme = readme[:start+len(before)] + string(plan) + readme[end:]
		if err := os.WriteFile(planPage, []byte(readme), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got := readme[start+len(before) : end]; got != string(plan) {
		t.Error("the transcript is not what plan --demo prints; go test ./cmd/tuckup -update writes it again")
	}
}

func TestExitCodesAreDocumented(t *testing.T) {
	readme := textOf(t, commandsPage)
	for _, code := range []int{codeDone, codeFailed, codeUsage, codeCannot} {
		if !strings.Contains(readme, "\n| "+strconv.Itoa(code)+" | ") {
			t.Errorf("the page of commands does not explain exit status %d", code)
		}
	}
}
