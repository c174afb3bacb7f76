package reports

import (
	"fmt"
	"io"
	"math/big"
	"regexp"
	"slices"
	"strings"

	"golang.org/x/text/currency"

	"tuckup/kennel"
	"tuckup/reports/layout"
	"tuckup/reports/say"
	"tuckup/reports/tally"
)

// Terms are how work is counted and charged.
type Terms struct {
	From, To kennel.Date // both included; zero = no beginning, no end
	Step     int         // minutes to which each stretch of work is rounded, 0 to 60; 0 and 1 of whole minutes change nothing
	Up       bool        // to the next step; else to the nearest, half a step up
	Currency string      // ISO 4217 code, like EUR; empty = nothing is charged
	Rates    []Rate
}

// Rate is what an hour of a pair of hands is charged at.
type Rate struct {
	Hands  string // empty = all hands that have no rate of their own
	AnHour Money
}

// Money is an amount of a currency, exact.
type Money struct{ rat *big.Rat }

var (
	decimal   = regexp.MustCompile(`^[0-9]{1,9}([.,][0-9]{1,4})?$`)
	thousands = regexp.MustCompile(`^[1-9][0-9]*,[0-9]{3}$`)
)

// ParseMoney reads an amount like 24.50 or 24,50: digits and at most four decimals, never negative. 1,500 is refused, for it
// could be fifteen hundred.
func ParseMoney(s string) (Money, error) {
	if !decimal.MatchString(s) || thousands.MatchString(s) {
		return Money{}, fmt.Errorf("%q is not an amount like 24.50", s)
	}
	r, ok := new(big.Rat).SetString(strings.Replace(s, ",", ".", 1))
	if !ok {
		return Money{}, fmt.Errorf("%q is not an amount like 24.50", s)
	}
	return Money{r}, nil
}

// told reports whether the amount was given.
func (m Money) told() bool { return m.rat != nil }

// written is the amount with exactly so many decimals, a half rounded up.
func (m Money) written(decimals int) string {
	if !m.told() {
		return ""
	}
	return m.rat.FloatString(decimals)
}

// rounded is the amount to so many decimals, a half rounded up; amounts are never negative.
func (m Money) rounded(decimals int) Money {
	r, _ := new(big.Rat).SetString(m.written(decimals)) // digits and a point
	return Money{r}
}

func (m Money) plus(n Money) Money {
	switch {
	case !m.told():
		return n
	case !n.told():
		return m
	}
	return Money{new(big.Rat).Add(m.rat, n.rat)}
}

// forMinutes is the amount for a stretch of work at this rate an hour.
func (m Money) forMinutes(t layout.Hundredths) Money {
	hours := big.NewRat(int64(t), 100*kennel.MinutesAnHour)
	return Money{hours.Mul(hours, m.rat)}
}

// Decimals is how many decimals amounts of a currency are written with, as ISO 4217 has it. The error names a code
// that is none.
func Decimals(code string) (int, error) {
	unit, err := currency.ParseISO(code)
	if err != nil || unit.String() != code {
		return 0, fmt.Errorf("%q is not a currency of ISO 4217", code)
	}
	scale, _ := currency.Standard.Rounding(unit)
	return scale, nil
}

// Account is the work done, line by line and summed.
type Account struct {
	Terms    Terms
	Lines    []AccountLine
	Owners   []AccountSum
	decimals int
}

// AccountLine is one stretch of work.
type AccountLine struct {
	Owner, Dog  string
	On          kennel.Date
	Kind, What  string // session or duty; the areas, or the duty's name
	Hands       string
	done, count layout.Hundredths // as recorded, and as counted
	rate        Money
	amount      Money
}

// AccountSum is an owner's work.
type AccountSum struct {
	Owner       string
	done, count layout.Hundredths
	amount      Money
}

// NewAccount counts work on the kennel's dogs: by owner and dog in the kennel's order, then by day, those of dogs that
// the kennel does not have at the end. Every stretch is rounded by itself and charged by itself, so that a total is
// the sum of its lines to the last digit. The error names a currency or a rate that can't be used.
func NewAccount(k kennel.Kennel, work []kennel.Work, t Terms) (Account, error) {
	a := Account{Terms: t}
	if t.Currency != "" {
		var err error
		if a.decimals, err = Decimals(t.Currency); err != nil {
			return a, err
		}
	}
	place, owners := map[string]int{}, map[string]string{}
	for i, d := range k.Dogs {
		place[d.Name], owners[d.Name] = i, d.Owner
	}
	ownerPlace := map[string]int{}
	for i, o := range k.Owners() {
		ownerPlace[o] = i
	}
	last := len(k.Dogs)
	at := func(m map[string]int, name string) int {
		if i, ok := m[name]; ok {
			return i
		}
		return last
	}
	for _, w := range work {
		if !(kennel.Span{From: t.From, To: t.To}).Holds(w.On) {
			continue
		}
		a.Lines = append(a.Lines, a.line(w, owners[w.Dog]))
	}
	slices.SortStableFunc(a.Lines, func(x, y AccountLine) int {
		if d := at(ownerPlace, x.Owner) - at(ownerPlace, y.Owner); d != 0 {
			return d
		}
		if d := at(place, x.Dog) - at(place, y.Dog); d != 0 {
			return d
		}
		if d := strings.Compare(x.Dog, y.Dog); d != 0 {
			return d
		}
		return int(x.On - y.On)
	})
	for _, l := range a.Lines {
		if n := len(a.Owners); n == 0 || a.Owners[n-1].Owner != l.Owner {
			a.Owners = append(a.Owners, AccountSum{Owner: l.Owner})
		}
		s := &a.Owners[len(a.Owners)-1]
		s.done += l.done
		s.count += l.count
		s.amount = s.amount.plus(l.amount)
	}
	return a, nil
}

func (a Account) line(w kennel.Work, owner string) AccountLine {
	l := AccountLine{
		Owner: owner, Dog: w.Dog, On: w.On, Kind: "session", What: say.Work(w), Hands: w.Hands, done: layout.HundredthsOf(w.Minutes),
	}
	if w.Duty != "" {
		l.Kind = tally.KindDuty
	}
	l.count = a.Terms.counted(l.done)
	if a.Terms.Currency != "" {
		l.rate = a.Terms.rate(w.Hands)
		if l.rate.told() {
			l.amount = l.rate.forMinutes(l.count).rounded(a.decimals)
		}
	}
	return l
}

// counted is a stretch of work by the rounding rule.
func (t Terms) counted(done layout.Hundredths) layout.Hundredths {
	step := layout.Hundredths(t.Step) * 100
	if step <= 0 {
		return done
	}
	add := step / 2
	if t.Up {
		add = step - 1
	}
	return (done + add) / step * step
}

// rate is the rate of these hands, or of all that have none of their own.
func (t Terms) rate(hands string) (rate Money) {
	for _, r := range t.Rates {
		if r.Hands == hands {
			return r.AnHour
		}
		if r.Hands == "" {
			rate = r.AnHour
		}
	}
	return rate
}

// rule says how stretches of work were rounded.
func (t Terms) rule() string {
	switch {
	case t.Step <= 0:
		return "minutes as recorded"
	case t.Up:
		return "each stretch of work up to the next " + say.Plural(t.Step, "minute")
	}
	return "each stretch of work to the nearest " + say.Plural(t.Step, "minute")
}

// total is all owners' work.
func (a Account) total() (all AccountSum) {
	for _, s := range a.Owners {
		all.done += s.done
		all.count += s.count
		all.amount = all.amount.plus(s.amount)
	}
	return all
}

// BillOf is the account of one owner, a line a dog.
func (a Account) BillOf(owner string) tally.Bill {
	b := tally.Bill{Month: a.Terms.From, Rule: "Counted: " + a.Terms.rule() + "."}
	var sum Money
	var dog Money
	for _, x := range a.Lines {
		if x.Owner != owner {
			continue
		}
		if n := len(b.Lines); n == 0 || b.Lines[n-1].Dog != x.Dog {
			b.Lines = append(b.Lines, tally.BillLine{Dog: x.Dog})
			dog = Money{}
		}
		l := &b.Lines[len(b.Lines)-1]
		if x.Kind == tally.KindDuty {
			l.Duties++
		} else {
			l.Sessions++
		}
		l.Minutes += x.count
		b.Minutes += x.count
		dog, sum = dog.plus(x.amount), sum.plus(x.amount)
		l.Amount, b.Amount = a.money(dog), a.money(sum)
	}
	return b
}

// money is an amount with its currency; empty for none.
func (a Account) money(m Money) string {
	if !m.told() {
		return ""
	}
	return m.written(a.decimals) + " " + a.Terms.Currency
}

// AccountText writes an account for people, by owner with totals.
func AccountText(w io.Writer, k kennel.Kennel, a Account, l layout.Look) error {
	p := layout.NewPage(w, l)
	p.Strong(say.Plain(k.Name), "work done"+a.Terms.span())
	p.Say(0, "", "Counted: %s.", a.Terms.rule())
	if len(a.Lines) == 0 {
		p.Say(0, "", "No work is written down for these days.")
		return p.Done()
	}
	for _, s := range a.Owners {
		p.Heading(strings.ToUpper(ownerName(s.Owner)), "")
		t := layout.Table{Right: map[int]bool{3: true, 4: true, 5: true}}
		t.Add("day", "dog", "hands", "min", "counted", "amount", "")
		for _, x := range a.Lines {
			if x.Owner == s.Owner {
				t.Add(x.On.String(), say.Plain(x.Dog), say.Plain(x.Hands), minutesFigure(x.done), minutesFigure(x.count), a.money(x.amount), say.Plain(x.What))
			}
		}
		t.Add("all", "", "", minutesFigure(s.done), minutesFigure(s.count), a.money(s.amount), "")
		p.Table(2, t)
	}
	all := a.total()
	p.Blank()
	p.Say(0, "", "All: %s minutes, %s counted%s.", minutesFigure(all.done), minutesFigure(all.count), lead(", ", a.money(all.amount)))
	return p.Done()
}

// span says the days of an account.
func (t Terms) span() string {
	return lead(" from ", t.From.String()) + lead(" to ", t.To.String())
}

func lead(with, s string) string {
	if s == "" {
		return ""
	}
	return with + s
}

func ownerName(s string) string {
	if s == "" {
		return "(no owner)"
	}
	return say.Plain(s)
}

// minutesFigure is minutes without needless decimals.
func minutesFigure(t layout.Hundredths) string {
	return strings.TrimSuffix(strings.TrimRight(layout.Number(t.Minutes(), 2), "0"), ".")
}

type accountDoc struct {
	Kennel   string           `json:"kennel"`
	From     string           `json:"from"`
	To       string           `json:"to"`
	Rule     string           `json:"rule"`
	Currency string           `json:"currency"`
	Lines    []accountLineDoc `json:"lines"`
	Owners   []accountSumDoc  `json:"owners"`
	All      accountSumDoc    `json:"all"`
}

type accountLineDoc struct {
	Owner   string  `json:"owner"`
	Dog     string  `json:"dog"`
	Day     string  `json:"day"`
	Kind    string  `json:"kind"`
	What    string  `json:"what"`
	Hands   string  `json:"hands"`
	Minutes float64 `json:"minutes"`
	Counted float64 `json:"counted"`
	Rate    string  `json:"rate"`
	Amount  string  `json:"amount"`
}

type accountSumDoc struct {
	Owner   string  `json:"owner"`
	Minutes float64 `json:"minutes"`
	Counted float64 `json:"counted"`
	Amount  string  `json:"amount"`
}

// AccountJSON writes an account for programs. Amounts are decimal strings, so that no digit is lost.
func AccountJSON(w io.Writer, k kennel.Kennel, a Account) error {
	doc := accountDoc{
		Kennel: k.Name, From: a.Terms.From.String(), To: a.Terms.To.String(), Rule: a.Terms.rule(), Currency: a.Terms.Currency,
		Lines: []accountLineDoc{}, Owners: []accountSumDoc{},
	}
	sum := func(s AccountSum) accountSumDoc {
		return accountSumDoc{s.Owner, s.done.Minutes(), s.count.Minutes(), s.amount.written(a.decimals)}
	}
	for _, l := range a.Lines {
		doc.Lines = append(doc.Lines, accountLineDoc{
			l.Owner, l.Dog, l.On.String(), l.Kind, l.What, l.Hands, l.done.Minutes(), l.count.Minutes(), a.rateWords(l), l.amount.written(a.decimals),
		})
	}
	for _, s := range a.Owners {
		doc.Owners = append(doc.Owners, sum(s))
	}
	doc.All = sum(a.total())
	return layout.JSON(w, doc)
}

// rateWords is a line's rate with all its decimals, at least those of the currency.
func (a Account) rateWords(l AccountLine) string {
	if !l.rate.told() {
		return ""
	}
	n, _ := l.rate.rat.FloatPrec() // finite: it was read as a decimal
	return l.rate.written(max(n, a.decimals))
}

// AccountCSV writes one row for each stretch of work.
func AccountCSV(w io.Writer, a Account) error {
	var rows [][]string
	for _, l := range a.Lines {
		rows = append(rows, []string{
			layout.Cell(l.Owner), layout.Cell(l.Dog), l.On.String(), l.Kind, layout.Cell(l.What), layout.Cell(l.Hands), layout.Number(l.done.Minutes(), 2),
			layout.Number(l.count.Minutes(), 2), a.rateWords(l), l.amount.written(a.decimals), a.Terms.Currency,
		})
	}
	return layout.CSV(w, []string{"owner", "dog", "day", "kind", "what", "hands", "minutes", "counted", "rate", "amount", "currency"}, rows)
}
