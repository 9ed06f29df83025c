package placetest

import (
	"fmt"
	"image"
	"strings"
	"testing"

	goqr "github.com/piglig/go-qr"
)

// ReadCode tells what a QR code says whose dark modules are runs of rows, as
// ui/qr draws them: it is painted and looked at.
func ReadCode(t testing.TB, path string, side int) string {
	t.Helper()
	const px = 4 // of a module
	m := image.NewGray(image.Rect(0, 0, px*side, px*side))
	for i := range m.Pix {
		m.Pix[i] = 255
	}
	for _, run := range strings.Split(strings.TrimSuffix(path, "z"), "z") {
		var x, y, wide int
		if _, err := fmt.Sscanf(run, "M%d %dh%dv1", &x, &y, &wide); err != nil {
			t.Fatalf("%q is no run of a code: %v", run, err)
		}
		for v := px * y; v < px*(y+1); v++ {
			for u := px * x; u < px*(x+wide); u++ {
				m.Pix[v*m.Stride+u] = 0
			}
		}
	}
	text, err := goqr.Decode(m)
	if err != nil {
		t.Fatalf("the code cannot be read: %v", err)
	}
	return text
}
