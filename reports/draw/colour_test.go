package draw

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"tuckup/kennel"
)

// light is a colour in linear light, 0 to 1 for each of red, green and blue.
type light [3]float64

// lightOf undoes the coding of sRGB (IEC 61966-2-1, as WCAG 2 states it for relative luminance; memory).
func lightOf(t *testing.T, colour string) (l light) {
	t.Helper()
	if len(colour) != 7 || colour[0] != '#' {
		t.Fatalf("%q is no colour", colour)
	}
	for i := range l {
		v, err := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(v) / 255
		if c <= 0.04045 {
			l[i] = c / 12.92
		} else {
			l[i] = math.Pow((c+0.055)/1.055, 2.4)
		}
	}
	return l
}

// luminance is the relative luminance of WCAG 2 (memory).
func (l light) luminance() float64 { return 0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2] }

// contrast is the contrast ratio of WCAG 2, 1 to 21 (memory).
func contrast(a, b light) float64 {
	x, y := a.luminance(), b.luminance()
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// lab is CIE L*a*b* for the white of D65 (CIE 15; memory).
func (l light) lab() (lab [3]float64) {
	x := (0.4124*l[0] + 0.3576*l[1] + 0.1805*l[2]) / 0.9505
	y := l.luminance()
	z := (0.0193*l[0] + 0.1192*l[1] + 0.9505*l[2]) / 1.089
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	return [3]float64{116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))}
}

// apart is the CIE 1976 difference of two colours: about 2.3 is just seen, 10 is plain at a glance (memory).
func apart(a, b light) float64 {
	p, q := a.lab(), b.lab()
	return math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
}

type matrix [3][3]float64

func (m matrix) of(l light) (seen light) {
	for i, row := range m {
		seen[i] = min(1, max(0, row[0]*l[0]+row[1]*l[1]+row[2]*l[2]))
	}
	return seen
}

// eyes are the ways to see: as most people do, with each of the three deficiencies at their strongest, and in grey.
// The matrices are those of Machado, Oliveira and Fernandes, A Physiologically-based Model for Simulation of Color
// Vision Deficiency, IEEE TVCG 15(6), 2009, for severity 1, on linear light; second-hand (public programs that repeat
// the paper's table, several that agree to the last digit).
var eyes = []struct {
	name string
	matrix
}{
	{"most eyes", matrix{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}},
	{"protan eyes", matrix{{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}},
	{"deutan eyes", matrix{{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}},
	{"tritan eyes", matrix{{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}},
	{"grey", matrix{{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}}},
}

const (
	plainlyApart = 10.0
	legible      = 4.5 // WCAG 2, success criterion 1.4.3 (memory)
	edges        = 3.0 // WCAG 2, success criterion 1.4.11, for what is no text (memory)
)

func TestTheStatesAreToldApartByEveryEyeAndInGrey(t *testing.T) {
	for _, eye := range eyes {
		for i, a := range States() {
			for _, b := range States()[:i] {
				d := apart(eye.of(lightOf(t, StateFill(a).Colour)), eye.of(lightOf(t, StateFill(b).Colour)))
				if d < plainlyApart {
					t.Errorf("%s: %s and %s are only %.1f apart", eye.name, a, b, d)
				}
			}
		}
	}
	lines := map[string]kennel.State{}
	for _, s := range States() {
		if other, ok := lines[StateFill(s).Lines]; ok {
			t.Errorf("%s and %s have the same pattern", s, other)
		}
		lines[StateFill(s).Lines] = s
		if Letter(s) == "" {
			t.Errorf("%s has no letter", s)
		}
	}
}

// Colours that differ only in hue must be found, or the check above finds nothing.
func TestRedAndGreenOfOneLightnessAreFound(t *testing.T) {
	red, green := lightOf(t, "#c06a5a"), lightOf(t, "#7a8a4e")
	if d := apart(red, green); d < plainlyApart {
		t.Fatalf("to most eyes they are only %.1f apart", d)
	}
	worst := math.Inf(1)
	for _, eye := range eyes {
		worst = min(worst, apart(eye.of(red), eye.of(green)))
	}
	if worst >= plainlyApart {
		t.Errorf("to every eye they are %.1f apart", worst)
	}
}

// Dogs in a chart differ in colour or in pattern to every eye, and plainly from the next one in the stack.
func TestTheDogsOfAChartAreToldApart(t *testing.T) {
	for _, eye := range eyes {
		for i, a := range seriesFills {
			for j, b := range seriesFills[:i] {
				d := apart(eye.of(lightOf(t, a.Colour)), eye.of(lightOf(t, b.Colour)))
				if d < plainlyApart && (a.Lines == b.Lines || j == i-1) {
					t.Errorf("%s: fills %d and %d are only %.1f apart", eye.name, j, i, d)
				}
			}
		}
	}
}

func TestWordsAndLinesStandOutFromWhatTheyAreOn(t *testing.T) {
	grounds := map[string]string{"paper": paper}
	for _, s := range States() {
		grounds[string(s)] = StateFill(s).Colour
	}
	for on, colour := range grounds {
		if c := contrast(lightOf(t, ink), lightOf(t, colour)); c < legible {
			t.Errorf("words on %s: contrast %.2f", on, c)
		}
	}
	if c := contrast(lightOf(t, softInk), lightOf(t, paper)); c < legible {
		t.Errorf("soft words on paper: contrast %.2f", c)
	}
	if c := contrast(lightOf(t, ink), lightOf(t, paper)); c < edges {
		t.Errorf("edges on paper: contrast %.2f", c)
	}
}

// The formulas give the values that the standards' own examples are known for.
func TestTheFormulasOfColour(t *testing.T) {
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"black on white", contrast(lightOf(t, "#000000"), lightOf(t, "#ffffff")), 21},
		{"#767676 on white", contrast(lightOf(t, "#767676"), lightOf(t, "#ffffff")), 4.54},
		{"L* of white", lightOf(t, "#ffffff").lab()[0], 100},
		{"L* of mid grey #777777", lightOf(t, "#777777").lab()[0], 50.03},
	} {
		if fmt.Sprintf("%.2f", c.got) != fmt.Sprintf("%.2f", c.want) {
			t.Errorf("%s: %.3f, want %.2f", c.what, c.got, c.want)
		}
	}
}
