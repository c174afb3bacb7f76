package book

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"tuckup/kennel"
)

var indexed = regexp.MustCompile(`^(hands|dogs|shows)\[(\d+)\]\.?(.*)$`)

// Named says whose field it is by name: dogs[2].coat.growth becomes Sorrel: coat.growth. A book has no lines to point
// at.
func Named(in *kennel.InputError, k kennel.Kennel) *kennel.InputError {
	m := indexed.FindStringSubmatch(in.Field)
	if m == nil {
		return in
	}
	n, err := strconv.Atoi(m[2])
	if err != nil {
		return in
	}
	named := *in
	switch {
	case m[1] == "hands" && n < len(k.Hands):
		named.Field = kennel.Shortened(k.Hands[n].Name)
	case m[1] == "dogs" && n < len(k.Dogs):
		named.Field = kennel.Shortened(k.Dogs[n].Name)
	case m[1] == "shows" && n < len(k.Shows):
		named.Field = fmt.Sprintf("%s on %s", kennel.Shortened(k.Shows[n].Name), k.Shows[n].On)
	}
	if m[3] != "" {
		named.Field += ": " + m[3]
	}
	switch {
	case m[3] == "areas":
		named.Try = `--pulled 2026-11-09 with the day when all of it was last pulled, or --coat "0.6 2026-09-20 0.4 2026-12-01"`
	case strings.HasPrefix(m[3], "dogs[") && len(k.Dogs) == 0:
		named.Try = "tuckup dog add " + in.Value + " first"
	}
	return &named
}

// placed says in which file and line what is wrong stands.
func placed(err error, file string, line int) error {
	var in *kennel.InputError
	if !errors.As(err, &in) {
		return err
	}
	at := *in
	at.File, at.Line = file, line
	return &at
}
