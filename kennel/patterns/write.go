package patterns

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"tuckup/kennel"
)

// Write prints a pattern as a file that Read takes again, to an equal pattern.
func Write(p kennel.Pattern) ([]byte, error) {
	var b bytes.Buffer
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("patterns:")
	line("  - name: %s", p.Name)
	line("    title: %s", strconv.Quote(p.Title))
	line("    texture: %s", p.Texture)
	if p.Short {
		line("    legs: %s", shortLegs)
	}
	line("    roll_most: %s", figure(p.RollMost))
	line("    look: %s", figure(p.Look))
	care := func(key string, c kennel.Care) {
		if c.None() {
			return
		}
		line("    %s:", key)
		line("      minutes: %s", figure(c.Minutes))
		line("      every: %s", figure(c.Every))
	}
	care("care", p.Care)
	care("undercoat", p.Undercoat)
	if len(p.Finish) > 0 {
		line("    finishing:")
	}
	for _, f := range p.Finish {
		line("      %s:", strconv.Quote(f.Name))
		line("        work: %s", f.Work)
		line("        minutes: %s", figure(f.Minutes))
		line("        from: %s", figure(f.From))
		line("        to: %s", figure(f.To))
		line("        lasts: %s", figure(f.Lasts))
	}
	if len(p.Pack) > 0 {
		quoted := make([]string, len(p.Pack))
		for i, x := range p.Pack {
			quoted[i] = strconv.Quote(x)
		}
		line("    pack: [%s]", strings.Join(quoted, ", "))
	}
	line("    areas:")
	for _, a := range p.Areas {
		line("      %s:", a.Name)
		line("        work: %s", a.Work)
		if a.Kept {
			line("        kept: true")
		}
		line("        weight: %s", figure(a.Weight))
		line("        ready: %s", figure(a.Ready))
		line("        hold: %s", figure(a.Hold))
		line("        grip: %s", figure(a.Grip))
		line("        minutes: %s", figure(a.Minutes))
		line("        finish:")
		line("          weeks: %s", figure(a.FinishWeeks))
		line("          share: %s", figure(a.FinishShare))
		if a.ShowLength != nil {
			line("        show_length: %s", figure(*a.ShowLength))
		}
	}
	if _, err := Read(p.Name, b.Bytes(), nil); err != nil {
		return nil, fmt.Errorf("the pattern %q cannot be written: %w", p.Name, err)
	}
	return b.Bytes(), nil
}

func figure(f kennel.Figure) string {
	return fmt.Sprintf("{value: %s, low: %s, high: %s, source: %s, mark: %s}",
		kennel.Number(f.Value), kennel.Number(f.Low), kennel.Number(f.High), strconv.Quote(f.Source), f.Mark)
}
