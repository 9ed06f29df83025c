package flatten

import (
	"math"
	"testing"

	"fettle/geom/mesh"
)

// A channel of two flanges joined by bends of 8 mm radius: its bends lie on the
// flat pattern where they are on the surface, with their angles.
func TestBends_Channel(t *testing.T) {
	const radius, flange, web, depth = 8.0, 40.0, 60.0, 100.0
	arc := radius * math.Pi / 2
	long := 2*flange + web + 2*arc
	profile := func(s float64) (x, z float64) {
		at := func(from, length float64) float64 { return min(max(s-from, 0), length) }
		z = -at(0, flange)
		a := at(flange, arc) / radius
		x, z = x+radius*(1-math.Cos(a)), z-radius*math.Sin(a)
		x += at(flange+arc, web)
		a = at(flange+arc+web, arc) / radius
		x, z = x+radius*math.Sin(a), z+radius*(1-math.Cos(a))
		return x, z + at(flange+2*arc+web, flange)
	}
	// Grid lines where bends begin and end, ten cells in each.
	var lines []float64
	for _, part := range [][2]float64{{0, flange}, {flange, flange + arc}, {flange + arc, flange + arc + web}, {flange + arc + web, long - flange}, {long - flange, long}} {
		for i := range 10 {
			lines = append(lines, part[0]+(part[1]-part[0])*float64(i)/10)
		}
	}
	lines = append(lines, long)
	m := patch(50, 10, func(u, v float64) mesh.Vec {
		x, z := profile(lines[int(math.Round(u*50))])
		return mesh.Vec{X: x, Y: depth * v, Z: z}
	})
	r := lay(t, Problem{Surface: m})
	bends := Bends(m, r.Flat, 20)
	if len(bends) != 2 {
		t.Fatalf("%d bends: %+v", len(bends), bends)
	}
	for _, b := range bends {
		if math.Abs(math.Abs(b.Angle)-math.Pi/2) > 0.02 || math.Abs(b.Radius-radius) > 1 || math.Abs(b.From.Distance(b.To)-depth) > 0.1 {
			t.Errorf("%+v", b)
		}
	}
	if bends[0].Angle*bends[1].Angle < 0 {
		t.Error("both bends turn the same way")
	}
	apart := bends[0].From.Add(bends[0].To).Distance(bends[1].From.Add(bends[1].To)) / 2
	if math.Abs(apart-web-arc) > 0.1 {
		t.Errorf("bends are %.2f apart, want %.2f", apart, web+arc)
	}
}

func TestBends_NoneOnADome(t *testing.T) {
	m := dome(8, 100, 0.6)
	if bends := Bends(m, lay(t, Problem{Surface: m}).Flat, 200); len(bends) > 0 {
		t.Errorf("%+v", bends)
	}
}
