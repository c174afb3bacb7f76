package say

import (
	"fmt"

	"tuckup/kennel"
	"tuckup/optimize"
)

// CautionLine is one line of a sheet's foot.
type CautionLine struct{ About, Words string }

// Cautions is the foot of the sheet. Sources: hand-activity limits concern hand work of 4 hours a day and more
// (ACGIH hand activity TLV, seen; lowered in 2018, an ergonomist's page, seen); a break is at least 5-10 minutes (HSE, Assessment of Repetitive Tasks, seen); a
// 5-minute break in each hour lowered hand discomfort without loss of output (Galinsky et al. 2000, seen);
// substances may not remain in the coat at exhibition (Kennel Club show regulations, preparation for exhibition,
// seen); bare skin, sun and cold (grooming guide, seen); signs to stop and see a vet (slow regrowth can be
// hormonal: Credille et al. 2001, seen; the rest common practice).
func Cautions() []CautionLine {
	return []CautionLine{
		{"Skin", "stop and ask the vet about red, hot, broken or infected skin, lumps, pain or sudden hair loss; " +
			"hair that is slow to come back can be hormonal."},
		{"Sun", "skin that was stripped bare burns and chills: cover the dog."},
		{"Hands", "rest them 5 minutes in each hour; a break is at least 5 to 10 minutes. Limits for hand work begin to " +
			"apply at 4 hours a day; that is not where it is safe. Stop when they ache."},
		{"Powder", "all of it must be out of the coat before the ring."},
		{"Last word", "the governing body's rules and the vet decide, not this sheet."},
	}
}

// Young names the dogs that may be too young for a show to come, each with why.
func Young(r optimize.Result) (all []string) {
	for _, y := range kennel.TooYoung(r.Kennel) {
		if y.Show.On >= r.On {
			all = append(all, fmt.Sprintf("%s: %s.", Plain(y.Show.Name), Plain(y.Words())))
		}
	}
	return all
}

// Caution is the caution in short, at the foot of every page.
const Caution = "When in doubt take less. Stop when skin is red, hot or broken and ask the vet. Powder must be out of " +
	"the coat before the ring. The governing body's rules and the vet decide, not this plan."
