package outside

import (
	"context"
	"math"
	"syscall"
	"testing"

	"fettle/engine/flatten"
	"fettle/geom/mesh"
)

// large are surfaces of 20,164 vertices in millimetres, by shares from -1 to 1
// of their two sides.
var large = []struct {
	name          string
	width, height float64
	z             func(u, v float64) float64
}{
	{"seat", 520, 500, func(u, v float64) float64 { // bolsters left and right, a roll at the front
		return 55*math.Exp(-math.Pow((math.Abs(u)-0.78)/0.2, 2)) - 70*math.Pow(max(0, v-0.55)/0.45, 2) + 12*math.Cos(3*u)*math.Cos(2*v)
	}},
	{"bowl", 600, 600, func(u, v float64) float64 { return 90 * (u*u + v*v - u*u*v*v) }},
}

func largeMesh(width, height float64, z func(u, v float64) float64) (m mesh.Mesh) {
	const n = 142
	for j := range n {
		for i := range n {
			u, v := 2*float64(i)/(n-1)-1, 2*float64(j)/(n-1)-1
			m.Points = append(m.Points, mesh.Vec{X: u * width / 2, Y: v * height / 2, Z: z(u, v)})
			if k := int32(j*n + i); i < n-1 && j < n-1 {
				m.Faces = append(m.Faces, mesh.Face{k, k + 1, k + n + 1}, mesh.Face{k, k + n + 1, k + n})
			}
		}
	}
	return m
}

// BenchmarkLarge lays large surfaces flat under every material, and reports
// processor seconds, Newton steps and what it costs.
func BenchmarkLarge(b *testing.B) {
	steel, err := flatten.Sheet("DC04", 0.8)
	if err != nil {
		b.Fatal(err)
	}
	materials := []flatten.Material{{Name: "none"}, flatten.Leather(), flatten.Vinyl(), flatten.Cloth(), steel}
	for _, s := range large {
		m := largeMesh(s.width, s.height, s.z)
		for _, by := range materials {
			b.Run(s.name+"/"+by.Name, func(b *testing.B) {
				p := flatten.Problem{Surface: m, Material: &by}
				if by.Name == "none" {
					p.Material = nil
				}
				var r flatten.Result
				began := processor(b)
				for b.Loop() {
					if r, err = flatten.Solve(context.Background(), p, flatten.Options{Seed: 1}); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric((processor(b)-began)/float64(b.N), "cpu-s/op")
				b.ReportMetric(float64(r.Stats.Steps), "steps")
				b.ReportMetric(r.Material.Dirichlet, "SD")
				b.ReportMetric(100*r.Material.Outside, "%outside")
				b.ReportMetric(float64(r.Material.Flips+r.Material.Overlaps), "faults")
			})
		}
	}
}

// processor is the seconds that this process has had of a processor.
func processor(b *testing.B) float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Skip("the time of the processor cannot be had here")
	}
	return float64(u.Utime.Sec) + float64(u.Utime.Usec)/1e6 + float64(u.Stime.Sec) + float64(u.Stime.Usec)/1e6
}
