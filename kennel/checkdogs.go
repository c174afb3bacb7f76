package kennel

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

func (c *checker) dogs(all []Dog, pats Patterns) {
	seen := names{}
	for i, d := range all {
		at := fmt.Sprintf("dogs[%d]", i)
		c.name(seen, at+".name", d.Name)
		c.among(at+".coat.texture", string(d.Coat.Texture), true, string(TextureHard), string(TextureFine), string(TextureSoft))
		c.within(at+".coat.growth", d.Coat.Growth, GrowthBounds)
		c.within(at+".coat.pace", d.Coat.Pace, PaceBounds)
		c.within(at+".table.set_up", float64(d.Table.SetUp), SetUpBounds)
		c.within(at+".table.minutes", float64(d.Table.Minutes), SessionBounds)
		c.within(at+".table.a_week", float64(d.Table.AWeek), AWeekBounds)
		if d.Table.SetUp >= d.Table.Minutes {
			c.add(at+".table.set_up", fmt.Sprint(d.Table.SetUp), "leaves no time in the session", "fewer minutes than table.minutes")
		}
		c.within(at+".priority", d.Priority, WeightBounds)
		for j, s := range d.Here {
			c.span(fmt.Sprintf("%s.here[%d]", at, j), s)
		}
		c.coat(at, d, pats)
		for j, s := range d.Spells {
			c.spell(fmt.Sprintf("%s.spells[%d]", at, j), s)
		}
		p, known := pats[d.Pattern]
		for j, duty := range d.Duties {
			c.duty(fmt.Sprintf("%s.duties[%d]", at, j), duty, p, known)
		}
	}
}

// coat checks a dog's pattern and what is on its areas.
func (c *checker) coat(at string, d Dog, pats Patterns) {
	p, known := pats[d.Pattern]
	if !known {
		c.add(at+".pattern", d.Pattern, "is not a pattern that is known",
			"one of "+strings.Join(Nearest(d.Pattern, pats.Names(), 3), ", "))
	}
	c.outlines(at, d.Outlines, p, known)
	c.layers(at+".areas.all", d.All)
	seen := map[AreaName]bool{}
	for _, a := range d.Areas {
		field := at + ".areas." + string(a.Area)
		c.layers(field, a.Layers)
		_, has := p.Area(a.Area)
		switch {
		case seen[a.Area]:
			c.add(field, "", "appears twice", "leave one of the two out")
		case !areaKnown(a.Area):
			c.add(field, "", "is not an area of the coat", "one of "+strings.Join(words(AreaNames()), ", "))
		case known && !has:
			c.add(field, "", "is not an area of the pattern "+d.Pattern, "one of "+strings.Join(words(p.areaNames()), ", "))
		}
		seen[a.Area] = true
	}
	for _, a := range p.Areas {
		if len(d.LayersOf(a)) == 0 && !a.Kept {
			e := bareArea(d, a.Name)
			c.add(at+"."+e.Field, e.Value, e.What, e.Try)
			break
		}
	}
}

// shareSlack is how far the shares of an area may sum above 1, for thirds written in decimals.
const shareSlack = 1e-4

func (c *checker) layers(field string, all []Layer) {
	var sum float64
	for i, l := range all {
		at := fmt.Sprintf("%s[%d]", field, i)
		c.part(at+".share", float64(l.Share), l.Share > 0 && l.Share <= 1+shareSlack, ShareBounds)
		if l.Pulled == 0 {
			c.add(at+".pulled", "", "is missing", "a date like 2027-03-20")
		}
		sum += float64(l.Share)
	}
	if sum > 1+shareSlack {
		c.add(field, strconv.FormatFloat(sum, 'g', 6, 64), "is what the shares sum to, more than the whole area",
			"shares that sum to 1, like 0.6 and 0.4")
	}
}

// duty checks a duty of a dog. What it says of a line of the dog's pattern is looked at where that is known.
func (c *checker) duty(at string, d Duty, p Pattern, known bool) {
	c.name(names{}, at+".name", d.Name)
	c.among(at+".work", string(d.Work), true, string(SkillClose), string(SkillFurnishings), string(SkillDuties))
	if !d.Timed() && d.Minutes == 0 && !d.LeaveOut && d.Done == 0 {
		c.add(at, "", "should say either every or before_show", "every: 2w")
		return
	}
	if !d.Timed() && (!known || p.Brings(d.Name)) {
		if d.Minutes != 0 {
			c.within(at+".minutes", float64(d.Minutes), DutyBounds)
		}
		return
	}
	if d.Minutes != 0 || d.Timed() {
		c.within(at+".minutes", float64(d.Minutes), DutyBounds)
	}
	switch {
	case !d.Timed() && (d.LeaveOut || d.Minutes == 0):
		try := "a duty with minutes, and every or before_show"
		if near := Nearest(d.Name, p.LineNames(), 3); len(near) > 0 {
			try = "one of " + strings.Join(near, ", ") + ", or " + try
		}
		c.add(at+".name", d.Name, "is nothing that the pattern of the dog brings", try)
	case !d.Timed() || d.Every != 0 && d.Before != nil:
		c.add(at, "", "should say either every or before_show", "every: 2w")
	case d.Before == nil:
		c.within(at+".every", float64(d.Every), EveryBounds)
	default:
		c.within(at+".before_show.from", float64(d.Before.From), BeforeBounds)
		to := Bounds{Least: BeforeBounds.Least, Most: float64(d.Before.From), Unit: BeforeBounds.Unit}
		c.number(at+".before_show.to", float64(d.Before.To), to.Has(float64(d.Before.To)), to.try()+", not more than from")
	}
}

func (c *checker) spell(at string, s Spell) {
	if s.From == 0 {
		c.add(at+".from", "", "is missing", "its first day, like 2027-03-20")
	}
	c.span(at, Span{From: s.From, To: s.To})
	c.among(at+".what", string(s.What), false, words(SpellKinds())...)
	c.within(at+".growth", s.Growth, SpellBounds)
	c.among(at+".table", string(s.Table), true, string(AnswerYes), string(AnswerNo))
}

func areaKnown(a AreaName) bool { return slices.Contains(AreaNames(), a) }

func words[T ~string](all []T) []string {
	w := make([]string, len(all))
	for i, a := range all {
		w[i] = string(a)
	}
	return w
}

func (p Pattern) areaNames() []AreaName {
	names := make([]AreaName, len(p.Areas))
	for i, a := range p.Areas {
		names[i] = a.Name
	}
	return names
}
