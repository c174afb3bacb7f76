package planned_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/optimize/made"
	"tuckup/optimize/planned"
)

// full sets everything inside v that a record keeps: each number and text to another one, each list to two.
func full(v reflect.Value, n *int) {
	*n++
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(true)
	case reflect.String:
		v.SetString(fmt.Sprint("text ", *n))
	case reflect.Float64:
		v.SetFloat(float64(*n) + 1.0/3)
	case reflect.Int, reflect.Int32, reflect.Int64:
		v.SetInt(int64(*n))
	case reflect.Uint32, reflect.Uint64:
		v.SetUint(uint64(*n))
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		full(v.Elem(), n)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range v.Len() {
			full(v.Index(i), n)
		}
	case reflect.Array:
		for i := range v.Len() {
			full(v.Index(i), n)
		}
	case reflect.Map:
		v.Set(reflect.MakeMap(v.Type()))
		for range 2 {
			key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
			full(key, n)
			full(value, n)
			v.SetMapIndex(key, value)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() && f.Tag.Get("cbor") != "-" {
				full(v.Field(i), n)
			}
		}
	default:
		panic(fmt.Sprint("nothing is known to fill a ", v.Type(), " with"))
	}
}

// filledResult is a result of which every field is set, with a pattern for each dog.
func filledResult() planned.Result {
	var r planned.Result
	n := 0
	full(reflect.ValueOf(&r).Elem(), &n)
	pats := kennel.Patterns{}
	for _, p := range r.Patterns {
		pats[r.Kennel.Dogs[len(pats)].Pattern] = p
	}
	r.Patterns, r.Week0 = pats, 1 // the Monday is before the work
	return r
}

// packedWhole is the record of a plan, and the plan that comes back from it, which must be the same.
func packedWhole(t *testing.T, r planned.Result) (record []byte, back planned.Result) {
	t.Helper()
	record, err := r.Pack()
	if err != nil {
		t.Fatal(err)
	}
	if back, err = planned.Unpack(record); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(back, r) {
		t.Errorf("came back as\n%+v\nnot\n%+v", back, r)
	}
	return record, back
}

// No field of a plan is lost in its record, whatever is added to it later.
func TestEveryFieldOfAPlanComesBackFromItsRecord(t *testing.T) {
	r := filledResult()
	record, _ := packedWhole(t, r)
	shown, err := planned.UnpackShown(record)
	if err != nil {
		t.Fatal(err)
	}
	if r.Solved = nil; !reflect.DeepEqual(shown, r) {
		t.Errorf("for reports it came back as\n%+v\nnot\n%+v", shown, r)
	}
}

// A plan of two dogs comes back to the last bit, and has one record only.
func TestAPlanHasOneRecord(t *testing.T) {
	r := smallPlan(t)
	record, back := packedWhole(t, r)
	for range 20 { // maps come in another order each time
		if again, err := back.Pack(); err != nil || !bytes.Equal(again, record) {
			t.Fatalf("the same plan has another record (%v)", err)
		}
	}
	r.Patterns = made.Patterns() // with one that no dog has
	r.Patterns["spare"] = kennel.Pattern{Name: "spare"}
	if same, err := r.Pack(); err != nil || !bytes.Equal(same, record) {
		t.Errorf("a pattern that no dog has is kept (%v)", err)
	}
}

// A dog that is called otherwise is so throughout the plan, and called back it is the same plan.
func TestADogIsRenamedThroughoutAPlan(t *testing.T) {
	r := smallPlan(t)
	r.Cannot = append(r.Cannot, planned.Cannot{What: "Moss at Brackenmere", Why: "no hours for Moss, Mossy has them"})
	record, err := r.Pack()
	if err != nil {
		t.Fatal(err)
	}
	back, err := planned.Unpack(planned.Renamed(record, "Moss", "Fern"))
	if err != nil {
		t.Fatal(err)
	}
	if last := back.Cannot[len(back.Cannot)-1]; last.What != "Fern at Brackenmere" || last.Why != "no hours for Fern, Mossy has them" {
		t.Errorf("what can't be met is %v", last)
	}
	if all := strings.ReplaceAll(fmt.Sprintf("%+v %+v", back, *back.Solved.Problem), "Mossy", ""); strings.Contains(all, "Moss") || strings.Count(all, "Fern") < 10 {
		t.Errorf("it is still called Moss in\n%s", all)
	}
	if again := planned.Renamed(planned.Renamed(record, "Moss", "Fern"), "Fern", "Moss"); !bytes.Equal(again, record) {
		t.Error("called Moss again it is another plan")
	}
	for _, bad := range [][]byte{nil, []byte("tuckup plan 99\n")} {
		if got := planned.Renamed(bad, "Moss", "Fern"); !bytes.Equal(got, bad) {
			t.Errorf("a record that can't be read became %q", got)
		}
	}
}

func smallPlan(t testing.TB) planned.Result {
	t.Helper()
	on := kennel.NewDate(2027, 1, 4)
	k := kennel.Kennel{Name: "Fellside", Weeks: 8, Hands: []kennel.Hands{{Name: "Handler", Hours: [7]kennel.Hours{3, 0, 3, 0, 3}}}}
	for i, pattern := range []string{"rough", "wiry"} {
		d := kennel.UsualDog()
		d.Name, d.Pattern, d.All = []string{"Moss", "Sorrel"}[i], pattern, []kennel.Layer{{Share: 0.5, Pulled: on - 70}, {Share: 0.5, Pulled: on - 21}}
		k.Dogs = append(k.Dogs, d)
	}
	k.Shows = []kennel.Show{{Name: "Brackenmere", On: on + 40, Days: 1, Weight: 1, Chance: 1, Dogs: []string{"Moss", "Sorrel"}}}
	opt := optimize.DefaultOptions()
	opt.On = on
	pats := made.Patterns()
	delete(pats, "finished") // no dog has it
	r, err := optimize.Plan(context.Background(), k, pats, opt)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Whatever a record has become on the disk, reading it ends in an error that says how to go on, or in the plan itself: a bit that only says
// how the bytes were packed does no harm.
func TestADamagedRecordSaysToPlanAgain(t *testing.T) {
	whole := filledResult()
	record, err := whole.Pack()
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(1, 2))
	cases := [][]byte{nil, []byte("tuckup plan 1\n"), []byte("tuckup plan 99\nsomething"), record[:len(record)/2], record[:len(record)-1]}
	for range 300 {
		bad := slices.Clone(record)
		bad[random.IntN(len(bad))] ^= byte(1 + random.IntN(255))
		cases = append(cases, bad)
	}
	for n, bad := range cases {
		back, err := planned.Unpack(bad)
		if err == nil && n >= 5 && reflect.DeepEqual(back, whole) {
			continue
		}
		var in *kennel.InputError
		if !errors.As(err, &in) || !strings.Contains(in.Try, "plan") {
			t.Errorf("record %d: %v", n, err)
		}
	}
}

// bigPlan is a plan as large as one of sixty dogs over a year.
func bigPlan(b *testing.B) planned.Result {
	r := smallPlan(b)
	random := rand.New(rand.NewPCG(1, 2))
	const dogs, weeks, areas = 60, 52, 15
	floats := func(n int) (all []float64) {
		for range n {
			all = append(all, random.Float64())
		}
		return all
	}
	flat := func(n int, v float64) (all []float64) {
		for range n {
			all = append(all, v)
		}
		return all
	}
	week, outlook, points, dog := r.Weeks[0].Dogs[0], r.Outlooks[0], r.Points[0], r.Kennel.Dogs[0]
	r.Weeks, r.Outlooks, r.Points, r.Kennel.Dogs, r.Readiness = nil, nil, nil, nil, nil
	for t := range weeks {
		w := planned.Week{Week: r.Week0.AddDays(7 * t)}
		for d := range dogs {
			dw := week
			dw.Dog, dw.Areas = fmt.Sprint("Dog ", d), nil
			for a := range areas * 2 / 3 {
				dw.Areas = append(dw.Areas, planned.AreaWork{Area: kennel.AreaNames()[a], Share: kennel.Share(random.Float64()), Minutes: kennel.Minutes(random.Float64()), Work: kennel.SkillJacket})
			}
			w.Dogs = append(w.Dogs, dw)
			w.Duties = append(w.Duties, planned.DutyWork{Dog: dw.Dog, Name: "legs and beard", Minutes: 20, Why: "every 2 weeks"})
		}
		r.Weeks = append(r.Weeks, w)
	}
	r.Solved.Problem.Dogs, r.Solved.Answer.Plan.Sessions, r.Solved.Answer.Plan.Shares = r.Solved.Problem.Dogs[:1], nil, nil
	one := r.Solved.Problem.Dogs[0]
	r.Solved.Problem.Dogs = nil
	for d := range dogs {
		name := fmt.Sprint("Dog ", d)
		dog.Name = name
		r.Kennel.Dogs = append(r.Kennel.Dogs, dog)
		o := outlook
		o.Dog, o.Areas = name, nil
		for a := range areas {
			area := planned.AreaOutlook{Area: kennel.AreaNames()[a], State: kennel.StateInCoat, Score: 90, Why: "58 % is under 11 weeks"}
			for range 30 {
				area.Ages = append(area.Ages, kennel.Share(random.Float64()))
			}
			o.Areas = append(o.Areas, area)
		}
		for range weeks {
			o.IdleScores = append(o.IdleScores, kennel.Score(random.Float64()))
			o.PlannedScores = append(o.PlannedScores, kennel.Score(random.Float64()))
			o.IdleStates = append(o.IdleStates, kennel.StateBlown)
			o.PlannedStates = append(o.PlannedStates, kennel.StateInCoat)
		}
		r.Outlooks = append(r.Outlooks, o)
		points.Dog, points.Weeks = name, floats(weeks)
		r.Points = append(r.Points, points)
		for s := range 12 {
			r.Readiness = append(r.Readiness, planned.ShowReadiness{Dog: name, Show: fmt.Sprint("Show ", s), On: r.On.AddDays(20 * s), Chance: 1, Score: 91.5, Why: "58 % is under 11 weeks"})
		}
		x, shares, eased := one, [][]float64(nil), [][]float64(nil)
		x.Name, x.Areas, x.Value, x.Minutes = name, nil, flat(weeks, 1), flat(weeks, 75)
		for a := range areas {
			area := one.Areas[0]
			area.Name, area.Past, area.Most = string(kennel.AreaNames()[a]), floats(60), flat(weeks, 0.5)
			area.Over, area.Under, area.Left = flat(weeks, 2), flat(weeks, 2), flat(weeks, 1)
			x.Areas, shares, eased = append(x.Areas, area), append(shares, floats(weeks)), append(eased, floats(weeks))
		}
		r.Solved.Problem.Dogs = append(r.Solved.Problem.Dogs, x)
		r.Solved.Answer.Plan.Sessions = append(r.Solved.Answer.Plan.Sessions, make([]int, weeks))
		r.Solved.Answer.Plan.Shares = append(r.Solved.Answer.Plan.Shares, shares)
		r.Solved.Answer.Eased.Shares = append(r.Solved.Answer.Eased.Shares, eased)
	}
	return r
}

func BenchmarkPack(b *testing.B) {
	r := bigPlan(b)
	for b.Loop() {
		if _, err := r.Pack(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkUnpack(b *testing.B) {
	record, err := bigPlan(b).Pack()
	if err != nil {
		b.Fatal(err)
	}
	for name, unpack := range map[string]func([]byte) (planned.Result, error){"all": planned.Unpack, "for reports": planned.UnpackShown} {
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(record)))
			for b.Loop() {
				if _, err := unpack(record); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
