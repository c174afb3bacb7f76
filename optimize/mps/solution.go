package mps

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// ReadSolution reads `name value` lines. Empty lines and lines that begin with # are left out.
// Values are finite.
func ReadSolution(r io.Reader) (map[string]float64, error) {
	all := map[string]float64{}
	lines := bufio.NewScanner(r)
	for n := 1; lines.Scan(); n++ {
		f := strings.Fields(lines.Text())
		if len(f) == 0 || strings.HasPrefix(f[0], "#") {
			continue
		}
		if len(f) != 2 {
			return nil, fmt.Errorf("line %d: %q is not a name and a value", n, lines.Text())
		}
		x, err := strconv.ParseFloat(f[1], 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			return nil, fmt.Errorf("line %d: the value %q of %s is not a number", n, f[1], f[0])
		}
		if _, twice := all[f[0]]; twice {
			return nil, fmt.Errorf("line %d: %s has a value already", n, f[0])
		}
		all[f[0]] = x
	}
	return all, lines.Err()
}
