package draw

import (
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"html/template"
	"io"
	"os"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// hostile are names that try to do harm to a picture.
var hostile = []string{
	"Sorrel", `<script>alert(1)</script>`, `"><image href="http://x"/>`, `=cmd|' /C calc'!A0`, `'"&`, "כלב 12", "\u2068כלב ארוך מאוד ועוד מילים רבות כאן\u2069",
	"犬🐕犬🐕犬🐕犬🐕犬🐕犬🐕犬🐕犬🐕", strings.Repeat("ab ", 67), "{{.}}", "",
}

func someWeeks(n int) []BarWeek {
	weeks := make([]BarWeek, n)
	for i := range weeks {
		weeks[i].Name = fmt.Sprintf("week %d", i+1)
		if i%4 == 0 {
			weeks[i].Tick = fmt.Sprintf("w%d", i+1)
		}
	}
	return weeks
}

func someBars(who string) Bars {
	b := Bars{ID: "bars", Title: who + " by week", Desc: who, Weeks: someWeeks(26), ThereName: "hours available " + who}
	for i := range 11 {
		s := Series{Name: who + fmt.Sprint(i)}
		for t := range 26 {
			s.Hours = append(s.Hours, float64((t*7+i*3)%9)/6)
		}
		b.Series = append(b.Series, s)
	}
	for t := range 26 {
		b.There = append(b.There, []float64{8.5, 8.5, 7, 2.5}[t/3%4])
	}
	return b
}

func someRibbon(who string) Ribbon {
	r := Ribbon{ID: "ribbon", Title: who, Desc: who, Weeks: someWeeks(26), Marks: []Mark{{2, "1", who}, {3, "2", who}, {20, "3", who}, {90, "4", who}}}
	plan := RibbonRow{Name: "With the plan " + who}
	idle := RibbonRow{Name: "If nothing is done"}
	for t := range 26 {
		plan.States = append(plan.States, States()[min(1, t/4)])
		idle.States = append(idle.States, States()[min(3, t/5)])
	}
	r.Rows = []RibbonRow{plan, idle}
	return r
}

func someLayers(who string) Layers {
	return Layers{ID: "layers", Title: who, Desc: who, Shares: []float64{0, 0.1, 0, 0.3, 0, 0, 0, 0, 0, 0, 0, 0.2, 0, 0, 0, 0, 0, 0, 0, 0.25}, Older: 0.15, Ready: 11, Over: 18}
}

func someDog(who string, short bool) Dog {
	d := Dog{ID: fmt.Sprintf("dog-%v", short), Title: who, Desc: who, ShortLegs: short}
	for i, a := range kennel.AreaNames() {
		d.Areas = append(d.Areas, AreaFill{a, States()[i%4], who + " " + string(a)})
	}
	return d
}

func someHair(who string, s kennel.State) Hair {
	return Hair{ID: "hair", Title: who, Desc: who, State: s}
}

func unknownDog(who string) Dog {
	d := someDog(who, false)
	d.Bare = true
	for i := range d.Areas {
		d.Areas[i].State = ""
	}
	return d
}

type drawing interface {
	SVG() (template.HTML, error)
}

func pictures(who string) map[string]drawing {
	return map[string]drawing{
		"bars": someBars(who), "ribbon": someRibbon(who), "layers": someLayers(who), "long-legged": someDog(who, false),
		"short-legged": someDog(who, true), "no bars": Bars{ID: "x", Title: who}, "no ribbon": Ribbon{ID: "x", Title: who},
		"no layers": Layers{ID: "x", Title: who}, "bare dog": Dog{ID: "x", Title: who}, "dog not known": unknownDog(who),
		"hair": someHair(who, kennel.StateBlown), "no hair": Hair{ID: "x", Title: who},
	}
}

func svg(t *testing.T, d drawing) string {
	t.Helper()
	s, err := d.SVG()
	if err != nil {
		t.Fatal(err)
	}
	return string(s)
}

// wrongIn says what is wrong with a picture: no XML, an element that does not belong in one, identifiers that are
// there twice, fills that nothing defines, numbers that are none.
func wrongIn(s string) (wrong []string) {
	known := strings.Fields("svg title desc defs pattern clipPath g path rect circle text")
	ids, used := map[string]bool{}, []string{}
	for d := xml.NewDecoder(strings.NewReader(s)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return append(wrong, err.Error())
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if !slices.Contains(known, start.Name.Local) {
			wrong = append(wrong, "element "+start.Name.Local)
		}
		for _, a := range start.Attr {
			switch {
			case a.Name.Local == "id" && ids[a.Value]:
				wrong = append(wrong, "id twice: "+a.Value)
			case a.Name.Local == "id":
				ids[a.Value] = true
			case strings.HasPrefix(a.Value, "url(#"):
				used = append(used, strings.TrimSuffix(a.Value[5:], ")"))
			case a.Name.Local == "aria-labelledby":
				used = append(used, strings.Fields(a.Value)...)
			case strings.Contains(a.Value, "NaN") || strings.Contains(a.Value, "Inf") || strings.Contains(a.Value, "ZgotmplZ"):
				wrong = append(wrong, a.Name.Local+"="+a.Value)
			}
		}
	}
	for _, u := range used {
		if !ids[u] {
			wrong = append(wrong, "nothing has the id "+u)
		}
	}
	if !strings.HasPrefix(s, "<svg ") || !strings.Contains(s, `role="img"`) {
		wrong = append(wrong, "no picture")
	}
	return wrong
}

func TestPicturesAreSoundWhateverTheNames(t *testing.T) {
	for _, who := range hostile {
		for name, p := range pictures(who) {
			if wrong := wrongIn(svg(t, p)); len(wrong) > 0 {
				t.Errorf("%s of %q: %s", name, who, strings.Join(wrong, "; "))
			}
		}
	}
	bad := strings.Replace(svg(t, someBars("Sorrel")), "<desc", "<script/><desc", 1)
	if len(wrongIn(bad)) == 0 {
		t.Error("a script in a picture is not found")
	}
}

// Every area has a shape and a name in both builds, and an area's title and state are told.
func TestEveryAreaIsDrawn(t *testing.T) {
	for _, a := range kennel.AreaNames() {
		if !slices.ContainsFunc(shapes, func(s shape) bool { return s.area == a && len(s.edge) > 2 }) {
			t.Errorf("%s has no shape", a)
		}
		for _, short := range []bool{false, true} {
			d := Dog{ID: "d", ShortLegs: short, Areas: []AreaFill{{a, kennel.StateBlown, "Sorrel's " + string(a)}}}
			s := svg(t, d)
			if !strings.Contains(s, ">"+string(a)+"</text>") || !strings.Contains(s, "Sorrel&#39;s "+string(a)+"</title>") || !strings.Contains(s, ">blown</text>") {
				t.Errorf("%s is not told", a)
			}
		}
	}
	if n := len(names); n != len(kennel.AreaNames()) {
		t.Errorf("%d names for %d areas", n, len(kennel.AreaNames()))
	}
}

// All that is drawn lies inside the picture.
func TestNothingIsDrawnOutside(t *testing.T) {
	for _, short := range []bool{false, true} {
		across, down, height := bend(nil), bend(nil), longHeight
		if short {
			across, down, height = shortAcross, shortDown, shortHeight
		}
		for _, s := range shapes {
			for _, p := range s.edge {
				if x, y := across.of(p.x), down.of(p.y); x < 0 || x > picWidth || y < 0 || y > height {
					t.Errorf("%s at %v, %v (short %v)", s.area, x, y, short)
				}
			}
		}
		for _, n := range names {
			at := n.long
			if short {
				at = n.short
			}
			wide := max(widthOf(string(n.area), letter), widthOf(string(kennel.StateGoingOver), small))
			left := map[string]float64{"start": at.x, "middle": at.x - wide/2, "end": at.x - wide}[n.anchor]
			if left < -wide/4 || left+wide > picWidth+1 || at.y < letter-2 || at.y+nameLine > height {
				t.Errorf("the name of %s runs out of the picture (short %v)", n.area, short)
			}
		}
	}
}

// The names of areas do not lie on each other.
func TestNamesDoNotOverlap(t *testing.T) {
	for _, short := range []bool{false, true} {
		type box struct{ left, right, top, foot float64 }
		var boxes []box
		for _, n := range names {
			at := n.long
			if short {
				at = n.short
			}
			wide := max(widthOf(string(n.area), letter), widthOf(string(kennel.StateGoingOver), small))
			left := map[string]float64{"start": at.x, "middle": at.x - wide/2, "end": at.x - wide}[n.anchor]
			b := box{left, left + wide, at.y - letter*0.75, at.y + nameLine}
			for i, o := range boxes {
				if b.left < o.right && o.left < b.right && b.top < o.foot && o.top < b.foot {
					t.Errorf("%s lies on %s (short %v)", n.area, names[i].area, short)
				}
			}
			boxes = append(boxes, b)
		}
	}
}

// Bars stand for their hours: the heights of a week add up to its hours on the axis's scale.
func TestBarsAreAsHighAsTheirHours(t *testing.T) {
	b := Bars{ID: "b", Weeks: someWeeks(2), Series: []Series{{"Sorrel", []float64{2, 1}}, {"Moss", []float64{3}}}, There: []float64{5, 5}}
	var top []float64
	for _, part := range strings.Split(svg(t, b), "<rect ")[1:] {
		var x, y, w, h float64
		if n, _ := fmt.Sscanf(part, `x="%f" y="%f" width="%f" height="%f"`, &x, &y, &w, &h); n == 4 && strings.Contains(part, " h</title>") {
			top = append(top, h)
		}
	}
	unit := (barBottom - barTop) / 5
	for i, want := range []float64{2, 3, 1} {
		if i >= len(top) || top[i] < want*unit-0.1 || top[i] > want*unit+0.1 {
			t.Fatalf("heights %v, want %v times 2, 3 and 1", top, unit)
		}
	}
}

func TestMoreSeriesThanFillsAreGathered(t *testing.T) {
	var all []Series
	for i := range 14 {
		all = append(all, Series{fmt.Sprint(i), []float64{float64(i), 1}})
	}
	got := merged(all, 2)
	if len(got) != len(seriesFills) || got[len(got)-1].Name != otherSeries {
		t.Fatalf("%d series", len(got))
	}
	var sum float64
	for _, s := range got {
		sum += s.Hours[0] + s.Hours[1]
	}
	if sum != 91+14 {
		t.Errorf("%v hours became %v", 91+14, sum)
	}
	if got[0].Name != "5" || got[8].Name != "13" {
		t.Errorf("the largest keep their order: %s .. %s", got[0].Name, got[8].Name)
	}
}

func TestRunsOfWeeksBecomeBands(t *testing.T) {
	row := RibbonRow{"Plan", []kennel.State{kennel.StateComingIn, kennel.StateInCoat, kennel.StateInCoat}}
	if got, want := RibbonWords(row, someWeeks(3)), "Plan: coming in for 1 week from week 1, then in coat for 2 weeks from week 2."; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	if n := strings.Count(svg(t, Ribbon{ID: "r", Weeks: someWeeks(3), Rows: []RibbonRow{row}}), "Plan: "); n != 2 {
		t.Errorf("%d bands, want 2", n)
	}
}

func TestLayersAreSaid(t *testing.T) {
	l := Layers{Shares: []float64{0.1, 0, 0.2, 0.3}, Older: 0.4, Ready: 2, Over: 3}
	if got, want := LayersWords(l), "10 % is under 2 weeks, not yet long enough to show; 20 % is long enough to show; 70 % is 3 weeks and more, too long."; got != want {
		t.Errorf("said %q", got)
	}
}

func TestTextIsCutToItsWidth(t *testing.T) {
	if got := fit("\u2068כלב ארוך מאוד\u2069", 12, 60); !strings.HasSuffix(got, "…\u2069") {
		t.Errorf("an isolate is left open: %q", got)
	}
	for _, s := range hostile {
		if got := fit(s, 12, 80); widthOf(got, 12) > 80+12 {
			t.Errorf("%q is %v wide", got, widthOf(got, 12))
		}
	}
}

// The pictures as they were, byte for byte; go test ./reports/draw -update writes them anew.
func TestPicturesAreAsTheyWere(t *testing.T) {
	for name, d := range map[string]drawing{
		"bars": someBars("Dog "), "ribbon": someRibbon("Sorrel"), "layers": someLayers("ribs"), "dog-long": someDog("Sorrel", false), "dog-short": someDog("Quill", true),
		"hair-short": someHair("short", kennel.StateComingIn), "hair-right": someHair("right", kennel.StateInCoat), "hair-long": someHair("long", kennel.StateGoingOver), "hair-blown": someHair("blown", kennel.StateBlown),
	} {
		file := "testdata/" + name + ".svg"
		got := svg(t, d)
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s differs", file)
		}
	}
}

// The hair of a coat that is further on is drawn longer, and inside its picture.
func TestHairGrowsThroughTheStates(t *testing.T) {
	before := 0.0
	for _, s := range States() {
		g := growths[s]
		if g.long <= before {
			t.Errorf("%s is no longer than what comes before it", s)
		}
		before = g.long
		if g.long >= hairSkin {
			t.Errorf("%s grows out of the picture", s)
		}
	}
}

func TestADogWhoseCoatIsNotKnownShowsItsAreasAndNoState(t *testing.T) {
	got := svg(t, unknownDog("Moss"))
	for _, s := range States() {
		if strings.Contains(got, string(s)) {
			t.Errorf("it says %q", s)
		}
	}
	if n := strings.Count(got, `fill="`+tint+`"`); n < len(kennel.AreaNames()) {
		t.Errorf("%d areas are tinted", n)
	}
}
