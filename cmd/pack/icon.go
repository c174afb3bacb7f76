package main

import _ "embed"

// icon is the picture of the program, 512 points a side: the desk's own (reports/desk/assets/icon.svg).
//
//go:embed icon.png
var icon []byte
