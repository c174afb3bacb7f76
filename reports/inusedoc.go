package reports

import (
	"tuckup/kennel"
	"tuckup/optimize"
	"tuckup/reports/layout"
)

// inUseDoc is what is said beside a plan of a book.
type inUseDoc struct {
	From   string      `json:"from"` // the day that the plan in use was made from
	To     string      `json:"to"`   // the last day that it lays out
	Since  []string    `json:"since"`
	Behind []behindDoc `json:"behind"`
}

type behindDoc struct {
	Dog      string          `json:"dog"`
	Area     kennel.AreaName `json:"area"`
	Share    float64         `json:"share"`
	Minutes  float64         `json:"minutes"`
	CaughtUp string          `json:"caught_up"` // empty = not in this plan
}

func inUseOf(r optimize.Result) *inUseDoc {
	if r.InUse == nil {
		return nil
	}
	doc := &inUseDoc{From: r.InUse.From.String(), To: r.InUse.To.String(), Since: append([]string{}, r.InUse.Since...), Behind: []behindDoc{}}
	for _, b := range r.InUse.Behind {
		doc.Behind = append(doc.Behind, behindDoc{b.Dog, b.Area, layout.Rounded(float64(b.Share), layout.ShareDecimals), layout.HundredthsOf(b.Minutes).Minutes(), b.CaughtUp.String()})
	}
	return doc
}
