package say

import (
	"tuckup/kennel"
)

// Outline is what is wanted of an area in a few words: "low in loin, not under 30 mm".
func Outline(o kennel.Outline, u kennel.Units) string {
	words := Plain(o.Note)
	if o.Least > 0 {
		if words != "" {
			words += ", "
		}
		words += "not under " + Length(o.Least, u)
	}
	return words
}

// OutlineOn is what is wanted of an area of a dog of the kennel, "" where nothing is.
func OutlineOn(k kennel.Kennel, dog string, area kennel.AreaName) string {
	for _, d := range k.Dogs {
		if o, ok := d.OutlineOf(area); ok && d.Name == dog {
			return Outline(o, k.Units)
		}
	}
	return ""
}
