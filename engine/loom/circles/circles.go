package circles

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/fault"
	"fettle/geom"
)

// Packing is circles without overlap inside one round the origin.
type Packing struct {
	Diameter float64      `json:"diameter"` // of the circle round all
	At       []geom.Point `json:"at"`       // centres, in the order given, the same unit
}

// Options bound the work.
type Options struct {
	Starts int `json:"starts,omitempty"` // 0 for 8 to 24 equal circles, 2 to twelve unlike ones, 1 beyond
	Rounds int `json:"rounds,omitempty"` // steps at one price; 0 for 30
	Hops   int `json:"hops,omitempty"`   // circles of the best so far put elsewhere; 0 for what the sizes ask, below 0 for none
}

// MaxCircles is the most that are taken.
const MaxCircles = 5000

// Pack packs circles of the given diameters, all above 0.
func Pack(diameters []float64, o Options) (Packing, error) {
	if len(diameters) > MaxCircles {
		return Packing{}, fault.New(fault.TooLarge, "%d circles, at most %d", len(diameters), MaxCircles)
	}
	order := make([]int, len(diameters))
	for i, d := range diameters {
		if !(d > 0 && d < 1e6) {
			return Packing{}, fault.New(fault.Invalid, "a diameter of %v", d).At(fmt.Sprintf("circle %d", i))
		}
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(diameters[b], diameters[a]) })
	radii := make([]float64, len(order))
	for k, i := range order {
		radii[k] = diameters[i] / 2
	}
	p := newPacker(radii)
	p.pack(o)
	out := Packing{Diameter: 2 * p.bestR, At: make([]geom.Point, len(order))}
	for k, i := range order {
		out.At[i] = geom.Point{X: p.best[2*k], Y: p.best[2*k+1]}
	}
	return out, nil
}

// Rule is the rule of thumb for a bundle: k·√(Σd²), k = 1 for one wire, √2 for
// two, 1.25 for three, 1.2 beyond.
func Rule(diameters []float64) (diameter, k float64) {
	sum := 0.0
	for _, d := range diameters {
		sum += d * d
	}
	switch k = 1.2; len(diameters) {
	case 0, 1:
		k = 1
	case 2:
		k = math.Sqrt2
	case 3:
		k = 1.25
	}
	return k * math.Sqrt(sum), k
}

// Check holds a packing to the raw diameters, to a millionth of the largest: no
// two overlap, none reaches out. It shares nothing with the packer.
func Check(diameters []float64, p Packing) error {
	if len(p.At) != len(diameters) {
		return fault.New(fault.Internal, "%d places for %d circles", len(p.At), len(diameters))
	}
	slip := 0.0
	for _, d := range diameters {
		slip = max(slip, 1e-6*d)
	}
	for i, c := range p.At {
		if out := math.Hypot(c.X, c.Y) + diameters[i]/2 - p.Diameter/2; !(out <= slip) {
			return fault.New(fault.Internal, "it reaches %g out", out).At(fmt.Sprintf("circle %d", i))
		}
		for j := range i {
			if in := (diameters[i]+diameters[j])/2 - math.Hypot(c.X-p.At[j].X, c.Y-p.At[j].Y); !(in <= slip) {
				return fault.New(fault.Internal, "it lies %g in circle %d", in, j).At(fmt.Sprintf("circle %d", i))
			}
		}
	}
	return nil
}
