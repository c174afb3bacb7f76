package html

import (
	"html/template"

	"tuckup/optimize"
	"tuckup/reports/say"
)

// Part is one part of a page under a heading of its own, for pages that have another frame.
type Part struct {
	ID          string // unique in the page
	Class       string // "newpage" starts a new page in print
	Title, Note string // passed through plain; not escaped
	Body        template.HTML
}

func partsOf(sections []section, err error) ([]Part, error) {
	parts := make([]Part, len(sections))
	for i, s := range sections {
		parts[i] = Part{s.id, s.class, say.Plain(s.title), say.Plain(s.note), s.body}
	}
	return parts, err
}

// DogParts are the parts of the page of one dog, as DogHTML has them. The error is an *kennel.InputError when the plan has
// no such dog.
func DogParts(r optimize.Result, dog string, x Records) ([]Part, error) {
	i, err := r.Kennel.FindDog(dog)
	if err != nil {
		return nil, err
	}
	return partsOf(dogSections(r, i, x))
}

// WorkloadParts are the parts of the page of hours, as WorkloadHTML has them.
func WorkloadParts(r optimize.Result) ([]Part, error) { return partsOf(workloadSections(r)) }

// Ribbon is the coat of the n-th dog of r.Outlooks over the weeks, with its shows.
func Ribbon(r optimize.Result, n int) (template.HTML, error) { return ribbon(r, n) }
