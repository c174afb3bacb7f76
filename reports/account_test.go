package reports

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"tuckup/kennel"
	"tuckup/reports/layout"
	"tuckup/reports/sample"
	"tuckup/reports/say"
)

func money(t *testing.T, s string) Money {
	t.Helper()
	m, err := ParseMoney(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

var twoOwners = kennel.Kennel{Name: "Thornfield", Dogs: []kennel.Dog{
	{Name: "Sorrel", Owner: "R. Calloway"}, {Name: "Pewter", Owner: "S. Marrowby"}, {Name: "Moss", Owner: "R. Calloway"},
}}

func someWork() []kennel.Work {
	return []kennel.Work{
		{Dog: "Pewter", On: sample.Date(1, 6), Hands: "Assistant", Minutes: 22, Duty: "beard bath"},
		{Dog: "Moss", On: sample.Date(1, 5), Hands: "Handler", Minutes: 31, Areas: []kennel.Pulled{{Area: kennel.AreaBack, Share: 0.2}}},
		{Dog: "Sorrel", On: sample.Date(1, 7), Hands: "Handler", Minutes: 47.5},
		{Dog: "Sorrel", On: sample.Date(1, 5), Hands: "Handler", Minutes: 40, Stopped: true},
		{Dog: "Gone", On: sample.Date(1, 5), Minutes: 10, Duty: "nails"},
		{Dog: "Sorrel", On: sample.Date(2, 1), Hands: "Handler", Minutes: 99},
	}
}

func january(t *testing.T, terms Terms) Account {
	t.Helper()
	terms.From, terms.To = sample.Date(1, 1), sample.Date(1, 31)
	a, err := NewAccount(twoOwners, someWork(), terms)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// The bill of an owner has a line for each dog, and its sums are those of the account.
func TestTheBillOfAnOwnerIsItsAccount(t *testing.T) {
	a := january(t, Terms{Step: 5, Up: true, Currency: "EUR", Rates: []Rate{{AnHour: money(t, "24.50")}}})
	b := a.BillOf("R. Calloway")
	if len(b.Lines) != 2 || b.Lines[0].Dog != "Sorrel" || b.Lines[0].Sessions != 2 || b.Lines[1].Dog != "Moss" || b.Month != sample.Date(1, 1) {
		t.Fatalf("%+v", b)
	}
	if b.Minutes != a.Owners[0].count || b.Amount != a.Owners[0].amount.written(2)+" EUR" || b.Lines[0].Minutes+b.Lines[1].Minutes != b.Minutes {
		t.Errorf("%+v, the account has %+v", b, a.Owners[0])
	}
	if b := a.BillOf("S. Marrowby"); b.Lines[0].Duties != 1 || b.Lines[0].Sessions != 0 || b.Rule != "Counted: each stretch of work up to the next 5 minutes." {
		t.Errorf("%+v", b)
	}
	if b := january(t, Terms{}).BillOf("R. Calloway"); b.Amount != "" || b.Lines[0].Amount != "" {
		t.Errorf("nothing is charged, and the bill has %q", b.Amount)
	}
}

func TestAnAccountHoldsTheWorkOfItsDays(t *testing.T) {
	a := january(t, Terms{})
	var got []string
	for _, l := range a.Lines {
		got = append(got, l.Owner+" "+l.Dog+" "+l.On.String()+" "+l.Kind+" "+minutesFigure(l.done))
	}
	want := "R. Calloway Sorrel 2027-01-05 session 40\nR. Calloway Sorrel 2027-01-07 session 47.5\n" +
		"R. Calloway Moss 2027-01-05 session 31\nS. Marrowby Pewter 2027-01-06 duty 22\n Gone 2027-01-05 duty 10"
	if strings.Join(got, "\n") != want {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), want)
	}
	if all := a.total(); minutesFigure(all.done) != "150.5" || all.count != all.done || all.amount.told() {
		t.Errorf("all: %+v", all)
	}
}

func TestWorkIsRoundedByTheRule(t *testing.T) {
	for _, c := range []struct {
		step int
		up   bool
		done kennel.Minutes
		want string
	}{
		{0, false, 47.5, "47.5"},
		{0, true, 47.5, "47.5"},
		{1, false, 47.5, "48"},
		{5, true, 47.5, "50"},
		{5, true, 45, "45"},
		{5, true, 45.01, "50"},
		{5, false, 47.49, "45"},
		{5, false, 47.5, "50"},
		{15, false, 7.49, "0"},
		{15, true, 0.5, "15"},
	} {
		if got := minutesFigure((Terms{Step: c.step, Up: c.up}).counted(layout.HundredthsOf(c.done))); got != c.want {
			t.Errorf("%v by %d, up %v: %s, want %s", c.done, c.step, c.up, got, c.want)
		}
	}
}

func TestHoursAreChargedExactly(t *testing.T) {
	a := january(t, Terms{Currency: "EUR", Rates: []Rate{{"Handler", money(t, "24.50")}, {"", money(t, "10")}}})
	var got []string
	for _, l := range a.Lines {
		got = append(got, a.rateWords(l)+" "+l.amount.written(a.decimals))
	}
	// 40/60 of 24.50 is 16.333..; 47.5/60 is 19.3958..; 31/60 is 12.6583..; 22/60 of 10 is 3.666..; 10/60 of 10 is 1.666..
	if want := "24.50 16.33|24.50 19.40|24.50 12.66|10.00 3.67|10.00 1.67"; strings.Join(got, "|") != want {
		t.Errorf("got %s", strings.Join(got, "|"))
	}
	if all := a.total().amount.written(2); all != "53.73" {
		t.Errorf("all %s, want 53.73", all)
	}
	yen := january(t, Terms{Currency: "JPY", Rates: []Rate{{"", money(t, "3000")}}})
	if got := yen.Lines[0].amount.written(yen.decimals); got != "2000" {
		t.Errorf("40 minutes at 3000 yen: %s", got)
	}
	dinar := january(t, Terms{Currency: "KWD", Rates: []Rate{{"", money(t, "10")}}})
	if got := dinar.Lines[0].amount.written(dinar.decimals); got != "6.667" {
		t.Errorf("40 minutes at 10 dinar: %s", got)
	}
	if m := january(t, Terms{Currency: "EUR"}).Lines[0].amount; m.told() {
		t.Error("work without a rate is charged")
	}
}

func TestMoneyAndCurrenciesAreReadStrictly(t *testing.T) {
	for _, bad := range []string{"", "-1", "1,500", "1,5,5", "1.5,5", "1.", ".5", "1e3", "1/3", "0x10", "1.23456", "Inf", " 1", "12345678901"} {
		if _, err := ParseMoney(bad); err == nil {
			t.Errorf("%q was taken for an amount", bad)
		}
	}
	for _, good := range []string{"24.5", "24,5", "24,50"} {
		if m, err := ParseMoney(good); err != nil || m.written(2) != "24.50" {
			t.Errorf("%q is %s (%v)", good, m.written(2), err)
		}
	}
	for _, bad := range []string{"eur", "EURO", "ZZZ", "E", "=1+"} {
		if _, err := NewAccount(twoOwners, nil, Terms{Currency: bad}); err == nil {
			t.Errorf("%q was taken for a currency", bad)
		}
	}
}

// Text, CSV and JSON have the same figures, and totals are the sums of their lines to the last digit.
func TestAccountsAddUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var work []kennel.Work
		var recorded layout.Hundredths
		for range rapid.IntRange(0, 12).Draw(rt, "stretches") {
			m := rapid.Int64Range(1, 30000).Draw(rt, "hundredths")
			w := kennel.Work{
				Dog: rapid.SampledFrom([]string{"Sorrel", "Moss", "Pewter", "Gone"}).Draw(rt, "dog"), Minutes: kennel.Minutes(layout.Hundredths(m).Minutes()),
				On: sample.Date(1, rapid.IntRange(1, 31).Draw(rt, "day")), Hands: rapid.SampledFrom([]string{"Handler", "Assistant", ""}).Draw(rt, "hands"),
			}
			recorded += layout.Hundredths(m)
			work = append(work, w)
		}
		a, err := NewAccount(twoOwners, work, Terms{
			Currency: rapid.SampledFrom([]string{"EUR", "JPY", "KWD"}).Draw(rt, "currency"), Step: rapid.IntRange(0, 30).Draw(rt, "step"),
			Up: rapid.Bool().Draw(rt, "up"), Rates: []Rate{{"Handler", money(t, "24.5025")}, {"", money(t, "9.99")}},
		})
		if err != nil {
			rt.Fatal(err)
		}
		var b bytes.Buffer
		if err := AccountJSON(&b, twoOwners, a); err != nil {
			rt.Fatal(err)
		}
		var doc accountDoc
		if err := json.Unmarshal(b.Bytes(), &doc); err != nil {
			rt.Fatal(err)
		}
		b.Reset()
		if err := AccountCSV(&b, a); err != nil {
			rt.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			rt.Fatal(err)
		}
		sum, done := new(big.Rat), layout.Hundredths(0)
		for i, row := range rows[1:] {
			l := doc.Lines[i]
			if row[9] != l.Amount || row[8] != l.Rate || row[6] != layout.Number(l.Minutes, 2) || row[7] != layout.Number(l.Counted, 2) {
				rt.Fatalf("CSV has %v, JSON %+v", row, l)
			}
			x, _ := new(big.Rat).SetString(row[9])
			sum.Add(sum, x)
			done += layout.HundredthsOf(kennel.Minutes(l.Minutes))
		}
		if done != recorded || layout.HundredthsOf(kennel.Minutes(doc.All.Minutes)) != recorded {
			rt.Fatalf("%d hundredths were recorded, the lines have %d, the total %v minutes", recorded, done, doc.All.Minutes)
		}
		if len(work) > 0 && sum.FloatString(a.decimals) != doc.All.Amount {
			rt.Fatalf("the lines add up to %s, the total is %s", sum.FloatString(a.decimals), doc.All.Amount)
		}
	})
}

func TestAccountsAreSafeWithHostileNames(t *testing.T) {
	for _, name := range sample.HostileNames {
		k := kennel.Kennel{Name: name, Dogs: []kennel.Dog{{Name: name, Owner: name}}}
		a, err := NewAccount(k, []kennel.Work{{Dog: name, On: sample.Date(1, 5), Hands: name, Minutes: 5, Duty: name}}, Terms{})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := AccountText(&b, k, a, layout.Look{}); err != nil {
			t.Fatal(err)
		}
		if strings.ContainsAny(b.String(), "\x1b\r\u202e") {
			t.Errorf("%q moves the cursor", name)
		}
		for _, line := range strings.Split(b.String(), "\n") {
			if say.Width(line) > layout.Columns {
				t.Errorf("%q makes a line of %d columns", name, say.Width(line))
			}
		}
		b.Reset()
		if err := AccountCSV(&b, a); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil || len(rows) != 2 {
			t.Fatalf("%q: %v", name, err)
		}
		for _, c := range rows[1] {
			if c != "" && strings.ContainsAny(c[:1], "=+-@\t\r\n") {
				t.Errorf("a spreadsheet would run %q", c)
			}
		}
	}
}
