package flatten

import (
	"context"
	"math"
	"testing"

	"fettle/geom/mesh"
)

// panel is a sheet of leather over a soft shape of about so many vertices.
func panel(vertices int) mesh.Mesh {
	n := int(math.Sqrt(float64(vertices))) / 2 * 2
	return patch(n, n, func(u, v float64) mesh.Vec {
		x, y := 600*(u-0.5), 600*(v-0.5)
		return mesh.Vec{X: x, Y: y, Z: 40*math.Exp(-(x*x+y*y)/20000) + 30*math.Sin(4*u)*math.Cos(3*v)}
	})
}

func BenchmarkMaterial(b *testing.B) {
	for name, tension := range map[string]float64{"bears": 0.12, "hardly": 0.01} {
		b.Run(name, func(b *testing.B) {
			p := Problem{Surface: panel(20000), Material: even(tension)}
			for b.Loop() {
				r, err := Solve(context.Background(), p, Options{})
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(r.Stats.Steps), "steps")
				b.ReportMetric(100*r.Material.Outside, "%outside")
			}
		})
	}
}
