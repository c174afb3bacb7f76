package main

import (
	"fmt"
	"strings"

	"tuckup/optimize/season"
	"tuckup/optimize/season/made"
)

// class is a kind of seasons.
type class struct {
	name, says string
	seasons    func(f flags) []instance
	gap        float64 // the proved gap aimed at; 0 = none
	seconds    float64 // the time aimed at for plan and proof; 0 = none
}

// instance is one season to plan.
type instance struct {
	Class string     `json:"class"`
	Seed  uint64     `json:"seed"`
	Shape made.Shape `json:"shape"`
}

func (i instance) String() string {
	return fmt.Sprintf("%s %dx%d seed %d", i.Class, i.Shape.Dogs, i.Shape.Weeks, i.Seed)
}

func (i instance) problem() *season.Problem {
	p := made.RandomString(i.Seed, i.Shape)
	if i.Class == warm {
		return oneShowMore(p, i.Seed)
	}
	return p
}

// tightHours is the hands' hours as a share of what all dogs would take.
const tightHours = 0.4

var classes = []class{
	{
		name: "small", says: "4 dogs, 10 weeks: against the optimum that a general solver proves",
		seasons: func(f flags) []instance { return ofShape("small", shape(4, 10, 1), f.first, f.small) },
	},
	{
		name: "tight12", says: "12 dogs, 26 weeks, hours for 40 % of the wish", gap: 0.005, seconds: 2,
		seasons: func(f flags) []instance { return ofShape("tight12", shape(12, 26, 1), f.first, f.seeds) },
	},
	{
		name: "scarce", says: "12 dogs, 26 weeks, shows of single dogs, 22 minutes a dog and week, sessions of 90 minutes", gap: 0.005, seconds: 4,
		seasons: func(f flags) []instance { return ofShape("scarce", scarce(12, 26, 22), f.first, f.seeds) },
	},
	{
		name: "scarce30", says: "30 dogs, 39 weeks, else as scarce", gap: 0.01, seconds: 10,
		seasons: func(f flags) []instance { return ofShape("scarce30", scarce(30, 39, 22), f.first, f.seeds) },
	},
	{
		name: "long", says: "10 dogs, 52 weeks, 25 minutes a dog and week, else as scarce", gap: 0.015, seconds: 10,
		seasons: func(f flags) []instance { return ofShape("long", scarce(10, 52, 25), f.first, f.seeds) },
	},
	{
		name: "middle", says: "6 dogs, 26 weeks, 40 minutes a dog and week, else as scarce", gap: 0.005, seconds: 2,
		seasons: func(f flags) []instance { return ofShape("middle", scarce(6, 26, 40), f.first, f.seeds) },
	},
	{
		name: "tight30", says: "30 dogs, 39 weeks, hours for 40 % of the wish", gap: 0.01, seconds: 10,
		seasons: func(f flags) []instance { return ofShape("tight30", shape(30, 39, 1), f.first, f.seeds) },
	},
	{
		name: "large60", says: "60 dogs, 52 weeks, three pairs of hands with different skills", gap: 0.02, seconds: 40,
		seasons: func(f flags) []instance { return ofShape("large60", shape(60, 52, 3), f.first, f.seeds) },
	},
	{
		name: warm, says: "9 dogs, 26 weeks, one show more for two dogs: planned cold, and planned again from the plan before; no general solvers",
		seasons: func(f flags) []instance { return ofShape(warm, shape(9, 26, 1), f.first, f.seeds) },
	},
	{
		name: "scaling", says: "time against dogs (5 to 80, 26 weeks) and against weeks (13 to 52, 10 dogs); no general solvers",
		seasons: func(f flags) (all []instance) {
			for _, n := range []int{5, 10, 20, 40, 80} {
				if n <= f.most {
					all = append(all, ofShape(scaling, shape(n, 26, 1), f.first, f.seeds)...)
				}
			}
			for _, w := range []int{13, 52} {
				all = append(all, ofShape(scaling, shape(10, w, 1), f.first, f.seeds)...)
			}
			return all
		},
	},
	{
		name: livedClass, says: "seasons lived week by week, three kinds of strings: the plan made every Monday, the best rule of thumb, the plan made once",
		seasons: func(flags) []instance { return nil },
	},
}

const scaling = "scaling"

func shape(dogs, weeks, hands int) made.Shape {
	return made.Shape{Dogs: dogs, Weeks: weeks, Hours: tightHours, Hands: hands}
}

// scarce is a string with so few minutes a dog and week that sessions are what is short.
func scarce(dogs, weeks int, minutes float64) made.Shape {
	return made.Shape{Dogs: dogs, Weeks: weeks, Hands: 1, ADog: minutes, Session: 90, Own: true}
}

func ofShape(class string, s made.Shape, first uint64, n int) (all []instance) {
	for i := range n {
		all = append(all, instance{Class: class, Seed: first + uint64(i), Shape: s})
	}
	return all
}

func classNames() (names []string) {
	for _, c := range classes {
		names = append(names, c.name)
	}
	return names
}

func classNamed(name string) class {
	for _, c := range classes {
		if c.name == name {
			return c
		}
	}
	return class{name: name}
}

func classList() string {
	var b strings.Builder
	for _, c := range classes {
		fmt.Fprintf(&b, "  %-9s %s\n", c.name, c.says)
	}
	return b.String()
}
