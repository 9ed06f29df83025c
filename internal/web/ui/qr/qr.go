// Package qr draws a text as a QR code (ISO/IEC 18004) that a phone reads off
// paper.
package qr

import (
	"fmt"
	"strings"

	goqr "github.com/piglig/go-qr"

	"fettle/fault"
)

// Quiet is the white that a reader needs on all sides, in modules.
const Quiet = 4

// Code is a drawn code in modules, white border included; y runs down.
type Code struct {
	Side int
	Path string // of the dark modules, one run of a row after the other
}

// Of draws a text as the smallest code that holds it, with as much correction
// as that size has room for. The error is a fault of kind TooLarge.
func Of(text string) (Code, error) {
	q, err := goqr.EncodeText(text, goqr.Low)
	if err != nil {
		return Code{}, fault.New(fault.TooLarge, "a text of %d letters does not go in a QR code", len(text))
	}
	n := q.Size()
	var d strings.Builder
	for y := range n {
		for x := 0; x < n; x++ {
			from := x
			for x < n && q.Module(x, y) {
				x++
			}
			if x > from {
				fmt.Fprintf(&d, "M%d %dh%dv1h-%dz", from+Quiet, y+Quiet, x-from, x-from)
			}
		}
	}
	return Code{Side: n + 2*Quiet, Path: d.String()}, nil
}
