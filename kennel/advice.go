package kennel

// The rules of lifting a coat. Common practice: a lifting bath needs two to three weeks to lie flat (C15), and
// nothing that alters texture or body may be in the coat in the ring (Kennel Club show regulations, preparation
// for exhibition; seen). Whether a bath helps at all is disputed: clean hair is harder to grip, and some bathe hot
// before they strip (C25; seen), so it is always one of two ways.
const (
	warnBathDays = 21 // within so many only with a warning
	puppyMonths  = 12 // younger is a puppy, with hair that breaks; common practice
)

// TextureOf is the dog's own texture, else its pattern's, else hard.
func (d Dog) TextureOf(p Pattern) Texture {
	switch {
	case d.Coat.Texture != "":
		return d.Coat.Texture
	case p.Texture != "":
		return p.Texture
	}
	return TextureHard
}

// Puppy reports whether the dog is under 12 months on the date; a dog whose birth is not told is none.
func (d Dog) Puppy(on Date) bool {
	return d.Born != 0 && on < DateOf(d.Born.Time().AddDate(0, puppyMonths, 0))
}

// Lift says how to make the long layer stand up in the week from Monday week on. nextShow is the first day of the
// dog's next show, zero for none; the bath could fall on the week's last day, so days are counted from there.
func Lift(d Dog, p Pattern, nextShow, week Date) string {
	const brush = "back-comb or powder; powder out before the ring"
	if d.TextureOf(p) != TextureHard {
		return brush
	}
	days := int(nextShow - week.AddDays(DaysAWeek-1))
	switch {
	case nextShow == 0 || nextShow < week || days > warnBathDays:
		return "lifting bath left to dry, pull within 2 days; or back-comb or powder"
	case days > NoBathDays:
		return "back-comb or powder; a lifting bath so near the show may not lie flat in time"
	}
	return brush
}

// Tool says what to pull with in the week from Monday week on.
func Tool(d Dog, p Pattern, week Date) string {
	if d.Puppy(week) || d.TextureOf(p) != TextureHard {
		return "fingers or stone, no metal knife"
	}
	return "fingers or a dull knife"
}
