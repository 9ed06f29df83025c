package trim

import (
	"math"

	"fettle/internal/web/ui/surface"
)

// flatSaid is what the island of the pattern view reads from the page;
// island/surface/facts.ts is the other side.
type flatSaid struct {
	Points []float64  `json:"points,omitempty"` // x, y, z of each vertex
	Faces  []int32    `json:"faces,omitempty"`
	Paths  [][]int32  `json:"paths"`
	Flat   *flatLines `json:"flat"`
	Class  string     `json:"class"`
	Along  []int      `json:"along"` // of each face, in thousandths
	Across []int      `json:"across"`
	Spots  []flatSpot `json:"spots"`
}

type flatLines struct {
	Points []float64 `json:"points"` // x, y
	Faces  []int32   `json:"faces"`
	Source []int32   `json:"source"`
}

type flatSpot struct {
	Face  int32  `json:"face"`
	Label string `json:"label"`
}

func hundredth(v float64) float64 { return math.Round(v*100) / 100 }

// data is what the island knows; the solid only where the page is new.
func (page flatPage) data(solid bool) flatSaid {
	d := flatSaid{Paths: [][]int32{}, Along: []int{}, Across: []int{}, Spots: []flatSpot{}}
	if solid {
		for _, p := range page.Mesh.Points {
			d.Points = append(d.Points, hundredth(p.X), hundredth(p.Y), hundredth(p.Z))
		}
		for _, f := range page.Shown.Solid {
			d.Faces = append(d.Faces, f[0], f[1], f[2])
		}
	}
	if page.Flat == nil {
		return d
	}
	d.Paths = append(d.Paths, page.Flat.Result.Cuts...)
	d.Flat = &flatLines{Source: page.Flat.Result.Flat.Source}
	points, class := page.Flat.Result.Flat.Points, make([]byte, len(page.Shown.Of))
	for _, p := range points {
		d.Flat.Points = append(d.Flat.Points, hundredth(p.X), hundredth(p.Y))
	}
	for i, f := range page.Shown.Flat {
		d.Flat.Faces = append(d.Flat.Faces, f[0], f[1], f[2])
		class[i] = '0' + byte(page.Class[page.Shown.Of[i]])
		s := page.Flat.Result.Faces[page.Shown.Of[i]]
		d.Along = append(d.Along, int(math.Round(s.Along*1000)))
		d.Across = append(d.Across, int(math.Round(s.Across*1000)))
	}
	d.Class = string(class)
	for _, s := range page.shownSpots() {
		d.Spots = append(d.Spots, flatSpot(s))
	}
	return d
}

// tint is one tone of one class, from which the island takes its paints.
type tint struct{ Class, Light int }

func tints() []tint {
	var list []tint
	for c := range surface.Classes {
		for l := range surface.Lights {
			list = append(list, tint{c, l})
		}
	}
	return list
}
