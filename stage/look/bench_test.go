package look_test

import (
	"testing"

	"fettle/stage/look"
	"fettle/takeoff/sprayout"
)

// BenchmarkRecolour works out every panel of the demo under three lights, from
// cards read before: what a page does when a colour or a sealer is changed.
func BenchmarkRecolour(b *testing.B) {
	facts := morning(b, october)
	p := sprayout.Read(&facts)
	panels := 0
	for b.Loop() {
		zones := look.Dress(p, &facts)
		for _, f := range look.Panels(&facts, zones) {
			for light := range sprayout.Lights {
				if f.Zone >= 0 && zones[f.Zone].Screen(light) != "" {
					panels++
				}
			}
		}
	}
	b.ReportMetric(float64(panels/b.N), "fills")
}

// BenchmarkRead fits every card of the demo.
func BenchmarkRead(b *testing.B) {
	facts := morning(b, october)
	for b.Loop() {
		sprayout.Read(&facts)
	}
}
