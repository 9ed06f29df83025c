package lens

import (
	"math"

	"fettle/geom"
)

// View is how a photo shows the table.
type View struct {
	*fit
	model model
	cov   matrix  // of the model
	taps  matrix  // the part of it that the noise of taps brings
	spare float64 // measurements beyond those that the parameters took up
}

// weigh works out the covariance of the parameters and the noise of a tap:
// what was judged of it counts for tapRecords measurements.
func (v *View) weigh() error {
	rows, ok := v.rows(v.theta)
	if !ok {
		return swapped(v.patches[0].name)
	}
	n := v.normals(rows, v.theta)
	low, ok := cholesky(n.m)
	if !ok {
		return invalid("what is marked does not tell how the camera stood: the marks lie nearly on one line").
			WithHint("Marks must span an area; with one stick only, take the photo square on and say so.")
	}
	all := low.inverse()
	w := 1 / (v.noise * v.noise)
	v.cov, v.taps = newMatrix(size), newMatrix(size)
	for i := range size {
		copy(v.cov[i], all[i][:size])
	}
	left := 0.0
	v.spare = 0
	for _, r := range rows {
		gain := low.solve(r.by) // how the parameters follow this measurement, times the noise squared
		free := 1.0
		for i, g := range gain {
			free -= w * g * r.by[i]
		}
		tape := r.tape * r.tape
		left += r.off*r.off - tape*free
		v.spare += free
		for i := range size {
			for j := range size {
				v.cov[i][j] += tape * w * w * gain[i] * gain[j]
				v.taps[i][j] += w * gain[i] * gain[j]
			}
		}
	}
	judged := v.scene.Noise
	if judged == 0 {
		judged = Usual(v.scene.Width, v.scene.Height)
	}
	v.noise = math.Sqrt((tapRecords*judged*judged + max(left, 0)) / (tapRecords + v.spare))
	if v.noise > worstNoise*judged {
		return v.blame(rows, judged)
	}
	return nil
}

// blame names the measurement that is off most.
func (v *View) blame(rows []row, judged float64) error {
	worst := rows[0]
	for _, r := range rows {
		if math.Abs(r.off) > math.Abs(worst.off) {
			worst = r
		}
	}
	return invalid("it lies %.0f pixels from where the others put it; a tap is off by about %.1f", math.Abs(worst.off), judged).At(worst.of).
		WithHint("Mark it again, and look at the sizes that were typed.")
}

// Noise returns the noise of a tap that the errors count with, in pixels, and
// how many measurements beyond the needed it was estimated from, the judged
// noise counting for four more.
func (v *View) Noise() (pixels, spare float64) { return v.noise, v.spare }

// Bend returns the bend of the lens: k1 and k2, as shares of the way from the
// middle of the picture at half a diagonal.
func (v *View) Bend() (k1, k2 float64) { return v.model[pK1], v.model[pK2] }

// Place is a point of the table, in mm of the largest reference's drawing, and
// how far it may be off in 95 of 100 cases.
type Place struct {
	geom.Point
	Error float64
}

// At maps a place of the picture, in pixels.
func (v *View) At(p geom.Point) (Place, error) {
	im, err := v.image(p)
	if err != nil {
		return Place{}, err
	}
	return Place{im.at, v.reach(v.off(im))}, nil
}

// off is the covariance of a place, and the part of its trace that taps bring.
func (v *View) off(im image) (mat2, float64) {
	tap := v.tap(im)
	all, taps := spread(v.cov, im.by).plus(tap), spread(v.taps, im.by).plus(tap)
	return all, taps.trace() / all.trace()
}

func (v *View) image(p geom.Point) (image, error) {
	if !v.scene.holds(p) {
		return image{}, invalid("it lies outside the picture, at %.0f, %.0f", p.X, p.Y)
	}
	im := v.model.image(v.q(p))
	if !im.seen {
		return im, invalid("it lies at the horizon of the table, or beyond: the photo cannot tell where").
			WithHint("Take the photo from higher up.")
	}
	return im, nil
}

// spread is the covariance of a place that follows the parameters so.
func spread(cov matrix, by [2][size]float64) mat2 {
	var c mat2
	for i, row := range cov {
		for j, s := range row {
			for a := range 2 {
				c[a][0] += by[a][i] * s * by[0][j]
				c[a][1] += by[a][i] * s * by[1][j]
			}
		}
	}
	return c
}

// tap is the covariance that the tap on a place itself brings.
func (v *View) tap(im image) mat2 {
	k := v.noise / v.half
	j := im.byQ
	c := j.mul(mat2{{j[0][0], j[1][0]}, {j[0][1], j[1][1]}})
	for a := range c {
		for b := range c[a] {
			c[a][b] *= k * k
		}
	}
	return c
}

func (m mat2) trace() float64 { return m[0][0] + m[1][1] }

// along is the variance along a direction.
func (m mat2) along(d geom.Point) float64 {
	p := m.of(d)
	return d.X*p.X + d.Y*p.Y
}

func (m mat2) plus(n mat2) mat2 {
	return mat2{{m[0][0] + n[0][0], m[0][1] + n[0][1]}, {m[1][0] + n[1][0], m[1][1] + n[1][1]}}
}

// Between returns the distance on the table of two places of the picture, and
// its error, in mm: to measure back what the tape says.
func (v *View) Between(p, q geom.Point) (mm, off float64, err error) {
	a, err := v.image(p)
	if err != nil {
		return 0, 0, err
	}
	b, err := v.image(q)
	if err != nil {
		return 0, 0, err
	}
	way := b.at.Sub(a.at)
	mm = math.Hypot(way.X, way.Y)
	along := way.Scale(1 / max(mm, 1e-9))
	var by [size]float64
	for i := range size {
		by[i] = along.X*(b.by[0][i]-a.by[0][i]) + along.Y*(b.by[1][i]-a.by[1][i])
	}
	return mm, v.width(by, v.tap(a).plus(v.tap(b)).along(along)), nil
}
