package hours

import (
	"math"

	"tuckup/kennel"
)

// A day of more than MealAfter minutes has a meal of MealFor minutes in its middle. Common practice.
const (
	MealAfter = 6 * minutesAnHour
	MealFor   = 30
)

// latest is when a day's work ends at the latest, in minutes after midnight; only a day of more hours than that goes on. Common
// practice: dogs and hands are tired.
const latest = 21 * minutesAnHour

// Stretch is a part of a day, in minutes after midnight.
type Stretch struct{ From, To float64 }

// Begins is when a pair of hands begins a day, in minutes after midnight: when days begin, or earlier where the day would go on
// after the latest hour.
func (d Diary) Begins(hands, day int) float64 {
	return max(0, min(d.start, latest-float64(d.Presence[hands][day])))
}

// Meal is when a pair of hands eats; false on a day that is too short for a meal.
func (d Diary) Meal(hands, day int) (meal Stretch, ok bool) {
	there := float64(d.Presence[hands][day])
	if there <= MealAfter {
		return Stretch{}, false
	}
	const whole = 5 // minutes
	from := d.Begins(hands, day) + whole*math.Round((there-MealFor)/2/whole)
	return Stretch{from, from + MealFor}, true
}

// Stretches are the parts of a pair of hands' day that are free for work: before and after the meal, without what was worked
// today already.
func (d Diary) Stretches(hands, day int) (all []Stretch) {
	begins := d.Begins(hands, day)
	free := Stretch{begins, begins + float64(d.Presence[hands][day])}
	if d.Date(day) == d.On {
		free.From += d.Spent[hands].Work
	}
	if meal, ok := d.Meal(hands, day); ok && free.From < meal.To {
		all = append(all, Stretch{free.From, meal.From})
		free.From = meal.To
	}
	all = append(all, free)
	var some []Stretch
	for _, s := range all {
		if s.To > s.From {
			some = append(some, s)
		}
	}
	return some
}

// meal is how long a pair of hands eats on a day.
func (d Diary) meal(hands, day int) kennel.Minutes {
	if _, ok := d.Meal(hands, day); ok {
		return MealFor
	}
	return 0
}
