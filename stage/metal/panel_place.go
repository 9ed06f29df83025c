package metal

import (
	"fmt"
	"math"

	"fettle/engine/flatten/pieces"
	"fettle/geom/mesh"
)

// Forms is what is done to a place of a sheet to form it.
type Forms uint8

// What is done to a place.
const (
	Stretch Forms = iota // hammered on a bag or a stump, or wheeled
	Shrink               // tucked, or shrunk in jaws
	Split                // past what the sheet bears
)

// PanelPlace is one place of a panel that a table names.
type PanelPlace struct {
	Face  int32
	Does  Forms
	Ratio float64 // area over that of its sheet
	Gauge float64 // mm, that is left
	Near  float64 // share of its forming limit
	From  float64 // mm to the nearest edge of the panel
}

// atLimit is the share of the forming limit at which a panel is split.
const atLimit = 0.9

// slight is the change of area that no work is asked for.
const slight = 0.01

// Places are where a panel is stretched and shrunk most, the worst first and
// apart from each other, at most so many of each.
func (p Panel) Places(most int) []PanelPlace {
	m := p.Problem.Surface
	low, high := m.Box()
	apart := high.Sub(low).Length() / 6
	rim := rimOf(m)
	var out []PanelPlace
	for _, want := range []struct {
		does Forms
		of   func(face int) float64
	}{{Stretch, func(i int) float64 { return p.Ratio(i) - 1 }}, {Shrink, func(i int) float64 { return 1/p.Ratio(i) - 1 }}} {
		for _, i := range m.Peaks(want.of, slight, apart, most) {
			one := PanelPlace{Face: i, Does: want.does, Ratio: p.Ratio(int(i)), Gauge: p.Problem.Material.Metal.Thickness / p.Ratio(int(i)), Near: p.Near(int(i)), From: nearest(rim, m.FaceMiddle(int(i)))}
			if one.Near >= atLimit {
				one.Does = Split
			}
			out = append(out, one)
		}
	}
	return out
}

// rimOf are the places of all open edges.
func rimOf(m mesh.Mesh) []mesh.Vec {
	var list []mesh.Vec
	for _, loop := range m.BoundaryLoops() {
		for _, v := range loop {
			list = append(list, m.Points[v])
		}
	}
	return list
}

func nearest(list []mesh.Vec, at mesh.Vec) float64 {
	least := math.Inf(1)
	for _, p := range list {
		least = min(least, p.Sub(at).Length())
	}
	return least
}

// Says is what is done at a place, in words.
func (p PanelPlace) Says() string {
	switch p.Does {
	case Split:
		return "split the panel here, or cut and weld: it comes to its forming limit"
	case Shrink:
		if p.Ratio < 1/1.05 {
			return "shrink much: tucks, or a relief cut"
		}
		return "shrink: tucks or a shrinker"
	}
	if p.Ratio > 1.05 {
		return "stretch much: in passes, annealed between"
	}
	return "stretch: hammer or wheel"
}

// Says is what the panel asks for, in a sentence.
func (p Panel) Says() string {
	f := p.Forming
	if f.Stretched+f.Shrunk < 0.001 {
		return "No place changes by more than 1 %: it is rolled and folded, and dressed by hand."
	}
	words := fmt.Sprintf("%s of it is stretched, %s shrunk by more than 1 %%; the thinnest place is left with %.2f mm.", percent(f.Stretched), percent(f.Shrunk), p.Problem.Material.Metal.Thickness*(1+f.Thin))
	if f.Near > 0 {
		words += fmt.Sprintf(" %s of it comes to its forming limit: in one piece it would neck or split there.", percent(f.Near))
	}
	return words
}

// Joint is a relief cut of a panel: its length on the surface, and both its
// edges on the sheet, which are brought together and welded.
type Joint struct {
	Asked bool // drawn by hand; else it was needed
	On    float64
	Sides [2]float64 // mm
	Opens float64    // mm, the widest that both sides are apart on the sheet
}

// Joints measures every cut, those that were asked for first.
func (p Panel) Joints() []Joint {
	var list []Joint
	for n, s := range pieces.SidesOf(p.Problem.Surface, p.Result) {
		j := Joint{Asked: n < len(p.Problem.Cuts), On: s.On}
		for i, side := range s.Edges {
			for k := range max(len(side)-1, 0) {
				j.Sides[i] += side[k].Distance(side[k+1])
			}
		}
		if len(s.Edges[0]) == len(s.Edges[1]) {
			for k, q := range s.Edges[0] {
				j.Opens = max(j.Opens, q.Distance(s.Edges[1][k]))
			}
		}
		list = append(list, j)
	}
	return list
}
