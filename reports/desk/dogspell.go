package desk

import (
	"fmt"

	"tuckup/kennel"
	"tuckup/kennel/book"
	"tuckup/kennel/fields"
)

var spellThing = fields.Spell

// dogSpellVerb gives the dog a spell, in place of one of its kind that begins on the same day.
func dogSpellVerb(f *form, _ look, dog kennel.Dog) dogChange {
	var spell kennel.Spell
	readFields(f, formFields(spellThing), kennel.UsualSpell(), &spell)
	return func(_ *book.State, x *kennel.Dog) (string, error) {
		x.SetSpell(spell)
		return fmt.Sprintf("noted that %s is %s from %s", dog.Name, spell.What.Words(), spell.From), nil
	}
}

// dogDropSpellVerb takes a spell from the dog.
func dogDropSpellVerb(f *form, _ look, dog kennel.Dog) dogChange {
	from := f.date("from", true)
	return func(_ *book.State, x *kennel.Dog) (string, error) {
		x.DropSpells(from)
		return fmt.Sprintf("took the spell from %s on from %s", from, dog.Name), nil
	}
}
