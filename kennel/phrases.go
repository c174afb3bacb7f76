package kennel

import (
	"regexp"
	"strings"
)

// phrases are words with those put together that say one thing: 1 in 17, 6 %, about half, all of it, 50 min, 1 h 30 min,
// 2 weeks. Its work grows as the words do.
func phrases(said []string) []string {
	var words, all []string
	for _, s := range said {
		words = append(words, strings.Fields(s)...)
	}
	for len(words) > 0 {
		n := phrase(words)
		all = append(all, strings.Join(words[:n], " "))
		words = words[n:]
	}
	return all
}

// phrase is how many of the first words say one thing together.
func phrase(words []string) int {
	for _, p := range phraseForms {
		n := min(p.words, len(words))
		for ; n > 1; n-- {
			if p.form.MatchString(spoken(strings.Join(words[:n], " "))) {
				return n
			}
		}
	}
	return 1
}

const numeral = `[0-9]+([.,][0-9]+)?`

// phraseForms are what is said in several words, and in how many of them at most.
var phraseForms = []struct {
	words int
	form  *regexp.Regexp
}{
	{4, regexp.MustCompile(`^(about )?` + numeral + ` in ` + numeral + `$`)},
	{3, regexp.MustCompile(`^(about )?(half|` + numeral + ` ?%)$`)},
	{3, regexp.MustCompile(`^all of it$`)},
	{4, regexp.MustCompile(`^` + numeral + ` ?(h|hr|hrs|hours?)( ?[0-9]+( ?(m|min|mins|minutes?))?)?$`)},
	{2, regexp.MustCompile(`^` + numeral + ` (m|min|mins|minutes?)$`)},
	{2, regexp.MustCompile(`^[0-9]+ (days?|wks?|weeks?)$`)},
}

// apart puts blanks around the commas that separate, and leaves decimal commas, like 0,06 and 1,5%, where they are.
func apart(s string) string {
	const kept = "\x00"
	s = strings.ReplaceAll(s, kept, " ")
	for _, decimal := range decimalCommas {
		s = decimal.ReplaceAllString(s, "$1"+kept+"$2")
	}
	return strings.ReplaceAll(strings.ReplaceAll(s, ",", " , "), kept, ",")
}

// decimalCommas are those in a share below 1, in a percentage and in a number of hours.
var decimalCommas = []*regexp.Regexp{
	regexp.MustCompile(`((?:^|\s)0),([0-9])`),
	regexp.MustCompile(`((?:^|\s)[0-9]+),([0-9]+ ?[%h])`),
}
