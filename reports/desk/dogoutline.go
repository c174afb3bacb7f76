package desk

import (
	"fmt"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// dogOutlineVerb says what is wanted of an area of the dog, in place of what was.
func dogOutlineVerb(f *form, l look, dog kennel.Dog) dogChange {
	area, err := kennel.MatchArea(f.get("outlined"))
	o := kennel.Outline{Area: parsed(f, "outlined", area, err), Note: f.get("wanted")}
	if said := f.get("least"); said != "" {
		least, err := kennel.ParseLength(said, l.state.Kennel.Units)
		o.Least = parsed(f, "least", least, err)
	}
	if o.Note == "" && o.Least == 0 {
		f.wrong("wanted", "is missing: a note, or a least length")
	}
	return func(_ *book.State, x *kennel.Dog) (string, error) {
		x.SetOutline(o)
		return fmt.Sprintf("noted what is wanted of the %s of %s", o.Area, dog.Name), nil
	}
}

// dogDropOutlineVerb takes back what is wanted of an area.
func dogDropOutlineVerb(f *form, _ look, dog kennel.Dog) dogChange {
	area, err := kennel.MatchArea(f.get("outlined"))
	area = parsed(f, "outlined", area, err)
	return func(_ *book.State, x *kennel.Dog) (string, error) {
		x.DropOutline(area)
		return fmt.Sprintf("took back what was wanted of the %s of %s", area, dog.Name), nil
	}
}
