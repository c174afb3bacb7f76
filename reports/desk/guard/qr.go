package guard

import (
	"fmt"
	"io"
	"strings"

	qr "github.com/piglig/go-qr"
)

// quiet is the width of the light edge that a reader needs round a code, in squares.
const quiet = 4

// WriteQR draws text as a code for a phone's camera, two squares to a letter, light on dark: for a terminal with a dark
// ground. Text that is too long is an error.
func WriteQR(w io.Writer, text string) error {
	code, err := qr.EncodeText(text, qr.Low)
	if err != nil {
		return fmt.Errorf("draw a code: %w", err)
	}
	blocks := map[[2]bool]string{{false, false}: "█", {false, true}: "▀", {true, false}: "▄", {true, true}: " "} // dark above, dark below
	var b strings.Builder
	for y := -quiet; y < code.Size()+quiet; y += 2 {
		for x := -quiet; x < code.Size()+quiet; x++ {
			b.WriteString(blocks[[2]bool{code.Module(x, y), code.Module(x, y+1)}])
		}
		b.WriteByte('\n')
	}
	if _, err := io.WriteString(w, b.String()); err != nil {
		return fmt.Errorf("draw a code: %w", err)
	}
	return nil
}
