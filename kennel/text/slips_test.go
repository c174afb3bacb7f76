package text

import (
	"encoding/binary"
	"reflect"
	"strings"
	"testing"
	"unicode/utf16"

	"tuckup/kennel"
)

// sound is a file without a fault; the cases below spoil one line of it each.
const sound = `kennel: Alder Bank
plan_from: 2027-02-01
weeks: 20
time_zone: Europe/Lisbon
hands:
  - name: Petra
    hours: {mon: 2, tue: 2, sat: 3}
    strip_hours_a_day: 2.5
  - name: Oskar
    hours: {wed: 2}
    does: [furnishings, duties]
dogs:
  - name: Larch
    pattern: irish-terrier
    owner: V. Tarling
    areas:
      all: [{share: 1, pulled: 2026-11-09}]
    duties:
      - {name: nails, minutes: 10, every: 2w}
  - name: Rowan
    pattern: border-terrier
    areas:
      all: [{share: 0.5, pulled: 2026-11-16}, {share: 0.5, pulled: 2026-12-28}]
shows:
  - name: Fenwick Day
    on: 2027-03-27
    chance: 0.6
    dogs: [Larch, Rowan]
`

// TestWhatHasOneMeaningIsRead spoils the file in ways that leave one meaning, and expects the kennel as if it had been
// written well.
func TestWhatHasOneMeaningIsRead(t *testing.T) {
	for _, c := range []struct{ name, good, written, meant string }{
		{"a comma in a map", "mon: 2,", "mon: 1,5,", "mon: 1.5,"},
		{"a comma in a share", "{share: 0.5, pulled: 2026-12-28}", "{share: 0,5, pulled: 2026-12-28}", "{share: 0.5, pulled: 2026-12-28}"},
		{"a comma at the end of a map", "sat: 3}", "sat: 2,25}", "sat: 2.25}"},
		{"a comma before a unit", "mon: 2,", "mon: 1,5h,", "mon: 1.5,"},
		{"a comma in a line", "strip_hours_a_day: 2.5", "strip_hours_a_day: 2,5", "strip_hours_a_day: 2.5"},
		{"hours with their unit", "mon: 2,", "mon: 2h,", "mon: 2,"},
		{"hours and minutes", "mon: 2,", `mon: "1:30",`, "mon: 1.5,"},
		{"hours and minutes without quotes", "strip_hours_a_day: 2.5", "strip_hours_a_day: 2:30", "strip_hours_a_day: 2.5"},
		{"minutes of a day", "mon: 2,", "mon: 90 min,", "mon: 1.5,"},
		{"minutes with their unit", "minutes: 10,", "minutes: 10 min,", "minutes: 10,"},
		{"a number in quotes", "weeks: 20", `weeks: "20"`, "weeks: 20"},
		{"weeks with the word", "weeks: 20", "weeks: 20 weeks", "weeks: 20"},
		{"every so many weeks", "every: 2w", "every: 2 weeks", "every: 2w"},
		{"a percentage", "chance: 0.6", "chance: 60%", "chance: 0.6"},
		{"a share in percent", "share: 0.5, pulled: 2026-12-28", "share: 50 %, pulled: 2026-12-28", "share: 0.5, pulled: 2026-12-28"},
		{"a share as a fraction", "share: 0.5, pulled: 2026-12-28", "share: 1/2, pulled: 2026-12-28", "share: 0.5, pulled: 2026-12-28"},
		{"a share as it is printed", "share: 0.5, pulled: 2026-12-28", "share: 1 in 2, pulled: 2026-12-28", "share: 0.5, pulled: 2026-12-28"},
		{"half", "share: 0.5, pulled: 2026-12-28", "share: half, pulled: 2026-12-28", "share: 0.5, pulled: 2026-12-28"},
		{"a month of one digit", "on: 2027-03-27", "on: 2027-3-27", "on: 2027-03-27"},
		{"the day first, with dots", "on: 2027-03-27", "on: 12.3.2027", "on: 2027-03-12"},
		{"the day first, with slashes", "on: 2027-03-27", "on: 27/03/2027", "on: 2027-03-27"},
		{"the day first, with hyphens", "on: 2027-03-27", "on: 27-03-2027", "on: 2027-03-27"},
		{"the month as a word", "on: 2027-03-27", "on: 27 March 2027", "on: 2027-03-27"},
		{"a date with dashes", "on: 2027-03-27", "on: 2027\u201303\u201327", "on: 2027-03-27"},
		{"a date in curly quotes", "on: 2027-03-27", "on: \u201c2027-03-27\u201d", "on: 2027-03-27"},
		{"a name in curly quotes", "name: Fenwick Day", "name: \u201cFenwick Day\u201d", "name: Fenwick Day"},
		{"names in curly quotes", "dogs: [Larch, Rowan]", "dogs: [\u201cLarch\u201d, \u201cRowan\u201d]", "dogs: [Larch, Rowan]"},
		{"capitals of a dog", "dogs: [Larch, Rowan]", "dogs: [larch, ROWAN]", "dogs: [Larch, Rowan]"},
		{"capitals of a key", "kennel: Alder", "Kennel: Alder", "kennel: Alder"},
		{"a blank in a key", "time_zone:", "time zone:", "time_zone:"},
		{"a whole weekday", "mon: 2,", "Monday: 2,", "mon: 2,"},
		{"the name of a unit", "weeks: 20", "weeks: 20\nunits: inches", "weeks: 20\nunits: in"},
		{"a dash in front of a thing", "  - name: Oskar", "  \u2013 name: Oskar", "  - name: Oskar"},
		{"a bullet in front of a thing", "  - name: Oskar", "  \u2022 name: Oskar", "  - name: Oskar"},
		{"other blanks", "    hours: {wed: 2}", "\u00a0\u00a0\u00a0\u00a0hours:\u00a0{wed: 2}", "    hours: {wed: 2}"},
		{"a name that is a word of YAML", "name: Rowan\n", "name: No\n", "name: \"No\"\n"},
		{"a remark", "name: Fenwick Day", "name: Fenwick Day # by the river", "name: Fenwick Day"},
	} {
		t.Run(c.name, func(t *testing.T) {
			bad, good := spoiled(t, c.good, c.written), spoiled(t, c.good, c.meant)
			if c.name == "a name that is a word of YAML" {
				bad, good = strings.Replace(bad, ", Rowan]", ", No]", 1), strings.Replace(good, ", Rowan]", ", \"No\"]", 1)
			}
			got, _, err := Read("k.yaml", []byte(bad))
			want, _, wrong := Read("k.yaml", []byte(good))
			if err != nil || wrong != nil {
				t.Fatal(err, wrong)
			}
			if !reflect.DeepEqual(got, want) {
				t.Errorf("read %+v\nwant %+v", got, want)
			}
		})
	}
}

func TestAFileInAnotherEncodingIsRead(t *testing.T) {
	want, _, err := Read("k.yaml", []byte(sound))
	if err != nil {
		t.Fatal(err)
	}
	wide := func(order binary.AppendByteOrder) []byte {
		var data []byte
		for _, u := range utf16.Encode([]rune("\ufeff" + sound)) {
			data = order.AppendUint16(data, u)
		}
		return data
	}
	for name, data := range map[string][]byte{
		"UTF-8 with its mark":          []byte("\ufeff" + sound),
		"lines ended as elsewhere":     []byte(strings.ReplaceAll(sound, "\n", "\r\n")),
		"both":                         []byte("\ufeff" + strings.ReplaceAll(sound, "\n", "\r\n")),
		"lines ended as long ago":      []byte(strings.ReplaceAll(sound, "\n", "\r")),
		"UTF-16":                       wide(binary.LittleEndian),
		"UTF-16, the large byte first": wide(binary.BigEndian),
	} {
		if got, _, err := Read("k.yaml", data); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
}

// spoiled is the sound file with one part of it changed; only the first place of the part is.
func spoiled(t *testing.T, good, bad string) string {
	t.Helper()
	if !strings.Contains(sound, good) {
		t.Fatalf("%q is not in the file", good)
	}
	return strings.Replace(sound, good, bad, 1)
}

// TestASlipIsToldWithWhatCanBeTyped holds the whole sentence of every slip.
func TestASlipIsToldWithWhatCanBeTyped(t *testing.T) {
	for _, c := range []struct{ name, good, bad, want string }{
		{
			"a colon in a name", "name: Fenwick Day", "name: Fenwick: Day",
			"k.yaml:25:11: name \"Fenwick: Day\": has a second colon, which would begin another key\nTry: - name: \"Fenwick: Day\"",
		},
		{
			"a colon in a name in curly quotes", "name: Fenwick Day", "name: \u201cFenwick: Day\u201d",
			"k.yaml:25:11: name \"“Fenwick: Day”\": has a second colon, which would begin another key\nTry: - name: \"Fenwick: Day\"",
		},
		{
			"an apostrophe in single quotes", "name: Fenwick Day", "name: 'Fenwick's Day'",
			"k.yaml:25:11: name \"'Fenwick's Day'\": has the quote that is around it in it too\nTry: - name: \"Fenwick's Day\"",
		},
		{
			"a quote in double quotes", "name: Fenwick Day", `name: "The "Fen" Day"`,
			"k.yaml:25:11: name \"\\\"The \\\"Fen\\\" Day\\\"\": has the quote that is around it in it too\nTry: - name: 'The \"Fen\" Day'",
		},
		{
			"a quote that is not closed", "name: Fenwick Day", `name: "Fenwick Day`,
			"k.yaml:25:11: name \"\\\"Fenwick Day\": begins with a quote that is not closed\nTry: - name: \"Fenwick Day\"",
		},
		{
			"a curly quote that is not closed", "name: Fenwick Day", "name: \u201cFenwick Day",
			"k.yaml:25:11: shows[0].name \"“Fenwick Day\": begins with a quote that is not closed\nTry: \"Fenwick Day\"",
		},
		{
			"a backslash in double quotes", "name: Fenwick Day", `name: "Fenwick \Day"`,
			"k.yaml:25:11: name \"\\\"Fenwick \\\\Day\\\"\": has a \\ in double quotes, which has a meaning of its own there\nTry: - name: 'Fenwick \\Day'",
		},
		{
			"no blank after the colon", "  - name: Rowan", "  - name:Rowan",
			"k.yaml:20:10: name \"Rowan\": has no blank after the colon\nTry: - name: Rowan",
		},
		{
			"no blank after the colon of a line", "weeks: 20", "weeks:20",
			"k.yaml:3:7: weeks \"20\": has no blank after the colon\nTry: weeks: 20",
		},
		{
			"a line too far left", "    pattern: border-terrier", "   pattern: border-terrier",
			"k.yaml:21:4: pattern \"pattern: border-terrier\": begins in column 4, under no key above it\nTry: 4 blanks before it, so that it begins in column 5",
		},
		{
			"a bracket that is not closed", "dogs: [Larch, Rowan]", "dogs: [Larch, Rowan\n  - name: Corran\n    on: 2027-05-01",
			"k.yaml:28:11: dogs \"[\": is a bracket that is not closed\nTry: dogs: [Larch, Rowan]",
		},
		{
			"a brace that is not closed", "{mon: 2, tue: 2, sat: 3}", "{mon: 2, tue: 2, sat: 3",
			"k.yaml:7:12: hours \"{\": is a bracket that is not closed\nTry: hours: {mon: 2, tue: 2, sat: 3}",
		},
		{
			"a bracket too many", "dogs: [Larch, Rowan]", "dogs: [Larch, Rowan]]",
			"k.yaml:28:25: dogs \"]\": closes a bracket that was not opened\nTry: leave it out, or [ where it begins",
		},
		{
			"a # in a name", "name: Larch", "name: Larch #1",
			"k.yaml:13:11: dogs[0].name \"Larch\": ends before #1, which is read as a remark\nTry: \"Larch #1\", or a blank behind the # if it is one",
		},
		{
			"a # in a list", "dogs: [Larch, Rowan]", "dogs: [Larch #1, Rowan]",
			"k.yaml:28:11: dogs \"[\": is a bracket that is not closed: what follows the # is a remark\nTry: the name with the # in quotes, like \"Larch #1\"",
		},
		{
			"a sign that means something", "owner: V. Tarling", "owner: @Tarling",
			"k.yaml:15:12: owner \"@Tarling\": begins with @, which has a meaning of its own in the file\nTry: owner: \"@Tarling\"",
		},
		{
			"an ampersand", "owner: V. Tarling", "owner: & Tarling",
			"k.yaml:15:12: text \"&\": begins with &, which has a meaning of its own in the file\nTry: the words in quotes, like \"& Daughter\"",
		},
		{
			"a number with a thousand's comma", "minutes: 10,", "minutes: 1,500,",
			"k.yaml:19:34: dogs[0].duties[0] \"500\": is not a key: a comma ends the value before it\nTry: a number with a point, like 1.5",
		},
		{
			"a tab", "    pattern: irish-terrier", "\tpattern: irish-terrier",
			"k.yaml:14:1: text \"\\t\": a tab before the first word of a line\nTry: spaces instead of the tab",
		},
		{
			"a letter of an old encoding", "name: Petra", "name: P\xe9tra",
			"k.yaml:6:12: letter \"é\": is not saved as UTF-8 (byte 0xe9, after \"  - name: P\")\nTry: save the file again with the encoding UTF-8",
		},
		{
			"a date that could be two", "on: 2027-03-27", "on: 09/11/2027",
			"k.yaml:26:9: shows[0].on \"09/11/2027\": could be two days\nTry: 2027-11-09 for 9 November 2027, or 2027-09-11 for 11 September 2027",
		},
		{
			"a day that there is not", "on: 2027-03-27", "on: 2027-02-30",
			"k.yaml:26:9: shows[0].on \"2027-02-30\": is not a day: February 2027 has 28\nTry: 2027-02-28",
		},
		{
			"the day before the month", "on: 2027-03-27", "on: 2027-27-03",
			"k.yaml:26:9: shows[0].on \"2027-27-03\": has no month of that number\nTry: 2027-03-27",
		},
		{
			"from when to when", "mon: 2,", "mon: 9-11,",
			"k.yaml:7:18: hands[0].hours.mon \"9-11\": says from when to when, not how many hours\nTry: 2",
		},
		{
			"a duty without its unit", "every: 2w", "every: 2",
			"k.yaml:19:43: dogs[0].duties[0].every \"2\": says neither days nor weeks\nTry: 2w for weeks, or 2d for days",
		},
		{
			"a chance in percent without the sign", "chance: 0.6", "chance: 60",
			"k.yaml:27:13: shows[0].chance \"60\": is out of range\nTry: 60%, or 0.6; a number above 0, at most 1; 1 = entered",
		},
		{
			"a share in percent without the sign", "share: 0.5, pulled: 2026-12-28", "share: 50, pulled: 2026-12-28",
			"k.yaml:23:55: dogs[1].areas.all[1].share \"50\": is out of range\nTry: 50%, or 0.5; a number above 0, at most 1",
		},
		{
			"shares above the whole", "share: 0.5, pulled: 2026-12-28", "share: 0.7, pulled: 2026-12-28",
			"k.yaml:23:12: dogs[1].areas.all \"1.2\": is what the shares sum to, more than the whole area\nTry: shares that sum to 1, like 0.6 and 0.4",
		},
		{
			"a key that is short of words", "strip_hours_a_day: 2.5", "striphours: 2.5",
			"k.yaml:8:5: hands[0].striphours: is not a key that is known here\nTry: strip_hours_a_day (known are name, hours, strip_hours_a_day, does, away)",
		},
		{
			"a zone that is no zone", "time_zone: Europe/Lisbon", "time_zone: Portugal time",
			"k.yaml:4:12: time_zone \"Portugal time\": is not a time zone that is known\nTry: a continent and a town like Europe/Dublin; leave it out for the zone of this machine",
		},
		{
			"a dog that is not listed", "dogs: [Larch, Rowan]", "dogs: [Larch, Rowann]",
			"k.yaml:28:19: shows[0].dogs[1] \"Rowann\": is not a dog of the kennel\nTry: one of Rowan, Larch",
		},
		{
			"what no rule knows", "weeks: 20", "weeks: 20\n- 3",
			"k.yaml:4:1: line \"- 3\": can't be read as it is written here\nTry: KEY: VALUE, under the first letter of the key above, with a value of several words in \"quotes\"",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := Read("k.yaml", []byte(spoiled(t, c.good, c.bad)))
			if err == nil {
				t.Fatal("read without complaint")
			}
			if err.Error() != c.want {
				t.Errorf("said %s\nwant %s", err, c.want)
			}
		})
	}
}

func TestAFileThatIsNoTextIsToldWhatItIs(t *testing.T) {
	for data, want := range map[string]string{
		"PK\x03\x04\x14\x00":   "k.yaml:1:1: file: is a document of an office program, not plain text\nTry: save it as plain text (.txt) in UTF-8, and name that file",
		"{\\rtf1\\ansi":        "k.yaml:1:1: file: is a document with formats in it, not plain text\nTry: save it as plain text (.txt) in UTF-8, and name that file",
		"%PDF-1.7":             "k.yaml:1:1: file: is a document to print, not plain text\nTry: the text that it was made from",
		"SQLite format 3\x00x": "k.yaml:1:1: file: is a book, not a kennel file\nTry: --book with this file",
	} {
		if _, _, err := Read("k.yaml", []byte(data)); err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", data, err, want)
		}
		if _, err := ReadCSV("k.yaml", []byte(data)); err == nil || err.Error() != want {
			t.Errorf("%q as a table: %v, want %s", data, err, want)
		}
	}
}

// TestNothingIsToldInTheWordsOfAParser breaks the file at every sign and holds what is said to words of our own.
func TestNothingIsToldInTheWordsOfAParser(t *testing.T) {
	foreign := []string{"in this context", "must be specified", "unexpected", "could not find", "pre-defined", "token", "not allowed", "syntax", "mapping value", "sequence"}
	const step = 3
	for i, sign := range []string{"", "\"", "'", "[", "]", "{", "}", ":", ": ", "- ", "\n", ",", "#", "@", "  "} {
		for at := i % step; at < len(sound); at += step {
			file := sound[:at] + sign + sound[at:]
			if sign == "" {
				file = sound[:at] + sound[at+1:]
			}
			_, _, err := Read("k.yaml", []byte(file))
			in, ok := err.(*kennel.InputError) //nolint:errorlint // it is promised to be one
			if err == nil {
				continue
			}
			if !ok || in.Line == 0 || in.Column == 0 || in.Try == "" {
				t.Fatalf("%q at %d: %v", sign, at, err)
			}
			for _, words := range foreign {
				if strings.Contains(in.What, words) {
					t.Fatalf("%q at %d: %v", sign, at, err)
				}
			}
		}
	}
}

func TestTablesOfOtherSpreadsheetsAreRead(t *testing.T) {
	const plain = "name,pattern,born,growth,coat\nLarch,irish-terrier,2024-05-02,1.1,0.6 2026-09-20; 0.4 2026-12-01\n"
	told := func(data string) (d kennel.Dog) {
		t.Helper()
		rows, err := ReadCSV("t.csv", []byte(data))
		if err != nil || len(rows.Dogs) != 1 || rows.Dogs[0].Name != "Larch" {
			t.Fatalf("%q: %+v, %v", data, rows, err)
		}
		rows.Dogs[0].Set(&d)
		return d
	}
	want := told(plain)
	for name, data := range map[string]string{
		"semicolons":         "name;pattern;born;growth;coat\nLarch;irish-terrier;2.5.2024;1,1;\"0,6 20.9.2026; 0,4 1.12.2026\"\n",
		"tabs":               "name\tpattern\tborn\tgrowth\tcoat\nLarch\tirish-terrier\t2 May 2024\t1,1\t60% 2026-09-20 40% 2026-12-01\n",
		"commas in cells":    "name,pattern,born,growth,coat\nLarch,irish-terrier,2024-5-2,\"1,1\",\"0,6 2026-09-20; 0,4 2026-12-01\"\n",
		"capitals in a head": "Name;Pattern;Born;Growth;Coat\n\u201cLarch\u201d;irish-terrier;2024-05-02;1.1;\"0.6 2026-09-20; 0.4 2026-12-01\"\n",
		"empty rows":         "name;pattern;born;growth;coat\nLarch;irish-terrier;2024-05-02;1.1;\"0.6 2026-09-20; 0.4 2026-12-01\"\n;;;;\n;;;;\n",
		"cells left out":     "name;pattern;born;growth;coat;owner\nLarch;irish-terrier;2024-05-02;1.1;\"0.6 2026-09-20; 0.4 2026-12-01\"\n",
	} {
		if got := told(data); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: read %+v, want %+v", name, got, want)
		}
	}
	for data, want := range map[string]string{
		"name,on\nFenwick,09/11/2027\n":     "t.csv:2:9: on \"09/11/2027\": could be two days\nTry: 2027-11-09 for 9 November 2027, or 2027-09-11 for 11 September 2027",
		"name,growth\nLarch,1,1\n":          "t.csv:2:9: cell \"1\": is in no column: the first line names 2\nTry: quotes around a cell that holds the sign between cells, like \"0,5\"",
		"name,coat\nLarch,09/11/2026\n":     "t.csv:2:7: coat \"09/11/2026\": could be two days\nTry: 2026-11-09 for 9 November 2026, or 2026-09-11 for 11 September 2026",
		"name,minutes\nLarch,long\n":        "t.csv:2:7: minutes \"long\": is not a stretch of time\nTry: minutes like 50, or 1h30",
		"name;pattern;coat\nLarch;x;soon\n": "t.csv:2:9: coat \"soon\": is neither a share nor a day\nTry: " + tryCoat,
	} {
		_, err := ReadCSV("t.csv", []byte(data))
		if err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", data, err, want)
		}
	}
}
