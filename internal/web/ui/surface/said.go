package surface

import (
	"math"

	"fettle/geom"
	"fettle/geom/mesh"
)

// Said is what the island of the view reads from the page; island/surface/facts.ts
// is the other side.
type Said struct {
	Points   []float64   `json:"points,omitempty"` // x, y, z of each vertex, mm
	Faces    []int32     `json:"faces,omitempty"`
	Paths    [][]int32   `json:"paths"` // all cuts as they are made, by vertex
	Flat     *SaidFlat   `json:"flat"`
	Class    string      `json:"class"` // a digit for each face
	Words    []string    `json:"words"` // by class
	Measures []Measure   `json:"measures"`
	Spots    []SaidSpot  `json:"spots"`
	Lines    [][]float64 `json:"lines"` // across the flat shape: x, y of both ends
	Cut      string      `json:"cut"`   // what a cut is called, such as seam
	Coming   bool        `json:"coming,omitempty"`
}

// SaidFlat is the flat shape, its faces in the order of the solid's.
type SaidFlat struct {
	Points []float64 `json:"points"` // x, y
	Faces  []int32   `json:"faces"`
	Source []int32   `json:"source"`
}

// SaidSpot is a place that a table names.
type SaidSpot struct {
	Face  int32  `json:"face"`
	Label string `json:"label"`
}

// Measure is one figure of every face, in thousandths, with the word that
// follows it.
type Measure struct {
	Word string `json:"word"`
	Of   []int  `json:"of"`
}

// Measured rounds one figure of every face, a share of 1.
func Measured(word string, faces int, of func(face int) float64) Measure {
	m := Measure{Word: word, Of: make([]int, faces)}
	for i := range m.Of {
		m.Of[i] = int(math.Round(of(i) * 1000))
	}
	return m
}

func hundredth(v float64) float64 { return math.Round(v*100) / 100 }

// Said is what the island is told of a board, the solid itself only where the
// page is new.
func (b Board) Said(solid bool) Said {
	d := Said{Paths: [][]int32{}, Measures: []Measure{}, Spots: []SaidSpot{}, Lines: [][]float64{}, Words: b.words(), Cut: b.Cut, Coming: b.Coming}
	if solid {
		for _, p := range b.Solid.Points {
			d.Points = append(d.Points, hundredth(p.X), hundredth(p.Y), hundredth(p.Z))
		}
		d.Faces = corners(b.Solid.Faces)
	}
	if b.Flat == nil {
		return d
	}
	d.Paths = append(d.Paths, b.Solid.Cuts...)
	d.Measures = append(d.Measures, b.Measures...)
	d.Flat = &SaidFlat{Points: places(b.Flat.Points), Faces: corners(b.Flat.Faces), Source: b.Source}
	for _, l := range b.Flat.Lines {
		d.Lines = append(d.Lines, places(l[:]))
	}
	class := make([]byte, len(b.Flat.Class))
	for i, c := range b.Flat.Class {
		class[i] = '0' + byte(c)
	}
	d.Class = string(class)
	for _, s := range b.Flat.Spots {
		d.Spots = append(d.Spots, SaidSpot(s))
	}
	return d
}

func places(list []geom.Point) []float64 {
	out := make([]float64, 0, 2*len(list))
	for _, p := range list {
		out = append(out, hundredth(p.X), hundredth(p.Y))
	}
	return out
}

func corners(faces []mesh.Face) []int32 {
	out := make([]int32, 0, 3*len(faces))
	for _, f := range faces {
		out = append(out, f[:]...)
	}
	return out
}
