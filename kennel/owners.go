package kennel

import "slices"

// FindOwner is the owner that is meant, found as Match finds names. The error is an *InputError.
func (k Kennel) FindOwner(name string) (string, error) {
	names := k.Owners()
	if len(names) == 0 {
		return "", &InputError{Field: "owner", Value: name, What: "no dog of this kennel has an owner", Try: "an owner for the dog, in the kennel file or by tuckup dog edit"}
	}
	return Match("owner", name, names)
}

// Owners are the owners of a kennel's dogs, each once, in the kennel's order.
func (k Kennel) Owners() (names []string) {
	for _, d := range k.Dogs {
		if d.Owner != "" && !slices.Contains(names, d.Owner) {
			names = append(names, d.Owner)
		}
	}
	return names
}
