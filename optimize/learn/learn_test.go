package learn

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"tuckup/kennel"
	"tuckup/kennel/patterns"
)

var today = kennel.NewDate(2027, 6, 1)

func builtin(t testing.TB) kennel.Patterns {
	t.Helper()
	p, err := patterns.Builtin()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func foxTerrier(growth float64) kennel.Dog {
	return kennel.Dog{
		Name: "Sorrel", Pattern: "wire-fox-terrier", Coat: kennel.Coat{Growth: growth, Pace: 1}, Table: kennel.Table{SetUp: 12, Minutes: 75, AWeek: 2},
	}
}

func fitOne(t testing.TB, dog kennel.Dog, r Records) Dog {
	t.Helper()
	all, err := Fit(kennel.Kennel{Dogs: []kennel.Dog{dog}}, builtin(t), r)
	if err != nil || len(all) != 1 {
		t.Fatal(all, err)
	}
	return all[0]
}

// table makes up records of a dog whose growth, lag, areas and show lengths are what MODEL.md says they may be.
type table struct {
	random  *rand.Rand
	pattern kennel.Pattern
	growth  float64
	lag     float64 // part of ready
	own     map[kennel.AreaName]float64
	show    map[kennel.AreaName]float64
}

func newTable(t testing.TB, seed uint64, growth float64) *table {
	tab := &table{
		random: rand.New(rand.NewPCG(seed, 1)), pattern: builtin(t)["wire-fox-terrier"], growth: growth,
		own: map[kennel.AreaName]float64{}, show: map[kennel.AreaName]float64{},
	}
	tab.lag = lagPart * math.Exp(lagSD*tab.random.NormFloat64())
	for _, a := range tab.pattern.Areas {
		tab.own[a.Name] = math.Exp(areaSD * tab.random.NormFloat64())
		tab.show[a.Name] = math.Exp(lengthSD * tab.random.NormFloat64())
	}
	return tab
}

// length is a length taken of hair on an area that was pulled so many weeks ago.
func (tab *table) length(name kennel.AreaName, weeks int) Length {
	a, _ := tab.pattern.Area(name)
	late := tab.lag * a.Ready.Value
	mean := a.ShowLength.Value * tab.show[name] * max(0, tab.growth*tab.own[name]*float64(weeks)-late) / (a.Ready.Value - late)
	mm := mean*(1+lengthScatter*tab.random.NormFloat64()) + lengthError*tab.random.NormFloat64()
	return Length{
		Measure: kennel.Measure{Dog: "Sorrel", On: today, Area: name, Length: kennel.Millimetres(max(0.5, mm))},
		Pulled:  today.AddDays(-7 * weeks),
	}
}

func (tab *table) showable(name kennel.AreaName) kennel.Showable {
	a, _ := tab.pattern.Area(name)
	weeks := a.Ready.Value / (tab.growth * tab.own[name]) * math.Exp(math.Hypot(showableSpread, showableError/a.Ready.Value)*tab.random.NormFloat64())
	return kennel.Showable{Dog: "Sorrel", Area: name, Pulled: today.AddDays(-int(math.Round(7 * weeks))), On: today}
}

// work is a timed session that takes so much of the minutes of living and of dead hair; in every third the coat is dead at its front.
func (tab *table) work(living, dead float64) Session {
	w := Session{Work: kennel.Work{Dog: "Sorrel", On: today}, Dead: map[kennel.AreaName]kennel.Share{}}
	old := tab.random.IntN(3) == 0
	var pulling, usual float64
	for _, a := range tab.pattern.Areas[:5] {
		share := 0.03 + 0.1*tab.random.Float64()
		gone := 0.0
		if old {
			gone = share * tab.random.Float64()
			w.Dead[a.Name] = kennel.Share(gone)
		}
		w.Areas = append(w.Areas, kennel.Pulled{Area: a.Name, Share: kennel.Share(share)})
		pulling += a.Minutes.Value * (living*UsualPick*(share-gone) + dead*gone)
		usual += a.Minutes.Value * (UsualPick*(share-gone) + gone)
	}
	minutes := 12 + tab.pattern.Look.Value + pulling + math.Hypot(minutesScatter*usual, minutesError)*tab.random.NormFloat64()
	w.Minutes = kennel.Minutes(max(1, minutes))
	return w
}

// records are a few months' of a table: lengths of hair of 4 to 15 weeks, notes of first showing, timed sessions.
func (tab *table) records(lengths, showables, sessions int, living, dead float64) (r Records) {
	measured := []kennel.AreaName{kennel.AreaRibs, kennel.AreaBack, kennel.AreaWithers, kennel.AreaShoulder}
	for i := range lengths {
		r.Lengths = append(r.Lengths, tab.length(measured[i%len(measured)], 4+tab.random.IntN(12)))
	}
	for i := range showables {
		r.Showables = append(r.Showables, tab.showable(tab.pattern.Areas[i%len(tab.pattern.Areas)].Name))
	}
	for range sessions {
		r.Work = append(r.Work, tab.work(living, dead))
	}
	return r
}

// The 9-in-10 intervals hold the planted values in about 9 of 10 simulated tables, over few and many records.
func TestIntervalsHoldPlantedValuesAtTheirStatedRate(t *testing.T) {
	const tables, least, most = 1000, 0.85, 0.95
	p := builtin(t)["wire-fox-terrier"]
	growthSD, paceSD := newGrowth(kennel.Dog{}, p).priorSD[dogGrowth], newPace(foxTerrier(1), p, UsualPick).priorSD
	for _, c := range []struct {
		name                         string
		lengths, showables, sessions int
	}{{"no records", 0, 0, 0}, {"few records", 3, 1, 3}, {"a season of records", 16, 8, 40}} {
		var growthIn, paceIn, deadIn, areas, areasIn float64
		var growthWide, paceWide float64
		for seed := range uint64(tables) {
			planted := rand.New(rand.NewPCG(seed, 7))
			growth, dead := math.Exp(growthSD*planted.NormFloat64()), math.Exp(paceSD[deadPace]*planted.NormFloat64())
			living := dead * math.Exp(paceSD[livingBeside]*planted.NormFloat64())
			tab := newTable(t, seed, growth)
			d := fitOne(t, foxTerrier(1), tab.records(c.lengths, c.showables, c.sessions, living, dead))
			growthIn += in(growth, d.Growth) / tables
			paceIn += in(living, d.Pace) / tables
			deadIn += in(dead, d.Dead) / tables
			growthWide += d.Growth.SD / tables
			paceWide += d.Pace.SD / tables
			for _, a := range d.Areas {
				areas++
				areasIn += in(growth*tab.own[a.Area], a.Growth)
			}
		}
		t.Logf("%s: growth %.3f (sd %.3f), pace %.3f (sd %.3f), with dead hair %.3f, areas %.0f of %.0f", c.name, growthIn, growthWide, paceIn, paceWide, deadIn, areasIn, areas)
		for what, rate := range map[string]float64{"growth": growthIn, "pace": paceIn, "pace with dead hair": deadIn} {
			if rate < least || rate > most {
				t.Errorf("%s: the interval of %s holds the planted value in %.3f of the tables", c.name, what, rate)
			}
		}
		if rate := areasIn / areas; areas > 0 && (rate < least || rate > most) {
			t.Errorf("%s: the intervals of single areas hold theirs in %.3f", c.name, rate)
		}
	}
}

func in(x float64, e Estimate) float64 {
	if e.Low <= x && x <= e.High {
		return 1
	}
	return 0
}

// A dog far from its pattern is found out when there are records enough.
func TestUnusualDogIsFoundOut(t *testing.T) {
	for seed := range uint64(20) {
		for _, planted := range []float64{0.75, 1.3} {
			d := fitOne(t, foxTerrier(1), newTable(t, seed, planted).records(40, 20, 60, 1.6, 1.2))
			if math.Abs(math.Log(d.Growth.Value/planted)) > 3*d.Growth.SD || d.Growth.SD > 0.04 {
				t.Errorf("growth %v was planted: %+v", planted, d.Growth)
			}
			if math.Abs(math.Log(d.Pace.Value/1.6)) > 3*d.Pace.SD || d.Pace.SD > 0.06 {
				t.Errorf("pace 1.6 was planted: %+v", d.Pace)
			}
			if math.Abs(math.Log(d.Dead.Value/1.2)) > 3*d.Dead.SD || d.Dead.SD > 0.15 || d.Dead.Records == 0 || d.Dead.Records > 50 {
				t.Errorf("pace 1.2 with dead hair was planted: %+v", d.Dead)
			}
		}
	}
}

func TestWithoutRecordsTheEstimateIsThePatterns(t *testing.T) {
	d := fitOne(t, foxTerrier(0.9), Records{Lengths: []Length{{Measure: kennel.Measure{Dog: "Moss"}}}})
	if d.Growth.Value != 1 || d.Growth.Records != 0 || d.Growth.Told != 0.9 || d.Growth.News() || len(d.Areas)+len(d.Records)+len(d.Unused) != 0 {
		t.Errorf("%+v", d)
	}
	p := builtin(t)["wire-fox-terrier"]
	if want := newGrowth(kennel.Dog{}, p).priorSD[dogGrowth]; math.Abs(d.Growth.SD-want) > 0.01 || want < 0.05 || want > 0.2 {
		t.Errorf("sd %v, the pattern's ranges give %v", d.Growth.SD, want)
	}
	if len(GrowthSDs([]Dog{d})) != 0 {
		t.Error("a dog without records has an sd of its own")
	}
}

func TestRecordsMakeAnEstimateSurer(t *testing.T) {
	last := math.Inf(1)
	for _, n := range []int{0, 2, 8, 32} {
		d := fitOne(t, foxTerrier(1), newTable(t, 5, 1.1).records(n, n, n, 1, 1))
		if d.Growth.SD >= last {
			t.Errorf("with %d records of each kind the sd is %v, before %v", n, d.Growth.SD, last)
		}
		last = d.Growth.SD
	}
}

// A slip of the pen is set aside and does not carry the estimate away.
func TestOneAbsurdRecordIsSetAside(t *testing.T) {
	for seed := range uint64(30) {
		tab := newTable(t, seed, 1.1)
		r := tab.records(10, 4, 10, 1.2, 1.2)
		before := fitOne(t, foxTerrier(1), r)
		absurd := r
		absurd.Lengths = append(absurd.Lengths[:10:10], tab.length(kennel.AreaRibs, 9))
		absurd.Lengths[10].Length = 300
		absurd.Work = append(absurd.Work[:10:10], tab.work(1.2, 1.2))
		absurd.Work[10].Minutes = 600
		after := fitOne(t, foxTerrier(1), absurd)
		if d := math.Abs(math.Log(after.Growth.Value / before.Growth.Value)); d > 0.02 {
			t.Errorf("a length of 300 mm moves growth from %.3f to %.3f", before.Growth.Value, after.Growth.Value)
		}
		if d := math.Abs(math.Log(after.Pace.Value / before.Pace.Value)); d > 0.05 {
			t.Errorf("600 minutes move pace from %.3f to %.3f", before.Pace.Value, after.Pace.Value)
		}
		for _, x := range after.Records {
			if absurd := x.Seen == 300 || x.Seen == 600; absurd != (x.Trust < 0.05) {
				t.Errorf("%+v", x)
			}
		}
	}
}

func TestRecordsThatSayNothingAreToldWithTheReason(t *testing.T) {
	ribs, ears := kennel.AreaRibs, kennel.AreaEars
	length := func(a kennel.AreaName, mm float64, weeks int) Length {
		l := Length{Measure: kennel.Measure{Dog: "Sorrel", On: today, Area: a, Length: kennel.Millimetres(mm)}}
		if weeks != 0 {
			l.Pulled = today.AddDays(-7 * weeks)
		}
		return l
	}
	session := func(minutes kennel.Minutes, duty string, areas ...kennel.Pulled) Session {
		return Session{Work: kennel.Work{Dog: "Sorrel", On: today, Minutes: minutes, Duty: duty, Areas: areas}}
	}
	d := fitOne(t, foxTerrier(1), Records{
		Lengths: []Length{
			length(ears, 10, 3), length(kennel.AreaNeck, 20, 6), length(ribs, 20, 0), length(ribs, 20, -1), length(ribs, 60, 40), length(ribs, 30, 10),
		},
		Showables: []kennel.Showable{{Dog: "Sorrel", Area: ribs, On: today}, {Dog: "Sorrel", Area: ears, Pulled: today - 9, On: today}},
		Work: []Session{
			session(20, "nails"), session(0, "", kennel.Pulled{Area: ribs, Share: 0.1}), session(20, ""),
			session(20, "", kennel.Pulled{Area: ears, Share: 0.1}),
		},
	})
	if d.Growth.Records != 1 || d.Pace.Records != 0 || len(d.Records) != 1 || d.Records[0].Seen != 30 {
		t.Errorf("%+v", d)
	}
	var whys []string
	for _, u := range d.Unused {
		whys = append(whys, u.Why)
	}
	want := []string{
		"its pattern has no such area", "no length is published for the area, so a length tells no weeks",
		"nothing says when the hair that was measured was last pulled", "there was no hair to measure yet",
		"hair so old may have stopped growing", "nothing says when that hair was pulled before", "its pattern has no such area",
		"nobody looked at the clock", "nothing was pulled", "it worked on the ears, which its pattern does not have",
	}
	if !reflect.DeepEqual(whys, want) {
		t.Errorf("%q", whys)
	}
}

func TestLongestHairIsKnownOnlyWhereAllHairIsDated(t *testing.T) {
	layers := func(shares ...kennel.Share) (all []kennel.Layer) {
		for i, s := range shares {
			all = append(all, kennel.Layer{Share: s, Pulled: today.AddDays(-7 * i)})
		}
		return all
	}
	for name, c := range map[string]struct {
		all  []kennel.Layer
		on   kennel.Date
		want kennel.Date
		ok   bool
	}{
		"dated":            {layers(0.4, 0.6), today, today - 7, true},
		"a part undated":   {layers(0.4, 0.5), today, 0, false},
		"pulled since":     {layers(0.4, 0.6), today - 1, 0, false},
		"nothing is known": {nil, today, 0, false},
	} {
		got, ok := Longest(kennel.Dog{All: c.all}, kennel.AreaRibs, c.on)
		if ok != c.ok || ok && got != c.want {
			t.Errorf("%s: %v, %v", name, got, ok)
		}
	}
}

// Growth that the kennel has is off by what the records say: both are in how unsure it is.
func TestUnsureGrowthHoldsHowFarTheKennelIsOff(t *testing.T) {
	r := newTable(t, 3, 1.2).records(20, 10, 0, 1, 1)
	right := fitOne(t, foxTerrier(1.2), r)
	wrong := fitOne(t, foxTerrier(0.8), r)
	sds := GrowthSDs([]Dog{right, {Dog: "Moss", Growth: wrong.Growth}})
	if sds["Moss"] < 0.3 || sds["Sorrel"] > 0.1 || !wrong.Growth.News() {
		t.Errorf("%v", sds)
	}
}

// Dead hair goes first: a share is dead up to what was dead of the area when the dog came to the table.
func TestDeadHairIsKnownFromTheLayers(t *testing.T) {
	p := builtin(t)["wire-fox-terrier"]
	a, _ := p.Area(kennel.AreaRibs)
	weeks := int(math.Round(a.Ready.Value + 2*a.Hold.Value))
	layers := func(old kennel.Share, at int) []kennel.Layer {
		return []kennel.Layer{{Share: old, Pulled: today.AddDays(-7 * at)}, {Share: 0.5, Pulled: today.AddDays(-21)}}
	}
	for name, c := range map[string]struct {
		all    []kennel.Layer
		growth float64
		want   kennel.Share
	}{
		"all of it old enough":          {layers(0.5, weeks), 1, 0.3},
		"a week short of it":            {layers(0.5, weeks-1), 1, 0},
		"some of it":                    {append(layers(0.2, weeks), kennel.Layer{Share: 0.3, Pulled: today.AddDays(-70)}), 1, 0.2},
		"a coat that grows faster":      {layers(0.5, weeks-4), 1.3, 0.3},
		"a tenth that no pull is of":    {layers(0.4, 10), 1, 0.1},
		"nothing is known":              {nil, 1, 0},
		"looked at since it was pulled": {append(layers(0.3, weeks), kennel.Layer{Share: 0.2, Pulled: today + 1}), 1, 0},
	} {
		dog := foxTerrier(c.growth)
		dog.All = c.all
		if got := Dead(dog, p, kennel.Pulled{Area: kennel.AreaRibs, Share: 0.3}, today); math.Abs(float64(got-c.want)) > 1e-9 {
			t.Errorf("%s: %v of 0.3 is dead, should be %v", name, got, c.want)
		}
	}
}

// Hair that comes off faster than living hair by another factor than the setting says is found out from the whole string.
func TestPickIsFoundOutFromAllDogs(t *testing.T) {
	var dogs []Dog
	for seed := range uint64(6) {
		dogs = append(dogs, fitOne(t, foxTerrier(1), newTable(t, seed, 1).records(0, 0, 30, 1.3, 1)))
	}
	e := Pick(dogs)
	if math.Abs(math.Log(e.Value/2.6)) > 3*e.SD || e.SD > 0.06 || e.Told != UsualPick || !e.News() || e.Low > e.Value || e.High < e.Value {
		t.Errorf("2.6 was planted: %+v", e)
	}
	one := Pick(dogs[:1])
	if one.SD <= e.SD || one.Records >= e.Records {
		t.Errorf("one dog says %+v, six %+v", one, e)
	}
	none := Pick([]Dog{fitOne(t, foxTerrier(1), Records{Pick: 2.5})})
	if none.Value != 2.5 || none.News() || none.Records != 0 {
		t.Errorf("without records: %+v", none)
	}
}

// The pace is beside the setting: what living hair takes altogether is the same whatever the setting is.
func TestPaceIsBesideThePickThatIsSet(t *testing.T) {
	r := newTable(t, 4, 1).records(0, 0, 200, 1.1, 1)
	two := fitOne(t, foxTerrier(1), r)
	r.Pick = 2.4
	more := fitOne(t, foxTerrier(1), r)
	if d := math.Abs(more.Pace.Value*2.4/(two.Pace.Value*2) - 1); d > 0.02 {
		t.Errorf("pace %.3f at 2, %.3f at 2.4", two.Pace.Value, more.Pace.Value)
	}
}

// Hair of a spell of slow growth is as old as it has grown: a dog is not thought slow for it.
func TestASpellIsNotTakenForASlowDog(t *testing.T) {
	dog := foxTerrier(1)
	dog.Spells = []kennel.Spell{{From: today - 69, To: today, What: kennel.SpellIllness, Growth: 0.5}}
	a, _ := builtin(t)[dog.Pattern].Area(kennel.AreaRibs)
	var r Records
	for range 5 { // grown for half of the ten weeks
		r.Showables = append(r.Showables, kennel.Showable{Dog: dog.Name, Area: a.Name, Pulled: today.AddDays(-70 - int(7*(a.Ready.Value-5))), On: today})
	}
	with := fitOne(t, dog, r)
	dog.Spells = nil
	without := fitOne(t, dog, r)
	if math.Abs(with.Growth.Value-1) > 0.03 || without.Growth.Value > 0.9 {
		t.Errorf("growth is %v, and %v where nobody says that it was ill", with.Growth.Value, without.Growth.Value)
	}
}
