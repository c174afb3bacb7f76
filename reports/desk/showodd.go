package desk

import (
	"fmt"

	"tuckup/kennel"
	"tuckup/reports/say"
)

// The answers to the question that a form comes back with.
const (
	doPast  = "as-past"  // it is over, and is to be written down so
	doMeant = "as-meant" // the day that was likely meant is the right one
	doBare  = "no-dogs"  // it is to be kept without dogs
	doTry   = "try"      // nothing is answered
)

// question asks whether what was typed is meant so. Nothing is wrong with it.
type question struct {
	Words   string
	Answers []answer
}

// answer is a button that answers a question.
type answer struct {
	Do, Words string
	Plain     bool // not the likeliest
}

// question is what is to be asked about a show that is odd and was not before, nil where nothing is or the form answers it.
func (f *form) question(s, was kennel.Show, today kennel.Date) *question {
	if s.On == 0 || f.get("do") == doPast {
		return nil
	}
	var before kennel.Odd
	if was.Name != "" {
		before = was.Odd(today)
	}
	odd := s.Odd(today)
	if !odd.Asked() || !odd.AskedAfter(before) {
		return nil
	}
	if odd.Past {
		q := &question{Words: fmt.Sprintf("%s was %s.", say.Day(s.On, today), odd.Ago())}
		if odd.Likely != 0 {
			meant := say.LongDay(odd.Likely)
			q.Words = fmt.Sprintf("%s was %s. Was %s meant?", say.LongDay(s.On), odd.Ago(), meant)
			q.Answers = append(q.Answers, answer{Do: doMeant, Words: "Take " + meant})
		}
		q.Answers = append(q.Answers, answer{doPast, "Take it as a show that is over", odd.Likely != 0})
		return q
	}
	if f.get("do") == doBare {
		return nil
	}
	return &question{"No dog is named, so no dog is prepared for it.", []answer{{Do: doBare, Words: "Take it without dogs"}}}
}

// asMeant puts the day that was likely meant into the form, where that is the answer. Days that were in the past with the
// show's move with it.
func (f *form) asMeant(today kennel.Date) {
	if f.get("do") != doMeant {
		return
	}
	f.set("do", doTry)
	on, err := kennel.ParseDate(f.get("on"))
	if err != nil {
		return // which is said beside the field
	}
	likely := kennel.Show{On: on, Days: f.whole("days", 1)}.Odd(today).Likely
	if likely == 0 {
		return
	}
	for _, field := range []string{"on", "entries_close", "away_from", "away_to"} {
		if day, err := kennel.ParseDate(f.get(field)); err == nil && day < today {
			f.set(field, day.AddDays(int(likely-on)).String())
		}
	}
}
