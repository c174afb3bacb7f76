package html

import (
	"math"

	"tuckup/reports/say"
)

// The printed page that the sheet must fit: as narrow as A4 and as low as Letter, in millimetres inside its margins, in
// three columns. See sheet.css.
const (
	printWidth   = 194.
	printHeight  = 263.
	printColumns = 3
	columnGap    = 4.
	columnWidth  = (printWidth - (printColumns-1)*columnGap) / printColumns
)

// How letters fill it. A letter is wider in the mean than half its size only in names in capitals; what the estimate
// misses is what useOfPage leaves free.
const (
	millimetresAPoint = 25.4 / 72
	letterWidth       = 0.53 // of the size
	lineHeight        = 1.25 // of the size
	smallLetters      = 0.875
	useOfPage         = 0.9
	largestLetters    = 10.
	smallestLetters   = 5.5
	letterStep        = 0.25
	touchLetters      = 14. // room for "furnishings, 1 in 17, 10 min" with its box, in sizes of a letter
)

// inPairs reports whether two touches stand side by side: where both fit a column.
func inPairs(size float64) bool {
	return 2*touchLetters*size*millimetresAPoint <= columnWidth
}

// letterSize is the size of the printed letters in points: the largest, from 5.5 to 10, at which the days and the notes
// under them fit one page by an estimate of their lines.
func letterSize(days []dayView, notes []string) float64 {
	size := largestLetters
	for size > smallestLetters && !fitsPage(size, days, notes) {
		size -= letterStep
	}
	return size
}

func fitsPage(size float64, days []dayView, notes []string) bool {
	line := lineHeight * size * millimetresAPoint
	// lines is how many lines of its size a text takes in so many millimetres.
	lines := func(s string, part, room float64) float64 {
		perLine := math.Floor(room / (letterWidth * part * size * millimetresAPoint))
		return math.Ceil(float64(max(say.Width(s), 1))/perLine) * part
	}
	inColumns, across := 0., 4. // the head and where to start
	for _, d := range days {
		inColumns += 1.6
		for _, h := range d.Hands {
			inColumns += lines(h.Name+", "+h.Work, 1, columnWidth) + 0.2
			for _, i := range h.Items {
				inColumns += itemLines(i, inPairs(size), func(s string, part float64) float64 { return lines(s, part, columnWidth) })
			}
		}
	}
	if len(notes) > 0 {
		across += 3.5 // two headings at the most
	}
	for _, n := range notes {
		across += lines("   "+n, 1, printWidth)
	}
	foot := 1.
	for _, c := range say.Cautions() {
		foot += lines(c.About+": "+c.Words, smallLetters, (printWidth-columnGap)/2)
	}
	across += math.Ceil(foot/2) + 1
	return (inColumns/printColumns+across)*line <= useOfPage*printHeight
}

func itemLines(i itemView, pairs bool, lines func(s string, part float64) float64) float64 {
	all := lines(i.Clock+"    "+i.Dog+" "+i.What+" "+i.Why, 1) + 0.1
	if i.How != "" {
		all += lines(i.How, smallLetters)
	}
	if pairs {
		all += math.Ceil(float64(len(i.Areas)) / 2)
	} else {
		all += float64(len(i.Areas))
	}
	for _, a := range i.Areas {
		if a.Outline != "" {
			all += lines(a.Outline, smallLetters)
		}
	}
	if i.Took {
		all += 1.2
	}
	return all
}
