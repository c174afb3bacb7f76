// Package help holds the short pages on how a plan thinks. Every figure on them is read from what plans are made with, so that none can be out of date.
package help

import (
	"fmt"
	"io"
	"strings"

	"tuckup/kennel"
	"tuckup/reports/say"
)

// Page is one page.
type Page struct {
	Name, Title, About string
	Parts              []Part
}

// Part is a heading and the paragraphs below it.
type Part struct {
	Heading string
	Lines   []string
}

// Names are the names of the pages in the order in which they are read.
func Names() []string { return []string{"coat", "shows", "rolling"} }

// Pages are all pages, with the figures of the patterns.
func Pages(ps kennel.Patterns) []Page {
	return []Page{coat(ps), shows(ps), rolling(ps)}
}

// Find is the page of the name; false where there is none.
func Find(ps kennel.Patterns, name string) (Page, bool) {
	for _, p := range Pages(ps) {
		if strings.EqualFold(p.Name, name) {
			return p, true
		}
	}
	return Page{}, false
}

// Text writes the page as plain text of the width.
func (p Page) Text(w io.Writer, columns int) error {
	var b strings.Builder
	b.WriteString(p.Title + "\n")
	for _, part := range p.Parts {
		b.WriteString("\n" + strings.ToUpper(part.Heading) + "\n")
		for _, line := range part.Lines {
			b.WriteString(strings.Join(say.Wrap(line, columns), "\n") + "\n")
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// example is the pattern that the pages speak of: the one of the demo's Sorrel, else any.
func example(ps kennel.Patterns) kennel.Pattern {
	const sorrels = "wire-fox-terrier"
	if p, ok := ps[sorrels]; ok {
		return p
	}
	for _, name := range ps.Names() {
		return ps[name]
	}
	return kennel.Pattern{}
}

func weeks(f kennel.Figure) string { return kennel.Number(f.Value) + " weeks" }

func coat(ps kennel.Patterns) Page {
	p := example(ps)
	slow, _ := p.Area(kennel.AreaSkirtLine)
	quick, _ := p.Area(kennel.AreaShoulder)
	rule := slow.RuleFor(1)
	return Page{
		Name: "coat", Title: "How a plan sees a coat", About: "areas, layers, and when hair is right",
		Parts: []Part{
			{"Areas and layers", []string{
				"A dog is worked area by area, and on each area lie layers: hair that was pulled on the same day and is of one age. What you pull goes from the longest layer and begins a new one.",
				fmt.Sprintf("Take Sorrel of the made-up string, a %s. When its skirt line is pulled, the hair is long enough to show after %s, and then right for %s. The shoulder is ready after %s. Growth set for a dog divides these weeks.",
					p.Title, weeks(slow.Ready), weeks(slow.Hold), weeks(quick.Ready)),
			}},
			{"The four states", []string{
				"Coming in: too much of the hair is too short yet. In coat: right. Going over: too much of it is past its time. Blown: most of it is, and comes out on its own.",
				fmt.Sprintf("On Sorrel's skirt line hair below %d weeks is too short, from %d weeks on it is too long, and from %d weeks on it is dead and comes out first.", rule.Ready, int(rule.Ready)+int(rule.Hold), rule.Dead),
			}},
			{"Readiness, 0 to 100", []string{
				fmt.Sprintf("Each area loses points for hair that is too short and hair that is too long; the dog is the mean of its areas, each by its weight. From %d a dog is in coat. At a show it counts for no more than %d points above its worst area: a judge sees the hole.",
					int(kennel.ReadyScore), int(kennel.HoleAllow)),
				"Where the figures come from, and how well each is attested, is on the page of each pattern: tuckup pattern show.",
			}},
		},
	}
}

func shows(ps kennel.Patterns) Page {
	p := example(ps)
	back, _ := p.Area(kennel.AreaBack)
	withers, _ := p.Area(kennel.AreaWithers)
	usual := kennel.UsualShow()
	return Page{
		Name: "shows", Title: "How a plan thinks of shows", About: "dates, weights, and the last weeks before one",
		Parts: []Part{
			{"Right on the day, and between the days", []string{
				"A plan is worth what its dogs are at their shows, and a little for each week in between, because the next date is often not known yet. A show counts by its weight and by its chance: 1 is entered, 0.5 is hoped for as often as not.",
				fmt.Sprintf("A show is taken to be of %d day, with the weight %s and entered, unless you say otherwise.", usual.Days, kennel.Number(usual.Weight)),
			}},
			{"When there are not hours enough", []string{
				"Then not every dog can be right. The plan gives the hours to those for whom they bring most, and says what cannot be met and why: too late, too few hours, too many dogs on one date.",
				"In the made-up string the hours are short on purpose: Moss is not in coat for one of its shows, and the list CANNOT BE MET says so. Before you save a show, see who pays for it: tuckup try show add.",
			}},
			{"The last weeks", []string{
				fmt.Sprintf("Near a show an area gives up only a few hairs, or it shows holes: a %s's back at most %s of its hair a week in the last %s, its withers at most %s in the last %s.",
					p.Title, kennel.ShareWords(kennel.Share(back.FinishShare.Value)), weeks(back.FinishWeeks), kennel.ShareWords(kennel.Share(withers.FinishShare.Value)), weeks(withers.FinishWeeks)),
				"Even of those it takes no more than is worth it: an area that is right is left alone, and what goes is hair that would be too long on the day or soon after. The big work lies before.",
				"A bath to lift the coat is not given close before a show, for a hard coat takes two to three weeks to lie flat again.",
			}},
		},
	}
}

func rolling(ps kennel.Patterns) Page {
	p := example(ps)
	skirt, _ := p.Area(kennel.AreaSkirtLine)
	span := skirt.Ready.Value + skirt.Hold.Value
	return Page{
		Name: "rolling", Title: "How a plan rolls a coat", About: "a little of the longest, often",
		Parts: []Part{
			{"Why not all at once", []string{
				"Hair that is pulled all at once comes back all at once: one short peak, and then it is all too long together. Pull a little of the longest each week, and layers keep coming.",
				fmt.Sprintf("Hair of Sorrel's skirt line is good from %s to %s weeks of age. So that it never passes that, about 1 in %.0f of it has to be pulled each week; that is what rolling costs, show or no show.",
					kennel.Number(skirt.Ready.Value), kennel.Number(span), span),
			}},
			{"Slowest first", []string{
				"The skirt line and the middle of the dog take longest to come in, so they are worked first in a season and first in a session: a session that is cut short has then done what could not wait.",
				fmt.Sprintf("A dog that is set to roll only gives up at most %s of an area in a week.", kennel.ShareWords(kennel.Share(p.RollMost.Value))),
			}},
			{"When something slips", []string{
				"What was not done comes first in the next plan, and hair goes on growing meanwhile. A plan expects that some of the work is missed, and promises a readiness that is still true then.",
				"Look before you pull: if the long layer is thinner than the book has it, take less. What you say of it corrects the book.",
			}},
		},
	}
}
