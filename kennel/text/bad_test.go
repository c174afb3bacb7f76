package text

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tuckup/kennel"
)

// whole is a file that uses every key.
const whole = `kennel: Hollow Row
plan_from: 2027-01-04
weeks: 26
time_zone: Europe/Dublin
units: mm
hands:
  - name: Handler
    hours: {mon: 5, tue: 5, wed: 4, thu: 5, fri: 3, sat: 1, sun: 0.5}
    strip_hours_a_day: 4
    does: [jacket, close, furnishings, duties]
    away: [{from: 2027-02-11, to: 2027-02-15, why: shows abroad}]
dogs:
  - name: Bramble
    pattern: wire-fox-terrier
    born: 2024-05-02
    owner: T. Averwick
    coat: {texture: hard, growth: 1.0, pace: 1.0, roll_only: true}
    table: {set_up: 12, minutes: 75, a_week: 2}
    priority: 1.0
    here: [{from: 2027-01-01, to: 2027-12-31, why: in hand}]
    areas:
      all: [{share: 1.0, pulled: 2026-10-12}]
      skirt line: [{share: 0.6, pulled: 2026-09-20}, {share: 0.4, pulled: 2026-12-01}]
    outline:
      - {area: neck, note: leave the base long}
      - {area: skirt line, note: low, least: 30}
    spells:
      - {from: 2027-05-01, to: 2027-05-21, what: season, growth: 0.8, table: no}
    duties:
      - {name: nails, minutes: 10, every: 1w}
      - {name: close trim, minutes: 30, before_show: {from: 10d, to: 7d}}
shows:
  - name: Quernby Show
    on: 2027-03-20
    days: 2
    entries_close: 2027-03-02
    weight: 3
    chance: 0.5
    away: {from: 2027-03-19, to: 2027-03-21, why: by sea}
    dogs: [Bramble]
`

// A case puts bad in place of good in the file; the mark ^ says where the trouble must be found.
type badCase struct{ good, bad, field, value, what, try string }

var badCases = []badCase{
	{"what: season", "what: ^heat", "dogs[0].spells[0].what", "heat", "not known", "one of season"},
	{"growth: 0.8", "growth: ^8", "dogs[0].spells[0].growth", "8", "out of range", "0.1 to 1.5"},
	{"table: no", "table: ^perhaps", "dogs[0].spells[0].table", "perhaps", "neither yes nor no", "yes or no"},
	{"to: 2027-05-21", "to: ^2027-04-21", "dogs[0].spells[0].to", "2027-04-21", "before from", "2027-05-01 or later"},
	{"{from: 2027-05-01, ", "^{", "dogs[0].spells[0].from", "", "is missing", "a date"},
	{"area: neck", "area: ^wing", "dogs[0].outline[0].area", "wing", "is not known", "one of"},
	{"area: skirt line", "area: ^neck", "dogs[0].outline[1].area", "neck", "appears twice", "leave one"},
	{"least: 30", "least: ^300", "dogs[0].outline[1].least", "300", "out of range", "1 to 150"},
	{"note: leave the base long", "note: ^[long]", "dogs[0].outline[0].note", "", "not a list", "one line"},
	{"{area: neck, note: leave the base long}", "^{area: neck}", "dogs[0].outline[0]", "", "neither note nor least", "note: "},
	{"kennel: Hollow Row", "kennel: ^12", "kennel", "12", "text", `"12"`},
	{"kennel: Hollow Row", "kennel: ^''", "kennel", "", "empty", "words"},
	{"kennel: Hollow Row", `kennel: ^"a\tb"`, "kennel", "a\tb", "control", "one line"},
	{"kennel: Hollow Row", `kennel: ^"a\nb"`, "kennel", "a\nb", "line break", "one line"},
	{"kennel: Hollow Row", "kennel: ^|\n  Hollow", "kennel", "", "text", "one line"},
	{"kennel: Hollow Row\n", "^", "kennel", "", "missing", "kennel:"},
	{"kennel: Hollow Row", "^kenel: Hollow Row", "kenel", "", "not a key", "kennel"},
	{"plan_from: 2027-01-04", "plan_from: ^2027-02-29", "plan_from", "2027-02-29", "February 2027 has 28", "2027-02-28"},
	{"plan_from: 2027-01-04", "plan_from: ^04/01/2027", "plan_from", "04/01/2027", "could be two days", "2027-01-04 for 4 January 2027, or 2027-04-01"},
	{"plan_from: 2027-01-04", "plan_from: ^1970-01-01", "plan_from", "1970-01-01", "1971", "2027-03-20"},
	{"plan_from: 2027-01-04", "plan_from: ^2027", "plan_from", "2027", "not a date", "2027-03-20"},
	{"weeks: 26", "weeks: ^2.5", "weeks", "2.5", "whole number", "2"},
	{"weeks: 26", "weeks: ^26.0", "weeks", "26.0", "whole number", "2"},
	{"weeks: 26", "weeks: ^026", "weeks", "026", "whole number", "2"},
	{"weeks: 26", "weeks: ^0x1A", "weeks", "0x1A", "whole number", "2"},
	{"weeks: 26", "weeks: ^3", "weeks", "3", "out of range", "4 to 104"},
	{"weeks: 26", "weeks: ^0", "weeks", "0", "can't be 0", "above 0"},
	{"weeks: 26", "weeks: ^99999999999999999999", "weeks", "99999999999999999999", "whole number", "2"},
	{"weeks: 26", "^weeks:", "weeks", "", "nothing", "2"},
	{"weeks: 26", "weeks: 26\n^weeks: 27", "weeks", "", "twice", "leave one"},
	{"time_zone: Europe/Dublin", "time_zone: ^Europe/Quernby", "time_zone", "Europe/Quernby", "time zone", "Europe/Dublin"},
	{"time_zone: Europe/Dublin", "time_zone: ^Local", "time_zone", "Local", "time zone", "Europe/Dublin"},
	{"units: mm", "units: ^cm", "units", "cm", "not known", "mm, in"},
	{"hands:\n", "^hand:\n", "hand", "", "not a key", "hands"},
	{"name: Handler", "^nam: Handler", "hands[0].nam", "", "not a key", "name"},
	{"name: Handler\n    hours", "hours", "hands[0].name", "", "missing", "name:"},
	{"name: Handler", "name: ^true", "hands[0].name", "true", "text", `"true"`},
	{"hours: {mon: 5,", "hours: {^munday: 5,", "hands[0].hours.munday", "", "not a key", "mon"},
	{"{mon: 5,", "{mon: ^-5,", "hands[0].hours.mon", "-5", "out of range", "0 to 24"},
	{"tue: 5", "tue: ^25", "hands[0].hours.tue", "25", "out of range", "0 to 24"},
	{"wed: 4", "wed: ^4x", "hands[0].hours.wed", "4x", "not a number of hours", "2.5 or 1h30"},
	{"thu: 5", "thu: ^.nan", "hands[0].hours.thu", ".nan", "not a number of hours", "2.5 or 1h30"},
	{"fri: 3", "fri: ^.inf", "hands[0].hours.fri", ".inf", "not a number of hours", "2.5 or 1h30"},
	{"sat: 1", "sat: ^1e999", "hands[0].hours.sat", "1e999", "not a number of hours", "2.5 or 1h30"},
	{"sun: 0.5", "sun: ^1_0", "hands[0].hours.sun", "1_0", "not a number of hours", "2.5 or 1h30"},
	{"hours: {mon: 5, tue: 5, wed: 4, thu: 5, fri: 3, sat: 1, sun: 0.5}", "hours: ^25", "hands[0].hours", "25", "keys", "KEY"},
	{"strip_hours_a_day: 4", "strip_hours_a_day: ^0", "hands[0].strip_hours_a_day", "0", "can't be 0", "leave it out"},
	{"strip_hours_a_day: 4", "strip_hours_a_day: ^-1", "hands[0].strip_hours_a_day", "-1", "out of range", "0 to 24"},
	{"does: [jacket, close,", "does: [^jackets, close,", "hands[0].does[0]", "jackets", "not known", "jacket"},
	{"does: [jacket, close, furnishings, duties]", "does: ^jacket", "hands[0].does", "jacket", "list", "["},
	{"does: [jacket, close, furnishings, duties]", "does: ^[]", "hands[0].does", "", "no work", "jacket"},
	{"away: [{from: 2027-02-11, to: 2027-02-15", "away: [{from: ^2027-02-30, to: 2027-02-15", "hands[0].away[0].from", "2027-02-30", "February 2027 has 28", "2027-02-28"},
	{"to: 2027-02-15", "to: ^2027-02-10", "hands[0].away[0].to", "2027-02-10", "before from", "2027-02-11"},
	{"[{from: 2027-02-11, to: 2027-02-15, why: shows abroad}]", "[^{why: shows abroad}]", "hands[0].away[0]", "", "neither", "from:"},
	{"[{from: 2027-02-11, to: 2027-02-15, why: shows abroad}]", "^{from: 2027-02-11}", "hands[0].away", "", "list", "["},
	{"why: shows abroad", "why: ^[]", "hands[0].away[0].why", "", "text", "words"},
	{"name: Bramble", "^name:", "dogs[0].name", "", "nothing", "words"},
	{"name: Bramble", "name: ~", "dogs[0].name", "", "nothing", "words"},
	{"name: Bramble\n", "name: Bramble\n    pattern: x\n  - name: ^bramble\n", "dogs[1].name", "bramble", "twice", "another name"},
	{"pattern: wire-fox-terrier", "pattern: ^[x]", "dogs[0].pattern", "", "text", "words"},
	{"    pattern: wire-fox-terrier\n", "", "dogs[0].pattern", "", "missing", "pattern list"},
	{"born: 2024-05-02", "born: ^2023-02-29", "dogs[0].born", "2023-02-29", "February 2023 has 28", "2023-02-28"},
	{"owner: T. Averwick", "owner: ^1", "dogs[0].owner", "1", "text", `"1"`},
	{"texture: hard", "texture: ^wiry", "dogs[0].coat.texture", "wiry", "not known", "hard, fine, soft"},
	{"growth: 1.0", "growth: ^2.5", "dogs[0].coat.growth", "2.5", "out of range", "0.5 to 2"},
	{"growth: 1.0", "^grwth: 1.0", "dogs[0].coat.grwth", "", "not a key", "growth"},
	{"pace: 1.0", "pace: ^0", "dogs[0].coat.pace", "0", "out of range", "0.25 to 4"},
	{"roll_only: true", "roll_only: ^perhaps", "dogs[0].coat.roll_only", "perhaps", "true or false", "true"},
	{"coat: {texture: hard, growth: 1.0, pace: 1.0, roll_only: true}", "coat: ^hard", "dogs[0].coat", "hard", "keys", "KEY"},
	{"set_up: 12", "set_up: ^61", "dogs[0].table.set_up", "61", "out of range", "0 to 60"},
	{"minutes: 75", "minutes: ^9", "dogs[0].table.minutes", "9", "out of range", "10 to 300"},
	{"a_week: 2", "a_week: ^2.5", "dogs[0].table.a_week", "2.5", "whole number", "2"},
	{"a_week: 2", "a_week: ^8", "dogs[0].table.a_week", "8", "out of range", "0 to 7"},
	{"table: {set_up: 12, minutes: 75, a_week: 2}", "table: ^[]", "dogs[0].table", "", "keys", "KEY"},
	{"priority: 1.0", "priority: ^0", "dogs[0].priority", "0", "out of range", "above 0"},
	{"from: 2027-01-01", "from: ^2027-1", "dogs[0].here[0].from", "2027-1", "not a date", "2027-03-20"},
	{"to: 2027-12-31", "to: ^2026-12-31", "dogs[0].here[0].to", "2026-12-31", "before from", "2027-01-01"},
	{"why: in hand", "why: ^false", "dogs[0].here[0].why", "false", "text", `"false"`},
	{"here: [{from: 2027-01-01, to: 2027-12-31, why: in hand}]", "here: ^always", "dogs[0].here", "always", "list", "leave it out"},
	{"      all:", "      ^bck: [{share: 1, pulled: 2026-10-12}]\n      all:", "dogs[0].areas.bck", "", "not an area", "back"},
	{"      all: [{share: 1.0, pulled: 2026-10-12}]", "      all: ^0.5", "dogs[0].areas.all", "0.5", "list", "["},
	{"{share: 1.0,", "{share: ^1.5,", "dogs[0].areas.all[0].share", "1.5", "out of range", "at most 1"},
	{"{share: 1.0,", "{share: ^-0.5,", "dogs[0].areas.all[0].share", "-0.5", "out of range", "above 0"},
	{"{share: 1.0, pulled: 2026-10-12}", "^{share: 1.0}", "dogs[0].areas.all[0].pulled", "", "missing", "pulled:"},
	{"pulled: 2026-10-12", "pulled: ^2026-13-12", "dogs[0].areas.all[0].pulled", "2026-13-12", "no month of that number", "2026-12-13"},
	{"      skirt line: [{share: 0.6", "      skirt line: ^[{share: 0.7", "dogs[0].areas.skirt line", "1.1", "sum to", "sum to 1"},
	{"      skirt line:", "      skirt-line: []\n      ^skirt line:", "dogs[0].areas.skirt line", "", "twice", "leave one"},
	{"{share: 0.4, pulled: 2026-12-01}", "{share: 0.4, pulled: ^yesterday}", "dogs[0].areas.skirt line[1].pulled", "yesterday", "not a date", "2027-03-20"},
	{"{share: 0.6,", "{share: ^most,", "dogs[0].areas.skirt line[0].share", "most", "not a part of an area", "1 in 17"},
	{"{name: nails,", "{name: ^[],", "dogs[0].duties[0].name", "", "text", "words"},
	{"minutes: 10, every", "minutes: ^-10, every", "dogs[0].duties[0].minutes", "-10", "out of range", "above 0"},
	{"every: 1w", "every: ^10d", "dogs[0].duties[0].every", "10d", "whole weeks", "2w"},
	{"every: 1w", "every: ^1", "dogs[0].duties[0].every", "1", "neither days nor weeks", "1w for weeks"},
	{"every: 1w", "every: ^53w", "dogs[0].duties[0].every", "53w", "out of range", "1 to 52"},
	{"every: 1w", "every: ^0w", "dogs[0].duties[0].every", "0w", "can't be 0", "above 0"},
	{"- {name: nails, minutes: 10, every: 1w}", "- ^{name: nails}", "dogs[0].duties[0]", "", "either", "every: 2w"},
	{"- {name: nails, minutes: 10, every: 1w}", "- ^{name: nails, minutes: 10, every: 1w, before_show: {from: 2d, to: 1d}}", "dogs[0].duties[0]", "", "either", "every: 2w"},
	{"{from: 10d, to: 7d}", "{from: ^10, to: 7d}", "dogs[0].duties[1].before_show.from", "10", "neither days nor weeks", "10d for days"},
	{"{from: 10d, to: 7d}", "{from: 10d, to: ^11d}", "dogs[0].duties[1].before_show.to", "11d", "out of range", "from"},
	{"{from: 10d, to: 7d}", "^{from: 10d}", "dogs[0].duties[1].before_show.to", "", "missing", "to:"},
	{"before_show: {from: 10d, to: 7d}", "before_show: ^10d", "dogs[0].duties[1].before_show", "10d", "keys", "KEY"},
	{"name: Quernby Show", "name: ^2027", "shows[0].name", "2027", "text", `"2027"`},
	{"on: 2027-03-20", "on: ^20 March", "shows[0].on", "20 March", "has no year", "20 March 2027"},
	{"    on: 2027-03-20\n", "", "shows[0].on", "", "missing", "on:"},
	{"days: 2", "days: ^15", "shows[0].days", "15", "out of range", "1 to 14"},
	{"days: 2", "days: ^1.5", "shows[0].days", "1.5", "whole number", "2"},
	{"entries_close: 2027-03-02", "entries_close: ^2027-03-21", "shows[0].entries_close", "2027-03-21", "after the show", "2027-03-20"},
	{"weight: 3", "weight: ^-3", "shows[0].weight", "-3", "out of range", "above 0"},
	{"chance: 0.5", "chance: ^even", "shows[0].chance", "even", "not a chance", "0.6 or 60%"},
	{"chance: 0.5", "chance: ^1.01", "shows[0].chance", "1.01", "out of range", "at most 1"},
	{"away: {from: 2027-03-19, to: 2027-03-21, why: by sea}", "away: ^{from: 2027-03-19}", "shows[0].away.to", "", "missing", "to:"},
	{"{from: 2027-03-19,", "{from: ^19,", "shows[0].away.from", "19", "not a date", "2027-03-20"},
	{"to: 2027-03-21", "to: ^2027-03-18", "shows[0].away.to", "2027-03-18", "before from", "2027-03-19"},
	{"why: by sea", "why: ^{}", "shows[0].away.why", "", "text", "words"},
	{"dogs: [Bramble]", "dogs: [^Brambel]", "shows[0].dogs[0]", "Brambel", "not a dog", "Bramble"},
	{"dogs: [Bramble]", "dogs: [Bramble, ^Bramble]", "shows[0].dogs[1]", "Bramble", "twice", "once"},
	{"dogs: [Bramble]", "dogs: ^Bramble", "shows[0].dogs", "Bramble", "list", "["},
	{"dogs: [Bramble]", "dogs: [Bramble]\n  - name: ^Quernby Show\n    on: 2027-03-20", "shows[1].name", "Quernby Show", "twice", "leave one"},
}

// misplaced are whole files that are no kennel file.
var misplaced = []badCase{
	{bad: "^", what: "empty", try: "kennel:"},
	{bad: "^# nothing but a comment\n", what: "empty", try: "kennel:"},
	{bad: "^---\n", what: "empty", try: "kennel:"},
	{bad: "kennel: A\n^---\nkennel: B\n", field: "text", value: "---", what: "second document", try: "one kennel"},
	{bad: "kennel: A\n...\n^kennel: B\n", field: "text", value: "kennel", what: "second document", try: "one kennel"},
	{bad: "kennel: A\nhands:\n^\t- name: B\n", field: "text", value: "\t", what: "tab", try: "spaces"},
	{bad: "kennel: A^\xff\n", field: "letter", value: "ÿ", what: "UTF-8", try: "UTF-8"},
	{bad: "kennel: A^\x00\n", field: "text", value: "\x00", what: "control", try: "leave it out"},
	{bad: "kennel: ^&a A\n", field: "text", value: "&", what: "begins with &", try: "in quotes"},
	{bad: "kennel: ^*a\n", field: "text", value: "*", what: "begins with *", try: "in quotes"},
	{bad: "kennel: ^!!str A\n", field: "text", value: "!!str", what: "begins with !", try: "in quotes"},
	{bad: "^<<: {kennel: A}\n", field: "text", value: "<<", what: "not a key that is read", try: "the keys themselves"},
	{bad: "^? kennel\n: A\n", field: "text", value: "?", what: "begins with ?", try: "KEY: VALUE"},
	{bad: "^- kennel: A\n", what: "should be keys", try: "KEY: VALUE"},
	{bad: "^kennel\n", value: "kennel", what: "should be keys", try: "KEY: VALUE"},
	{bad: "kennel: A\ndogs:\n  - ^- x\n", field: "text", value: "-", what: "list in a list", try: "something after it"},
	{bad: "dogs: " + strings.Repeat("[", deepest-1) + "^[\n", field: "text", value: "[", what: "deeper", try: "README"},
	{bad: "kennel: 'a' ^'b'\n", field: "text", value: "b", what: "side by side", try: "one of them"},
	{bad: "^{" + strings.Repeat("a: 1, ", mostKeys+1) + "}\n", what: "more than 100 keys", try: "list"},
	{bad: "dogs: [^, a]\n", field: "text", value: ",", what: "comma", try: "leave the comma out"},
	{bad: "kennel: A\n^1: 2\n", value: "1", what: "not a key", try: "word"},
}

func TestBadInputIsRefusedWhereItStands(t *testing.T) {
	for _, c := range badCases {
		t.Run(c.field+" "+c.bad, func(t *testing.T) {
			if strings.Count(whole, c.good) != 1 {
				t.Fatalf("%q stands in the file %d times", c.good, strings.Count(whole, c.good))
			}
			refused(t, strings.Replace(whole, c.good, c.bad, 1), c)
		})
	}
}

func TestNoKennelFileIsRefused(t *testing.T) {
	for _, c := range misplaced {
		t.Run(c.bad, func(t *testing.T) { refused(t, c.bad, c) })
	}
	t.Run("too large", func(t *testing.T) {
		_, _, err := Read("k.yaml", make([]byte, largest+1))
		told(t, err, "k.yaml", "1048577 bytes", "too large", "Try: a file of at most")
	})
	t.Run("too many keys", func(t *testing.T) {
		var b strings.Builder
		for i := range mostKeys + 1 {
			fmt.Fprintf(&b, "k%d: 1\n", i)
		}
		_, _, err := Read("k.yaml", []byte(b.String()))
		told(t, err, "k.yaml:101:1", "k100", "more than 100 keys", "Try: ")
	})
	t.Run("syntax", func(t *testing.T) {
		_, _, err := Read("k.yaml", []byte("kennel: A\nhands: [\n"))
		told(t, err, "k.yaml:2:8", "\nTry: ")
	})
}

// refused reads the file and looks for the trouble at the mark, or anywhere if there is none.
func refused(t *testing.T, file string, c badCase) {
	t.Helper()
	place := "k.yaml:"
	if before, _, marked := strings.Cut(file, "^"); marked {
		line := strings.Count(before, "\n") + 1
		column := len([]rune(before[strings.LastIndex(before, "\n")+1:])) + 1
		place = fmt.Sprintf("k.yaml:%d:%d: ", line, column)
		file = strings.Replace(file, "^", "", 1)
	}
	k, _, err := Read("k.yaml", []byte(file))
	told(t, err, place, c.what, c.try)
	if k.Name != "" || k.Dogs != nil {
		t.Errorf("a kennel came back with the error: %v", k)
	}
	var in *kennel.InputError
	if !errors.As(err, &in) {
		t.Fatalf("%T is no input error", err)
	}
	if in.Field != c.field || in.Value != c.value {
		t.Errorf("field %q value %q, want %q %q", in.Field, in.Value, c.field, c.value)
	}
	if in.Line == 0 || in.Column == 0 {
		t.Errorf("no place: %v", err)
	}
	if what, try, _ := strings.Cut(err.Error(), "\nTry: "); !strings.Contains(what, c.what) || !strings.Contains(try, c.try) {
		t.Errorf("%q should say %q and try %q", err, c.what, c.try)
	}
}

func told(t *testing.T, err error, words ...string) {
	t.Helper()
	if err == nil {
		t.Fatal("read without complaint")
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%q does not say %q", err, w)
		}
	}
}

var indexes = regexp.MustCompile(`\[\d+\]`)

// TestEveryFieldHasABadCase holds the table above to every key of the file.
func TestEveryFieldHasABadCase(t *testing.T) {
	_, places, err := Read("k.yaml", []byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	tried := map[string]bool{}
	for _, c := range badCases {
		tried[indexes.ReplaceAllString(c.field, "[]")] = true
	}
	var missing []string
	for path, at := range places.at {
		if field := indexes.ReplaceAllString(path, "[]"); at.written != "" && !tried[field] {
			missing = append(missing, field)
		}
	}
	slices.Sort(missing)
	if missing = slices.Compact(missing); len(missing) > 0 {
		t.Errorf("no bad case for %q", missing)
	}
}
