package reports

import "tuckup/reports/say"

// AccountShown is an account in words and figures, for a page that draws its own tables: the same as AccountText prints.
type AccountShown struct {
	Rule   string // how each stretch of work was counted
	Owners []OwnerShown
	All    SumShown
}

// SumShown is a sum in figures: minutes as recorded and as counted, and the amount with its currency, "" where nothing is charged.
type SumShown struct{ Minutes, Counted, Amount string }

// OwnerShown is the work for one owner.
type OwnerShown struct {
	Owner string
	Lines []LineShown
	SumShown
}

// LineShown is one stretch of work, its day with the year.
type LineShown struct {
	Day, Dog, What, Hands string
	SumShown
}

// ShowAccount is the account as it is shown.
func ShowAccount(a Account) AccountShown {
	sum := func(s AccountSum) SumShown {
		return SumShown{minutesFigure(s.done), minutesFigure(s.count), a.money(s.amount)}
	}
	x := AccountShown{Rule: a.Terms.rule(), All: sum(a.total())}
	for _, s := range a.Owners {
		o := OwnerShown{Owner: ownerName(s.Owner), SumShown: sum(s)}
		for _, l := range a.Lines {
			if l.Owner == s.Owner {
				o.Lines = append(o.Lines, LineShown{say.Day(l.On, 0), l.Dog, l.What, l.Hands, SumShown{minutesFigure(l.done), minutesFigure(l.count), a.money(l.amount)}})
			}
		}
		x.Owners = append(x.Owners, o)
	}
	return x
}
