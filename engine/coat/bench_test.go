package coat_test

import (
	"fmt"
	"testing"

	"fettle/engine/coat"
	"fettle/unit"
)

func BenchmarkPour(b *testing.B) {
	for b.Loop() {
		if _, err := primer.Pour(1.2); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkDay lays out and checks days of two products over n sets.
func BenchmarkDay(b *testing.B) {
	for _, n := range []int{1, 10, 100} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			d := coat.Day{Opens: unit.Date(20000).At(8, 0), Closes: unit.Date(20009).At(8, 0), Metal: 20, Clearance: 5,
				Runs: []coat.Run{{Product: base}, {Product: clearCoat}}}
			for i := range n {
				name := fmt.Sprint("set ", i)
				d.Sets = append(d.Sets, coat.Set{Name: name, Panels: 1, Area: 1})
				d.Runs[0].Sets, d.Runs[1].Sets = append(d.Runs[0].Sets, name), append(d.Runs[1].Sets, name)
			}
			lines := 0
			for b.Loop() {
				s, err := d.Sheet()
				if err != nil {
					b.Fatal(err)
				}
				lines = len(s.Lines)
			}
			b.ReportMetric(float64(lines), "lines")
		})
	}
}
