package say

import "tuckup/kennel"

// Spell is a spell in a few words: "in season 2027-03-01 to 2027-03-21, grows 0.8 as fast, not at the table".
func Spell(s kennel.Spell) string {
	words := s.What.Words() + " "
	if s.To == 0 {
		words += "from " + s.From.String() + " until further notice"
	} else {
		words += s.From.String() + " to " + s.To.String()
	}
	if s.Growth != kennel.UsualSpell().Growth {
		words += ", grows " + kennel.Number(s.Growth) + " as fast"
	}
	if !s.Stands() {
		words += ", not at the table"
	}
	if s.What.Vet() {
		words += ": the vet decides when it is worked again"
	}
	return words
}
