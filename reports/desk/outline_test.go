package desk

import (
	"net/url"
	"testing"

	"tuckup/kennel"
)

// What is wanted of an area is beside it at the table and in the week, as it is said today, whatever plan is in use.
func TestAnOutlineIsBesideItsAreaAtTheTable(t *testing.T) {
	r := inUseOf(t, twoDogs())
	d, s := r.dayWithSession()
	form := r.get(dogPath(s.Dog)).form("main", "outline")
	form.Set("outlined", string(s.Areas[0].Area))
	form.Set("wanted", "leave the base long")
	form.Set("least", "")
	r.send(dogPath(s.Dog), form)
	v := url.Values{"day": {d.On.String()}, "hands": {s.At.Hands}}
	r.get("/today?"+v.Encode()).says(".areas .outline", "leave the base long")
	r.get("/week").says("main", "(leave the base long)")
	r.get(dogPath(s.Dog)).says("main", "leave the base long")
	if got := r.state().Kennel.Dogs; len(got[0].Outlines)+len(got[1].Outlines) != 1 || got[0].Outlines != nil && got[0].Outlines[0] != (kennel.Outline{Area: s.Areas[0].Area, Note: "leave the base long"}) {
		t.Errorf("%+v", got)
	}
}
