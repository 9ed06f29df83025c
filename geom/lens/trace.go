package lens

import (
	"fmt"
	"math"

	"fettle/fault"
	"fettle/geom"
)

// Trace is a traced outline on the table.
type Trace struct {
	Ring  geom.Ring // mm
	Error float64   // mm: the worst place is within this in 95 of 100 cases
	Worst int       // the point of that place
	Why   string    // what brings most of it there
	Area  float64   // mm²
	Off   float64   // mm²: the area's error, 95 of 100
}

// What may bring the error of a place.
const (
	WhyBend      = "the bend of the lens is not known well"
	WhyTap       = "a pixel is large there"
	WhyReference = "the reference is small, or far from there"
)

// Trace maps an outline of three points or more, in pixels. Its errors are
// those of its shape: where it lies on the table does not matter, so the best
// shift and turn are taken out. What bulges between its points is not in them.
func (v *View) Trace(ring []geom.Point) (Trace, error) {
	if len(ring) < 3 {
		return Trace{}, invalid("it has %d points: an outline has three or more", len(ring))
	}
	images := make([]image, len(ring))
	t := Trace{Ring: make(geom.Ring, len(ring))}
	for i, p := range ring {
		im, err := v.image(p)
		if err != nil {
			return t, fault.Within(err, fmt.Sprintf("point %d", i+1))
		}
		images[i], t.Ring[i] = im, im.at
	}
	t.Area, t.Off = math.Abs(geom.RingArea(t.Ring)), v.areaError(images)
	v.loosen(images)
	for i, im := range images {
		if e := v.reach(v.off(im)); e > t.Error {
			t.Error, t.Worst, t.Why = e, i, v.why(im)
		}
	}
	return t, nil
}

// areaError carries the covariance to the area: its gradient by a corner is
// half the way from the corner after to the one before, turned.
func (v *View) areaError(images []image) float64 {
	var by [size]float64
	taps := 0.0
	for i, im := range images {
		n := len(images)
		way := images[(i+1)%n].at.Sub(images[(i+n-1)%n].at)
		gx, gy := way.Y/2, -way.X/2
		for k := range size {
			by[k] += gx*im.by[0][k] + gy*im.by[1][k]
		}
		taps += v.tap(im).along(geom.Point{X: gx, Y: gy})
	}
	return v.width(by, taps)
}

// loosen takes the best shift and turn out of how the places follow the
// parameters.
func (v *View) loosen(images []image) {
	n := float64(len(images))
	var mid geom.Point
	for _, im := range images {
		mid = mid.Add(im.at.Scale(1 / n))
	}
	inertia := 0.0
	for _, im := range images {
		d := im.at.Sub(mid)
		inertia += d.X*d.X + d.Y*d.Y
	}
	for k := range size {
		var shift geom.Point
		turn := 0.0
		for _, im := range images {
			d := im.at.Sub(mid)
			shift = shift.Add(geom.Point{X: im.by[0][k] / n, Y: im.by[1][k] / n})
			turn += (d.X*im.by[1][k] - d.Y*im.by[0][k]) / inertia
		}
		for i := range images {
			d := images[i].at.Sub(mid)
			images[i].by[0][k] -= shift.X - turn*d.Y
			images[i].by[1][k] -= shift.Y + turn*d.X
		}
	}
}

// why names what brings more than half of the error of a place: what would go
// if the bend were known, the tap, or else the reference.
func (v *View) why(im image) string {
	all, _ := v.off(im)
	known := mat2{{v.cov[pK1][pK1], v.cov[pK1][pK2]}, {v.cov[pK2][pK1], v.cov[pK2][pK2]}}.inverse()
	bend := 0.0
	for a := range 2 {
		var with geom.Point
		for i := range size {
			with = with.Add(geom.Point{X: im.by[a][i] * v.cov[i][pK1], Y: im.by[a][i] * v.cov[i][pK2]})
		}
		by := known.of(with)
		bend += with.X*by.X + with.Y*by.Y
	}
	switch {
	case bend > all.trace()/2:
		return WhyBend
	case v.tap(im).trace() > all.trace()/2:
		return WhyTap
	}
	return WhyReference
}

// Trust refuses a trace that may be off by more than a limit in mm, and says
// what would help.
func (t Trace) Trust(most float64) error {
	if t.Error <= most {
		return nil
	}
	hints := map[string]string{
		WhyBend:      "Mark points along two lines that are straight in truth, such as edges of the table, near the rim of the picture.",
		WhyTap:       "Take the photo from nearer or with more pixels, and tap under the magnifier.",
		WhyReference: "Use a reference as large as the hide, around it, and take the photo from above.",
	}
	return invalid("it may be off by %.0f mm, more than %.0f: %s", t.Error, most, t.Why).At(fmt.Sprintf("point %d", t.Worst+1)).WithHint(hints[t.Why])
}

// doubt refuses a view under which its own reference may be off by a tenth.
func (v *View) doubt() error {
	for _, p := range v.patches {
		long := 0.0
		for _, a := range p.is {
			for _, b := range p.is {
				long = max(long, a.Distance(b))
			}
		}
		for i, q := range p.q {
			im := v.model.image(q)
			if e := v.reach(v.off(im)); e > long/10 && p.own == 0 {
				return fault.Within(invalid("it may be off by %.0f mm of a reference of %.0f: it is too small in the picture", e, long).At(markName(i)).
					WithHint("Use a larger reference, or take the photo from nearer."), p.name)
			}
		}
	}
	return nil
}
