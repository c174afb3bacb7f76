package say

import (
	"regexp"

	"tuckup/kennel"
)

var isoDate = regexp.MustCompile(`\b\d{4}-\d{2}-\d{2}\b`)

// Dates is a text in which days that are written like 2027-01-04 are said as elsewhere: "Mon 4 Jan".
func Dates(s string, today kennel.Date) string {
	return isoDate.ReplaceAllStringFunc(s, func(iso string) string {
		d, err := kennel.ParseDate(iso)
		if err != nil {
			return iso
		}
		return Day(d, today)
	})
}
