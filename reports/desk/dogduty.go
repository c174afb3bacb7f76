package desk

import (
	"fmt"
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// dogDutyVerb gives the dog a duty, in place of one of that name.
func dogDutyVerb(f *form, _ look, dog kennel.Dog) dogChange {
	words, at := f.dutyWords()
	if f.Bad() {
		return nil
	}
	duty, err := kennel.ParseDuty(words)
	duty = parsed(f, at, duty, err)
	return func(_ *book.State, x *kennel.Dog) (string, error) {
		x.DropDuty(duty.Name)
		x.Duties = append(slices.Clone(x.Duties), duty)
		return fmt.Sprintf("gave %s the duty %s", dog.Name, duty.Name), nil
	}
}

// dogDropDutyVerb takes a duty from the dog.
func dogDropDutyVerb(f *form, _ look, dog kennel.Dog) dogChange {
	name := f.get("duty")
	return func(_ *book.State, x *kennel.Dog) (string, error) {
		x.DropDuty(name)
		return fmt.Sprintf("took the duty %s from %s", name, dog.Name), nil
	}
}
