package qr_test

import (
	"strings"
	"testing"

	"fettle/internal/placetest"
	"fettle/internal/web/ui/qr"
)

// TestOf_ReadsBack paints codes of every length that labels have, and reads them.
func TestOf_ReadsBack(t *testing.T) {
	for _, text := range []string{"C08", "C08 · dip relay:87 → headlamp L · U/R · 1.0 mm²\npedlar · from dip relay:87", strings.Repeat("long ", 60)} {
		c, err := qr.Of(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := placetest.ReadCode(t, c.Path, c.Side); got != text {
			t.Errorf("%q reads as %q", text, got)
		}
	}
	if _, err := qr.Of(strings.Repeat("x", 5000)); err == nil {
		t.Error("5,000 letters went in")
	}
}
