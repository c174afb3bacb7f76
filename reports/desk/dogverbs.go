package desk

import (
	"slices"

	"tuckup/kennel"
	"tuckup/kennel/book"
)

// dogVerb reads what a form asks to be done with a dog, and notes what is wrong in it. What it returns does it.
type dogVerb func(f *form, l look, dog kennel.Dog) dogChange

// dogChange changes a dog of the book, and says in words what it did.
type dogChange func(s *book.State, x *kennel.Dog) (what string, err error)

// dogVerbs are what forms can do with a dog: one small file each.
var dogVerbs = map[string]dogVerb{
	"facts": dogFactsVerb, "coat": dogCoatVerb, "duty": dogDutyVerb, "drop-duty": dogDropDutyVerb, "measure": dogMeasureVerb, "retire": dogRetireVerb,
	"drop-photo": dogDropPhotoVerb, "outline": dogOutlineVerb, "drop-outline": dogDropOutlineVerb, "spell": dogSpellVerb, "drop-spell": dogDropSpellVerb,
}

// dogFields are the names that forms have for what the book says of a dog.
var dogFields = named(dogThing, map[string]string{
	"layers": "coat", "all": "coat", "areas": "coat", "share": "coat", "pulled": "coat", "here": "from", "from": "from", "to": "to", "duty": "duty",
	"every": "duty", "duties": "duty", "length": "length", "note": "note",
	"outline": "outlined", "least": "least", "area": "outlined", "what": "what", "table": "table",
})

// dogEdit is the change that the form asks for; what is wrong is noted in it.
func (f *form) dogEdit(l look, dog kennel.Dog) edit {
	e := edit{version: f.Version, about: func(s book.State) []fact { return dogFacts(s, dog.Name) }}
	verb := dogVerbs[f.get("do")]
	if verb == nil {
		return e
	}
	change := verb(f, l, dog)
	if change == nil {
		return e
	}
	e.do = func(s *book.State) (string, error) {
		i := slices.Index(s.Kennel.DogNames(), dog.Name)
		if i < 0 {
			return "", notInBook(dog.Name, "the page of the string")
		}
		s.Kennel.Dogs = slices.Clone(s.Kennel.Dogs)
		return change(s, &s.Kennel.Dogs[i])
	}
	return e
}
