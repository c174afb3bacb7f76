package main

import (
	"context"
	"io"
	"os"
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
	readme := readmeText(t)
	for _, c := range allCommands(commandTree()) {
		if c.HasParent() && !c.HasSubCommands() && !strings.Contains(readme, "`"+c.CommandPath()+"`") {
			t.Errorf("the README's table has no `%s`", c.CommandPath())
		}
		if c.Example == "" && c.HasParent() {
			t.Errorf("%s --help has no examples", c.CommandPath())
		}
		c.Flags().VisitAll(func(f *pflag.Flag) {
			if !strings.Contains(readme, "`--"+f.Name+"`") {
				t.Errorf("the README does not explain `--%s` of %s", f.Name, c.CommandPath())
			}
		})
	}
}

func TestEveryKeyOfTheKennelFileIsDocumented(t *testing.T) {
	readme := readmeText(t)
	file := regexp.MustCompile(`#.*`).ReplaceAllString(string(demo.Kennel), "")
	for _, m := range regexp.MustCompile(`[{\s-]([a-z_]+):`).FindAllStringSubmatch(file, -1) {
		key := m[1]
		if !regexp.MustCompile("`([a-z]+[.])?"+key+"[.`]").MatchString(readme) && !isArea(key) {
			t.Errorf("the README does not explain the key %q", key)
		}
	}
}

func TestEveryAreaAndPatternIsNamed(t *testing.T) {
	readme := readmeText(t)
	for _, a := range kennel.AreaNames() {
		if !strings.Contains(readme, "`"+string(a)+"`") {
			t.Errorf("the README does not name the area %s", a)
		}
	}
	ps, err := patterns.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range ps.Names() {
		if !strings.Contains(readme, "`"+name+"`") {
			t.Errorf("the README does not name the pattern %s", name)
		}
	}
}

func isArea(key string) bool {
	return slices.ContainsFunc(kennel.AreaNames(), func(a kennel.AreaName) bool { return strings.HasSuffix(string(a), key) })
}

func TestEverySettingIsDocumentedWithItsDefault(t *testing.T) {
	readme := readmeText(t)
	for _, b := range bindings() {
		row := regexp.MustCompile("(?m)^\\| `" + b.Key + "` \\|.*\\| " + regexp.QuoteMeta(b.Unit) + " \\| " +
			regexp.QuoteMeta(config.Number(b.get(optimize.DefaultOptions()))) + " \\|$")
		if !row.MatchString(readme) {
			t.Errorf("the README has no row for %s with unit %q and default %v", b.Key, b.Unit, b.get(optimize.DefaultOptions()))
		}
	}
	for _, s := range describedAccountSettings() {
		end := regexp.QuoteMeta(s.Unit) + " \\| " + config.Number(accountSettings()[s.Key])
		if !regexp.MustCompile("(?m)^\\| `" + s.Key + "` \\|.*\\| " + end + " \\|$").MatchString(readme) {
			t.Errorf("the README has no row for %s that ends in %q", s.Key, end)
		}
	}
}

// Every command line of the README runs as it stands there, on the files that it shows.
func TestTheReadmesCommandsRun(t *testing.T) {
	readme := readmeText(t)
	inExamples(t)
	ran := 0
	for _, block := range regexp.MustCompile("(?s)```sh\n(.*?)```").FindAllStringSubmatch(readme, -1) {
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
			ran++
		}
	}
	if ran < 10 {
		t.Errorf("only %d commands found in the README", ran)
	}
	for _, name := range []string{"season.mps", "season.sol", "week.ics"} {
		if info, err := os.Stat(name); err != nil || info.Size() == 0 {
			t.Errorf("%s was not written: %v", name, err)
		}
	}
}

func TestTheReadmesTestCommandIsWhatTheChecksRun(t *testing.T) {
	script, err := os.ReadFile("../../.ci/run")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`(?m)^    go run ./cmd/tuckup plan --demo\n    (go test .*)$`).FindStringSubmatch(readmeText(t))
	if m == nil {
		t.Fatal("the README does not give its two commands")
	}
	if !regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(m[1]) + `$`).Match(script) {
		t.Errorf(".ci/run does not run %q", m[1])
	}
}

func TestTheReadmesTranscriptIsReal(t *testing.T) {
	readme := readmeText(t)
	plan, err := os.ReadFile(goldenDir + "plan.txt")
	if err != nil {
		t.Fatal(err)
	}
	const before, after = "<!-- transcript -->\n```text\n", "```\n<!-- /transcript -->"
	start, end := strings.Index(readme, before), strings.Index(readme, after)
	if start < 0 || end < start {
		t.Fatal("the README has no transcript")
	}
	if *update {
		readme = readme[:start+len(before)] + string(plan) + readme[end:]
		if err := os.WriteFile(readmePath, []byte(readme), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got := readme[start+len(before) : end]; got != string(plan) {
		t.Error("the README's transcript is not what plan --demo prints; go test ./cmd/tuckup -update writes it anew")
	}
}

func TestExitCodesAreDocumented(t *testing.T) {
	readme := readmeText(t)
	for _, code := range []int{codeDone, codeFailed, codeUsage, codeCannot} {
		if !strings.Contains(readme, "\n| "+strconv.Itoa(code)+" | ") {
			t.Errorf("the README does not explain exit status %d", code)
		}
	}
}
