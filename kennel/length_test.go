package kennel

import (
	"strings"
	"testing"
)

func TestTextsOfTooManyLettersAreNamed(t *testing.T) {
	name, note := strings.Repeat("é", LongestName), strings.Repeat("é", LongestNote)
	k := Kennel{
		Name: name, Hands: []Hands{{Name: name, Away: []Span{{Why: note}}}},
		Dogs:  []Dog{{Name: name, Owner: name, Here: []Span{{Why: note}}, Duties: []Duty{{Name: name}}}},
		Shows: []Show{{Name: name, Away: &Span{Why: note}}},
	}
	none := func(string) bool { return false }
	if all := TooLong(k, none); len(all) > 0 {
		t.Errorf("as long as they may be: %v", all)
	}
	for field, lengthen := range map[string]func(*Kennel){
		"kennel":                 func(k *Kennel) { k.Name += "x" },
		"hands[0].name":          func(k *Kennel) { k.Hands[0].Name += "x" },
		"hands[0].away[0].why":   func(k *Kennel) { k.Hands[0].Away[0].Why += "x" },
		"dogs[0].name":           func(k *Kennel) { k.Dogs[0].Name += "x" },
		"dogs[0].owner":          func(k *Kennel) { k.Dogs[0].Owner += "x" },
		"dogs[0].here[0].why":    func(k *Kennel) { k.Dogs[0].Here[0].Why += "x" },
		"dogs[0].duties[0].name": func(k *Kennel) { k.Dogs[0].Duties[0].Name += "x" },
		"shows[0].name":          func(k *Kennel) { k.Shows[0].Name += "x" },
		"shows[0].away.why":      func(k *Kennel) { k.Shows[0].Away.Why += "x" },
	} {
		long := k.Clone()
		lengthen(&long)
		all := TooLong(long, none)
		if len(all) != 1 || all[0].Field != field || all[0].What != "has 81 letters" && all[0].What != "has 2001 letters" || len(all[0].Value) > 200 {
			t.Errorf("%s: %v", field, all)
		}
		if all := TooLong(long, func(s string) bool { return strings.HasSuffix(s, "x") }); len(all) > 0 {
			t.Errorf("%s, known before: %v", field, all)
		}
	}
}
