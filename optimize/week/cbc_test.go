package week

import (
	"bytes"
	"context"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// weeksWithCBC is how many random weeks are compared, and quickWithCBC in the quick round; WEEKS_WITH_CBC asks for another number.
const weeksWithCBC, quickWithCBC = 40, 15

func TestRandomWeeksAreAsGoodAsAGeneralSolversOptimum(t *testing.T) {
	if _, err := exec.LookPath("cbc"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("cbc is not installed (Debian: apt-get install coinor-cbc)")
		}
		t.Skip("cbc is not installed, nothing to compare with (Debian: apt-get install coinor-cbc)")
	}
	count := weeksWithCBC
	if testing.Short() {
		count = quickWithCBC
	}
	if n, err := strconv.Atoi(os.Getenv("WEEKS_WITH_CBC")); err == nil {
		count = n
	}
	sizes := []size{{3, 2, 4, 5, 3}, {4, 2, 4, 6, 3}, {5, 1, 4, 6, 2}, {3, 3, 3, 4, 2}, {6, 2, 5, 7, 3}}
	unproven := 0
	for seed := range uint64(count) {
		p := randomWeek(1000+seed, sizes[seed%uint64(len(sizes))])
		r, err := Solve(p, toTheEnd())
		if err != nil {
			t.Fatal(err)
		}
		want, ok := cbc(t, p)
		if !ok {
			t.Errorf("seed %d: cbc did not finish", seed)
			continue
		}
		if r.Bound < want-cbcSlack {
			t.Errorf("seed %d: bound %v, cbc has a week worth %v", seed, r.Bound, want)
		}
		if r.Gap > sameWorth {
			unproven++
		}
		if math.Abs(r.Objective-want) > cbcSlack && (r.Gap <= sameWorth || r.Objective > want) {
			t.Errorf("seed %d: %v (gap %v), cbc %v", seed, r.Objective, r.Gap, want)
		}
	}
	t.Logf("%d weeks, %d of them not proven within the usual nodes", count, unproven)
	if unproven*10 > count {
		t.Errorf("%d of %d weeks were not proven", unproven, count)
	}
}

// cbcSlack is how far a general solver's tolerances may be from exact.
const cbcSlack = 2e-5

func cbc(t *testing.T, p *Problem) (points float64, ok bool) {
	t.Helper()
	var b bytes.Buffer
	if err := WriteMPS(&b, p); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	model, answer := filepath.Join(dir, "week.mps"), filepath.Join(dir, "answer")
	if err := os.WriteFile(model, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithTimeout(context.Background(), 60*time.Second)
	defer stop()
	out, err := exec.CommandContext(ctx, "cbc", model, "ratio", "0", "allow", "1e-9", "increment", "1e-9",
		"integerT", "1e-9", "primalT", "1e-9", "sec", "40", "solve", "solu", answer).CombinedOutput()
	if err != nil {
		t.Logf("cbc: %v\n%s", err, out)
		return 0, false
	}
	text, err := os.ReadFile(answer)
	if err != nil {
		t.Fatal(err)
	}
	first, _, _ := strings.Cut(string(text), "\n")
	words := strings.Fields(first)
	if len(words) == 0 || words[0] != "Optimal" {
		t.Logf("cbc: %s", first)
		return 0, false
	}
	x, err := strconv.ParseFloat(words[len(words)-1], 64)
	if err != nil {
		t.Fatalf("cbc: %q", first)
	}
	return -x, true
}
