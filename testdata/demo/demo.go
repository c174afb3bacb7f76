// Package demo holds the invented string of dogs that `tuckup plan --demo` plans. Every kennel, dog, person and
// show in it is made up.
package demo

import _ "embed"

// Kennel is the demo's kennel file, as kennel/text reads it.
//
//go:embed kennel.yaml
var Kennel []byte
