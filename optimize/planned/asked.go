package planned

import (
	"crypto/sha256"
	"encoding/hex"

	"tuckup/kennel"
)

// Asked is a name for what a plan is made from, so that a plan of the same need not be sought again: SHA-256 in hexadecimal over the
// kennel, the patterns of its dogs, the settings and the plan that it begins with. A time limit is no part of it: a plan that no limit
// cut short is the one that there would be without.
func Asked(k kennel.Kennel, pats kennel.Patterns, opt Options) (string, error) {
	var begin []byte
	if opt.Begin != nil {
		var err error
		if begin, err = opt.Begin.Pack(); err != nil {
			return "", err
		}
	}
	opt = opt.Still()
	opt.TimeLimit = 0
	data, err := packing.Marshal(struct {
		Kennel   kennel.Kennel
		Patterns kennel.Patterns
		Options  Options
		Begin    []byte
	}{k, usedBy(k, pats), opt, begin})
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:]), nil
}

// usedBy are the patterns of the kennel's dogs.
func usedBy(k kennel.Kennel, pats kennel.Patterns) kennel.Patterns {
	used := kennel.Patterns{}
	for _, d := range k.Dogs {
		if p, known := pats[d.Pattern]; known {
			used[d.Pattern] = p
		}
	}
	return used
}
