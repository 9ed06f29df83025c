package metal

import (
	"math"

	"fettle/build"
	"fettle/geom"
)

// Section is a folded blank seen along its bends: both faces from the edge of
// the first flange to that of the last, x to the right along the first flange,
// y up, mm.
type Section struct {
	Upper, Lower []geom.Point
	Flanges      []Run // the straight parts
}

// Run is the straight part of a flange along the middle of the sheet.
type Run struct{ From, To geom.Point }

// Outline is the section as a ring.
func (s Section) Outline() geom.Ring {
	ring := append(geom.Ring{}, s.Upper...)
	for i := len(s.Lower) - 1; i >= 0; i-- {
		ring = append(ring, s.Lower[i])
	}
	return ring
}

// arcSteps is how many chords a square bend has in a drawing.
const arcSteps = 12

// shut is the angle to which a hem that is pressed flat is drawn, and no bend is
// drawn sharper than an eighth of the gauge, so that two layers can be told
// apart.
const shut = 176

// SectionOf is the section of a blank with all its bends made.
func SectionOf(blank build.Blank, u Unfolded) Section {
	made := make([]float64, len(u.Lines))
	for i, l := range u.Lines {
		made[i] = l.Bend.Angle
		if 4*l.Bend.Radius < blank.Gauge {
			made[i] = min(made[i], shut)
		}
	}
	return sectionAt(blank, u, made)
}

// sectionAt is the section with bends made to these angles; 0 is not made yet:
// there the sheet lies straight for what the bend will take.
func sectionAt(blank build.Blank, u Unfolded, made []float64) Section {
	t := blank.Gauge.Mm()
	p := pen{half: t / 2}
	for i := range blank.Profile.Flanges {
		from := p.at
		p.put()
		p.forward(blank.Profile.Straight(i, blank.Gauge))
		p.put()
		p.s.Flanges = append(p.s.Flanges, Run{from, p.at})
		if i == len(u.Lines) {
			break
		}
		line := u.Lines[i]
		if made[i] == 0 {
			p.forward(line.takes())
			continue
		}
		p.turn(made[i]*math.Pi/180, max(line.Bend.Radius.Mm(), t/8)+t/2, line.Bend.Down)
	}
	return p.s
}

// pen draws the middle of the sheet and both faces beside it.
type pen struct {
	at      geom.Point
	heading float64 // radians anticlockwise
	half    float64 // gauge
	s       Section
}

func (p *pen) put() {
	n := geom.Point{X: -math.Sin(p.heading), Y: math.Cos(p.heading)}
	p.s.Upper = append(p.s.Upper, geom.Point{X: p.at.X + float64(p.half*n.X), Y: p.at.Y + float64(p.half*n.Y)})
	p.s.Lower = append(p.s.Lower, geom.Point{X: p.at.X - float64(p.half*n.X), Y: p.at.Y - float64(p.half*n.Y)})
}

func (p *pen) forward(d float64) {
	p.at.X += float64(d * math.Cos(p.heading))
	p.at.Y += float64(d * math.Sin(p.heading))
}

// turn follows an arc of the middle line.
func (p *pen) turn(angle, radius float64, down bool) {
	side := 1.0
	if down {
		side = -1
	}
	steps := max(int(math.Ceil(angle/(math.Pi/2)*arcSteps)), 1)
	each := angle / float64(steps)
	chord := 2 * radius * math.Sin(each/2)
	for range steps {
		p.heading += side * each / 2
		p.forward(chord)
		p.heading += side * each / 2
		p.put()
	}
}

// Level is the section turned so that its longest flange runs to the right.
func (s Section) Level() Section {
	var along geom.Point
	for _, r := range s.Flanges {
		if d := r.To.Sub(r.From); math.Hypot(d.X, d.Y) > math.Hypot(along.X, along.Y)+1e-6 {
			along = d
		}
	}
	long := math.Hypot(along.X, along.Y)
	if long == 0 {
		return s
	}
	c, n := along.X/long, along.Y/long
	turn := func(p geom.Point) geom.Point {
		return geom.Point{X: float64(p.X*c) + float64(p.Y*n), Y: float64(p.Y*c) - float64(p.X*n)}
	}
	out := Section{Upper: make([]geom.Point, len(s.Upper)), Lower: make([]geom.Point, len(s.Lower)), Flanges: make([]Run, len(s.Flanges))}
	for i := range s.Upper {
		out.Upper[i], out.Lower[i] = turn(s.Upper[i]), turn(s.Lower[i])
	}
	for i, r := range s.Flanges {
		out.Flanges[i] = Run{turn(r.From), turn(r.To)}
	}
	return out
}

// Crosses tells whether the folded part would run into itself.
func (s Section) Crosses() bool { return geom.Polygon{Outer: s.Outline().Tidy()}.Check() != nil }
