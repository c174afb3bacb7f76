package kennel

import (
	"fmt"
	"slices"
	"strings"
)

// Clone is a copy that shares nothing with the kennel.
func (k Kennel) Clone() Kennel {
	k.Hands, k.Dogs, k.Shows = slices.Clone(k.Hands), slices.Clone(k.Dogs), slices.Clone(k.Shows)
	for i := range k.Hands {
		k.Hands[i].Does, k.Hands[i].Away = slices.Clone(k.Hands[i].Does), slices.Clone(k.Hands[i].Away)
	}
	for i := range k.Dogs {
		k.Dogs[i] = k.Dogs[i].clone()
	}
	for i := range k.Shows {
		s := &k.Shows[i]
		s.Dogs = slices.Clone(s.Dogs)
		if s.Away != nil {
			away := *s.Away
			s.Away = &away
		}
	}
	return k
}

func (d Dog) clone() Dog {
	d.Here, d.All, d.Areas, d.Duties = slices.Clone(d.Here), slices.Clone(d.All), slices.Clone(d.Areas), slices.Clone(d.Duties)
	d.Spells, d.Outlines = slices.Clone(d.Spells), slices.Clone(d.Outlines)
	for i := range d.Areas {
		d.Areas[i].Layers = slices.Clone(d.Areas[i].Layers)
	}
	for i := range d.Duties {
		if b := d.Duties[i].Before; b != nil {
			before := *b
			d.Duties[i].Before = &before
		}
	}
	return d
}

// Match finds the one of the names that is meant: the same whatever its capitals, else the only one that begins so.
// what is what the names are, like "dog". The error is an *InputError that shows the nearest three.
func Match(what, name string, names []string) (string, error) {
	want := folded(name)
	var begin []string
	for _, n := range names {
		switch have := folded(n); {
		case have == want:
			return n, nil
		case want != "" && strings.HasPrefix(have, want):
			begin = append(begin, n)
		}
	}
	switch {
	case len(begin) == 1:
		return begin[0], nil
	case len(begin) > 1:
		return "", &InputError{
			Field: what, Value: name, What: "begins more than one name", Try: "one of " + strings.Join(begin[:min(len(begin), mostNear)], ", "),
		}
	case len(names) == 0:
		return "", &InputError{Field: what, Value: name, What: "is not known: there is none yet", Try: "tuckup " + what + " add NAME"}
	}
	return "", &InputError{
		Field: what, Value: name, What: "is not known", Try: "one of " + strings.Join(Nearest(name, names, mostNear), ", "),
	}
}

// mostNear is how many names are shown for one that is not known.
const mostNear = 3

// folded is a name as it is compared.
func folded(s string) string { return strings.ToLower(strings.TrimSpace(s)) }

// MatchArea finds the area that is meant, like Match; a hyphen stands for a space.
func MatchArea(name string) (AreaName, error) {
	a, err := Match("area", strings.NewReplacer("-", " ", "_", " ").Replace(name), words(AreaNames()))
	return AreaName(a), err
}

// DogNames are the names of the dogs in their order.
func (k Kennel) DogNames() []string { return namesOf(k.Dogs, func(d Dog) string { return d.Name }) }

// HandsNames are the names of the hands in their order.
func (k Kennel) HandsNames() []string {
	return namesOf(k.Hands, func(h Hands) string { return h.Name })
}

func namesOf[T any](all []T, name func(T) string) []string {
	names := make([]string, len(all))
	for i, x := range all {
		names[i] = name(x)
	}
	return names
}

// FindDog is the place of the dog that is meant.
func (k Kennel) FindDog(name string) (int, error) {
	n, err := Match("dog", name, k.DogNames())
	return slices.Index(k.DogNames(), n), err
}

// FindDogs are the names of the dogs that are meant, each once.
func (k Kennel) FindDogs(names []string) (dogs []string, err error) {
	for _, n := range names {
		i, err := k.FindDog(n)
		if err != nil {
			return nil, err
		}
		if d := k.Dogs[i].Name; !slices.Contains(dogs, d) {
			dogs = append(dogs, d)
		}
	}
	return dogs, nil
}

// FindHands is the place of the hands that are meant; "" are the first.
func (k Kennel) FindHands(name string) (int, error) {
	if name == "" && len(k.Hands) > 0 {
		return 0, nil
	}
	n, err := Match("hands", name, k.HandsNames())
	return slices.Index(k.HandsNames(), n), err
}

// FindShow is the place of the show that is meant. A name that several days have needs on, the show's first day.
func (k Kennel) FindShow(name string, on Date) (int, error) {
	var names []string
	for _, s := range k.Shows {
		if !slices.Contains(names, s.Name) {
			names = append(names, s.Name)
		}
	}
	n, err := Match("show", name, names)
	if err != nil {
		return -1, err
	}
	found := -1
	for i, s := range k.Shows {
		if s.Name == n && (on == 0 || s.On == on) {
			if found >= 0 {
				return -1, &InputError{
					Field: "show", Value: n, What: "is held more than once", Try: "its day too: one of " + strings.Join(showDays(k, n), ", "),
				}
			}
			found = i
		}
	}
	if found < 0 {
		return -1, &InputError{Field: "show", Value: n, What: fmt.Sprintf("is not held on %s", on), Try: "one of " + strings.Join(showDays(k, n), ", ")}
	}
	return found, nil
}

func showDays(k Kennel, name string) (days []string) {
	for _, s := range k.Shows {
		if s.Name == name {
			days = append(days, s.On.String())
		}
	}
	return days
}
