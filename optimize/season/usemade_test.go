package season_test

import (
	"tuckup/optimize/season"
	"tuckup/optimize/season/made"
)

func init() {
	season.Random, season.RandomSized = made.Random, made.RandomSized
	season.RandomString = func(seed uint64, s season.Shape) *season.Problem { return made.RandomString(seed, made.Shape(s)) }
}
