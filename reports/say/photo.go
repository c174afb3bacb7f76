package say

import (
	"strings"

	"tuckup/kennel"
)

// PhotoOf says what a picture belongs to: "with its length, 32 mm", "with the session of the day: back, ribs"; empty where nothing else
// was written down of that day.
func PhotoOf(p kennel.Photo, of kennel.PhotoOf, u kennel.Units) string {
	var parts []string
	if of.Length > 0 {
		parts = append(parts, "with its length, "+Length(of.Length, u))
	}
	if of.Session {
		words := "with the session of the day"
		if p.Area == "" {
			names := make([]string, len(of.Areas))
			for i, a := range of.Areas {
				names[i] = string(a)
			}
			words += ": " + strings.Join(names, ", ")
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, ", ")
}
