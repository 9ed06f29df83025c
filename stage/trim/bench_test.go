package trim_test

import (
	"testing"

	"fettle/stage/trim"
)

// BenchmarkChecks works out every check of the trim shop with all 50 pieces
// laid on three hides: what every plan of the build pays.
func BenchmarkChecks(b *testing.B) {
	facts := morning(b, october)
	n := 0
	for b.Loop() {
		n += len(trim.Checks(&facts))
	}
	b.ReportMetric(float64(n)/float64(b.N), "checks")
}
