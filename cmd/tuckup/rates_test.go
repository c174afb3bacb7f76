package main

import (
	"errors"
	"strings"
	"testing"
)

// Any rates and any currency are read, each pair of hands once, or refused with what to type.
func FuzzRates(f *testing.F) {
	for _, rates := range []string{"24.50", "Assistant=15 24,5", "Old=Hand=7", "1,500", "24.50 24.50"} {
		f.Add(rates, "EUR")
	}
	f.Add("", "EUR")
	f.Add("24.50", "")
	f.Fuzz(func(t *testing.T, rates, currency string) {
		given := strings.Fields(rates)
		terms, err := accountFlags{currency: currency, rates: given}.terms()
		if err != nil {
			var wrong *usageError
			if !errors.As(err, &wrong) || wrong.try == "" || wrong.what == "" {
				t.Fatalf("%#v", err)
			}
			return
		}
		seen := map[string]bool{}
		for _, r := range terms.Rates {
			if seen[r.Hands] {
				t.Errorf("%q has two rates in %q", r.Hands, rates)
			}
			seen[r.Hands] = true
		}
		if len(terms.Rates) != len(given) || (len(given) > 0) != (terms.Currency != "") {
			t.Errorf("%q in %q is %+v", rates, currency, terms)
		}
	})
}
