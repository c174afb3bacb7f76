package kennel

import "fmt"

// showMonths is the age in months below which UK schedules don't take a puppy on the first day (D5: a show's schedule; seen as an
// excerpt). What holds elsewhere the governing body says.
const showMonths = 6

// Young is a dog named for a show for which it may be too young.
type Young struct {
	Dog  string
	Show Show
	From Date // from when it is old enough
	born Date

	field string
}

// TooYoung are the dogs under six months on the first day of a show that they are named for, by show and dog. A dog whose
// birth is not given is none, nor is one that is born after the show.
func TooYoung(k Kennel) (all []Young) {
	born := map[string]Date{}
	for _, d := range k.Dogs {
		born[d.Name] = d.Born
	}
	for i, s := range k.Shows {
		for j, name := range s.Dogs {
			b := born[name]
			if b == 0 || s.On < b {
				continue
			}
			if from := monthsAfter(b, showMonths); s.On < from {
				all = append(all, Young{Dog: name, Show: s, From: from, born: b, field: fmt.Sprintf("shows[%d].dogs[%d]", i, j)})
			}
		}
	}
	return all
}

func monthsAfter(d Date, months int) Date { return DateOf(d.Time().AddDate(0, months, 0)) }

// OldEnough is the day from which a dog is taken by UK schedules.
func OldEnough(born Date) Date { return monthsAfter(born, showMonths) }

// AgeWords are how old a dog is on a day, in months: "5 months".
func AgeWords(born, on Date) string {
	months := 0
	for monthsAfter(born, months+1) <= on {
		months++
	}
	switch months {
	case 0:
		return "under a month"
	case 1:
		return "1 month"
	}
	return fmt.Sprintf("%d months", months)
}

// Words say it: "Tam is 5 months old on the day; UK schedules ..".
func (y Young) Words() string {
	return y.Dog + " is " + AgeWords(y.born, y.Show.On) + " old on the day; UK schedules don't take puppies under six months: see the governing body's rules"
}
