package metal

import (
	"context"
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/flatten"
	"fettle/engine/flatten/longflat"
	"fettle/engine/flatten/pieces"
	"fettle/fault"
	"fettle/figure"
	"fettle/geom/mesh"
	"fettle/takeoff"
	"fettle/unit"
)

// PanelAsk is what is asked of a surface that is made of sheet. Cuts are places
// that each cut goes through, by vertex, along the shortest edges between them.
type PanelAsk struct {
	Grade  string
	Gauge  unit.Length
	Mirror bool // a scan of the other side is turned into this one
	Cuts   [][]int32
}

// Panel is a surface laid flat for sheet metal.
type Panel struct {
	Problem flatten.Problem
	Result  flatten.Result
	Areas   []float64 // of each face of the surface, mm²
	Forming flatten.Forming
	Bends   []flatten.Bend // where folding takes the place of stretching
}

// foldRadius is the largest radius that is taken for a fold, in gauges.
const foldRadius = 15

// PanelProblem is what is asked, as the engine takes it.
func PanelProblem(m mesh.Mesh, a PanelAsk) (flatten.Problem, error) {
	steel, err := flatten.Sheet(a.Grade, a.Gauge.Mm())
	if err != nil {
		return flatten.Problem{}, err
	}
	if a.Mirror {
		m = mirrored(m)
	}
	p := flatten.Problem{Surface: m, Material: &steel}
	near := m.Adjacency()
	for i, cut := range a.Cuts {
		path, err := m.Through(near, cut)
		if err != nil {
			return p, fault.Within(err, fmt.Sprintf("cut %d", i+1))
		}
		p.Cuts = append(p.Cuts, path)
	}
	return p, nil
}

// PanelOrder is laying it flat, or the search for relief cuts, as a job takes
// it.
func PanelOrder(p flatten.Problem, propose bool) longflat.Order {
	o := longflat.Order{Surface: mesh.Pack(p.Surface), Cuts: p.Cuts, Material: p.Material, Propose: propose, Seed: 1}
	if propose {
		hand := handFormed(*p.Material.Metal)
		o.Material = &hand
	}
	return o
}

// easily is how far a hand stretches or shrinks sheet one way before a relief
// cut is the easier: a twentieth, a habit of the bench and an assumption.
const easily = 0.05

// handFormed is what a sheet bears in the hand, as a material for the search of
// cuts: formed either way no further than is easy, or than it bears.
func handFormed(m flatten.Metal) flatten.Material {
	most := min(easily, atLimit*m.Limit(0))
	return flatten.Material{Name: m.Grade + " formed by hand", Tension: [2]float64{most, most}, Squeeze: [2]float64{easily, easily}, Stiffness: [2]float64{1, 1}, Poisson: 0.5, Shear: 1.0 / 3, Slack: 1}
}

// PanelOf is a surface that was laid flat as asked.
func PanelOf(p flatten.Problem, r flatten.Result) Panel {
	steel := p.Material.Metal
	out := Panel{Problem: p, Result: r, Areas: p.Surface.FaceAreas()}
	out.Forming = flatten.Formed(*steel, r.Faces, out.Areas)
	out.Bends = flatten.Bends(p.Surface, r.Flat, foldRadius*steel.Thickness)
	return out
}

// LayPanel lays a surface flat for a steel.
func LayPanel(ctx context.Context, m mesh.Mesh, a PanelAsk) (Panel, error) {
	p, err := PanelProblem(m, a)
	if err != nil {
		return Panel{}, err
	}
	l, err := pieces.Lay(ctx, p, flatten.Options{Seed: 1})
	if err != nil {
		return Panel{}, err
	}
	return PanelOf(p, l.Result), nil
}

// mirrored is the other hand of a surface, its outside still outside.
func mirrored(m mesh.Mesh) mesh.Mesh {
	out := mesh.Mesh{Points: slices.Clone(m.Points), Faces: slices.Clone(m.Faces)}
	for i := range out.Points {
		out.Points[i].Y = -out.Points[i].Y
	}
	for i, f := range out.Faces {
		out.Faces[i] = mesh.Face{f[0], f[2], f[1]}
	}
	return out
}

// Ratio is the area of a face over that of the sheet it is made of: above 1 it
// is stretched, below 1 it is shrunk.
func (p Panel) Ratio(face int) float64 { return 1 / (1 + p.Result.Faces[face].Thick) }

// Near is how near a face comes to its forming limit; 1 is at it.
func (p Panel) Near(face int) float64 {
	s := p.Result.Faces[face].Stretch
	return s[0] / p.Problem.Material.Metal.Limit(s[1])
}

func percent(share float64) string { return fmt.Sprintf("%.1f %%", 100*share) }

// outdated says which blanks were laid flat from a scan that another took the
// place of.
func outdated(b *build.Build) []takeoff.Check {
	var checks []takeoff.Check
	for _, blank := range b.Blanks {
		s := b.Surface(blank.Surface)
		if s == nil || s.Scan == blank.Scan || blank.Left() == 0 {
			continue
		}
		checks = append(checks, takeoff.Check{ID: "scan/" + string(blank.ID), Weight: takeoff.Slipping, Link: "metal/surface/" + string(s.ID),
			Says:   fmt.Sprintf("blank %s was laid flat from an older scan of surface %s", blank.ID, s.ID),
			Do:     "lay the surface flat anew and keep it, before it is cut",
			Figure: figure.Figure{Name: "scan", Text: "older", Formula: "the scan that the blank names is not the surface's", With: string(blank.Scan[:8]) + " is not " + string(s.Scan[:8]), Caution: edgesCut}})
	}
	return checks
}

// Grades are the steels that a panel can be laid flat for, the plainest first.
func Grades() []string { return flatten.Grades() }
