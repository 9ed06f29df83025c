package drawn

import (
	"fettle/build"
	"fettle/geom"
	"fettle/unit"
)

// preferred lists the views in which a thing on a side is looked for.
func preferred(side string) []string {
	if side == "R" {
		return []string{"right", "left", "rear", "front", "top", "inside"}
	}
	return []string{"left", "right", "rear", "front", "top", "inside"}
}

// spot is where a finding is shown.
type spot struct {
	finding build.Finding
	view    string
	at      geom.Point
}

func spotsOf(b *build.Build) []spot {
	var out []spot
	for _, f := range b.Findings {
		if len(f.Panels) == 0 {
			continue
		}
		p := b.Panel(f.Panels[0])
		if p == nil {
			continue
		}
		if id := Shows(b, p); id != "" {
			out = append(out, spot{f, id, place(b, p, id, f.X, f.Z)})
		}
	}
	return out
}

// near is how far a point may lie off its panel before the panel's middle is
// the better place for it, in mm: opened-up views fold panels out of place.
const near = 40

// place puts a finding into the plane of a view. Only x and z are known, so a
// view that shows y takes it from the middle of the panel.
func place(b *build.Build, p *build.Panel, view string, x, z unit.Length) geom.Point {
	shape, err := geom.ParsePath(outline(*p, view))
	if err != nil {
		return geom.Point{X: x.Mm(), Y: z.Mm()}
	}
	mid := shape.Centroid()
	at := mid
	switch planeOf(b, view) {
	case "xz":
		return geom.Point{X: x.Mm(), Y: z.Mm()}
	case "yz":
		at.Y = z.Mm()
	default:
		at.X = x.Mm()
	}
	if shape.Distance(at) > near {
		return inside(shape, mid)
	}
	return at
}

// inside returns a point of the shape, as near the middle as a few steps find:
// the middle of a frame lies in its opening.
func inside(shape geom.Path, mid geom.Point) geom.Point {
	best, least := mid, shape.Distance(mid)
	box := shape.Bounds()
	for i := 0; i <= 24 && least > 0; i++ {
		t := float64(i) / 24
		for _, q := range []geom.Point{{X: box.Min.X + t*box.Width(), Y: mid.Y}, {X: mid.X, Y: box.Min.Y + t*box.Height()}} {
			if d := shape.Distance(q); d < least {
				best, least = q, d
			}
		}
	}
	return best
}

// Middle returns the place of a finding in the middle of a panel, as x and z in
// mm, each from the first view that shows it. What no view shows is taken from
// the panel's last finding, or is zero.
func Middle(b *build.Build, p *build.Panel) (x, z float64) {
	for _, f := range b.Findings {
		if len(f.Panels) > 0 && f.Panels[0] == p.ID {
			x, z = f.X.Mm(), f.Z.Mm()
		}
	}
	at, known := Centre(b, p)
	if known[0] {
		x = at[0]
	}
	if known[2] {
		z = at[2]
	}
	return x, z
}

// Centre returns the middle of a panel as x, y and z in mm, each from the first
// view that shows it, and which of them any view shows.
func Centre(b *build.Build, p *build.Panel) (at [3]float64, known [3]bool) {
	for _, id := range preferred(p.Side) {
		shape, err := geom.ParsePath(outline(*p, id))
		if err != nil || shape.Empty() {
			continue
		}
		mid := inside(shape, shape.Centroid())
		plane := planeOf(b, id)
		for k, v := range [2]float64{mid.X, mid.Y} {
			if axis := int(plane[k]) - 'x'; axis >= 0 && axis < 3 && !known[axis] {
				at[axis], known[axis] = v, true
			}
		}
	}
	return at, known
}

// planeOf returns the two axes of a view; one that is not known has neither.
func planeOf(b *build.Build, id string) string {
	for _, v := range b.Views {
		if v.ID == id && len(v.Plane) == 2 {
			return v.Plane
		}
	}
	return "--"
}
