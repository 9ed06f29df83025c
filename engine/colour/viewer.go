package colour

// XYZ is a colour as three tristimulus values; white has Y 100.
type XYZ struct{ X, Y, Z float64 }

// Viewer is an observer under a light: a weight a band, and the white that
// the same weights give to a perfect diffuser. It is never altered, so many
// may use it at once.
type Viewer struct {
	Name    string
	weights [Bands]XYZ
	white   XYZ
	screen  matrix // XYZ as seen here → linear sRGB of the same look
}

// NewViewer weighs each band by light times observer, k = 100 ÷ Σ S·ȳ, and
// takes the white from the same sum [CIE15].
//
// Daylight and lamp are summed plainly at 10 nm. The lines of a tube lie
// between the bands: its sum is taken at 5 nm, with reflectance at the rows
// between put in by the cubic through four neighbours (at the ends the
// parabola through three), and folded into the weights of the bands.
func NewViewer(l Light, o Observer) *Viewer {
	v := &Viewer{Name: l.Name + ", " + o.Name}
	for j := range fine {
		w := o.bars[j].times(l.power[j])
		switch i := j / 2; {
		case j%2 == 0:
			v.weights[i] = v.weights[i].plus(w)
		case l.lines:
			at, part := between(i)
			for k, p := range part {
				v.weights[at+k] = v.weights[at+k].plus(w.times(p))
			}
		}
	}
	sum := 0.0
	for _, w := range v.weights {
		sum += w.Y
	}
	for i, w := range v.weights {
		v.weights[i] = w.times(100 / sum)
		v.white = v.white.plus(v.weights[i])
	}
	v.screen = fromXYZ.of(bradford(v.white, screenWhite))
	return v
}

// between returns the first band and the parts of four bands that make up
// reflectance halfway between bands i and i+1.
func between(i int) (int, [4]float64) {
	switch i {
	case 0:
		return 0, [4]float64{3. / 8, 6. / 8, -1. / 8, 0}
	case Bands - 2:
		return Bands - 4, [4]float64{0, -1. / 8, 6. / 8, 3. / 8}
	}
	return i - 1, [4]float64{-1. / 16, 9. / 16, 9. / 16, -1. / 16}
}

// XYZ returns the tristimulus values of a reflectance.
func (v *Viewer) XYZ(s Spectrum) XYZ {
	var c XYZ
	for i := range s {
		w := &v.weights[i]
		c.X += w.X * s[i]
		c.Y += w.Y * s[i]
		c.Z += w.Z * s[i]
	}
	return c
}

// White returns the tristimulus values of a perfect diffuser.
func (v *Viewer) White() XYZ { return v.white }

// Lab returns the colour of a reflectance relative to this viewer's white.
func (v *Viewer) Lab(s Spectrum) Lab { return v.XYZ(s).Lab(v.white) }

func (c XYZ) plus(d XYZ) XYZ      { return XYZ{c.X + d.X, c.Y + d.Y, c.Z + d.Z} }
func (c XYZ) times(f float64) XYZ { return XYZ{c.X * f, c.Y * f, c.Z * f} }
