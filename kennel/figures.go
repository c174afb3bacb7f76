package kennel

// NamedFigure is one number of a pattern under the name that pattern files give it.
type NamedFigure struct {
	Area       AreaName // empty = of the whole dog
	Name, Unit string
	Figure
}

// FinishingFigures is what the names of the figures of lines before shows begin with.
const FinishingFigures = "finishing."

// Figures are every number of a pattern that counts for something, in the order in which people ask for them. Of kept hair
// it does not matter how long it holds or how it would be pulled.
func (p Pattern) Figures() []NamedFigure {
	list := []NamedFigure{{"", "roll_most", "share a week", p.RollMost}, {"", "look", "minutes", p.Look}}
	if !p.Care.None() {
		list = append(list, NamedFigure{"", "care.minutes", "minutes", p.Care.Minutes}, NamedFigure{"", "care.every", "weeks", p.Care.Every})
	}
	if !p.Undercoat.None() {
		list = append(list, NamedFigure{"", "undercoat.minutes", "minutes", p.Undercoat.Minutes}, NamedFigure{"", "undercoat.every", "weeks", p.Undercoat.Every})
	}
	for _, f := range p.Finish {
		at := FinishingFigures + f.Name + "."
		list = append(list, NamedFigure{"", at + "minutes", "minutes", f.Minutes})
		if f.AtShow() {
			continue
		}
		list = append(list,
			NamedFigure{"", at + "from", "days before", f.From}, NamedFigure{"", at + "to", "days before", f.To},
			NamedFigure{"", at + "lasts", "days", f.Lasts},
		)
	}
	for _, a := range p.Areas {
		list = append(list,
			NamedFigure{a.Name, "weight", "part of the dog", a.Weight},
			NamedFigure{a.Name, "ready", "weeks", a.Ready},
		)
		if a.Kept {
			continue
		}
		list = append(list,
			NamedFigure{a.Name, "hold", "weeks", a.Hold},
			NamedFigure{a.Name, "grip", "weeks", a.Grip},
			NamedFigure{a.Name, "minutes", "minutes", a.Minutes},
			NamedFigure{a.Name, "finish.weeks", "weeks", a.FinishWeeks},
			NamedFigure{a.Name, "finish.share", "share a week", a.FinishShare},
		)
		if a.ShowLength != nil {
			list = append(list, NamedFigure{a.Name, "show_length", "mm", *a.ShowLength})
		}
	}
	return list
}
