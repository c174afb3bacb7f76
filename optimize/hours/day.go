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

// Meal is when a pair of hands eats; false on a day that is too short for a meal, or where some duty, which is done in one go, would
// fit neither before it nor after it.
func (d Diary) Meal(hands, day int) (meal Stretch, ok bool) {
	there := float64(d.Presence[hands][day])
	if there <= MealAfter || d.longDuty(there) {
		return Stretch{}, false
	}
	from := d.Begins(hands, day) + mealWhole*math.Round((there-MealFor)/2/mealWhole)
	return Stretch{from, from + MealFor}, true
}

// longDuty reports whether a duty fits a day of so many minutes, and no half of it.
func (d Diary) longDuty(there float64) bool {
	for _, dog := range d.kennel.Dogs {
		for _, duty := range dog.Duties {
			if m := float64(duty.Minutes); m <= there && m > (there-MealFor-mealWhole)/2 {
				return true
			}
		}
	}
	return false
}

// mealWhole is to how many minutes a meal's beginning is rounded.
const mealWhole = 5

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
