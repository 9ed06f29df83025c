package flatten

import (
	"context"
	"slices"

	"fettle/geom"
)

// mount makes the material pass on flat positions and notes its result.
func (n *newton) mount(ctx context.Context, d *disc, at []geom.Point, p Problem, o Options, r *Result) error {
	s, m := n.sheet, *p.Material
	r.Isometric.Outside = s.outsideOf(m, at)
	if r.Status != Interrupted {
		if err := n.bearApart(ctx, d, at, p, o, r); err != nil {
			return err
		}
	}
	r.Faces = faceStrains(s, at)
	if m.Metal != nil {
		s.thicken(at, r.Faces)
	}
	r.Material = sumUp(s, at, r.Faces, d.border)
	r.Material.Outside = s.outsideOf(m, at)
	return nil
}

// bearApart makes the material pass; where that lays the outline over itself,
// which it did not before, once more with a fence along it.
func (n *newton) bearApart(ctx context.Context, d *disc, at []geom.Point, p Problem, o Options, r *Result) (err error) {
	before := slices.Clone(at)
	if r.Status, err = n.bear(ctx, d, at, p, o); err != nil {
		return err
	}
	if n.sheet.fence != nil || r.Isometric.Overlaps > 0 || n.sheet.overlaps(at, d.border) == 0 {
		return nil
	}
	copy(at, before)
	n.sheet.fence = newFence(n.sheet, d.border)
	r.Status, err = n.bear(ctx, d, at, p, o)
	return err
}

// outsideOf returns the share of the area that is outside what the material
// bears by more than a hair: of leather and vinyl beyond the limits in any
// direction, of cloth along its threads or beyond their lock, of sheet metal
// within a tenth of its forming limit.
func (s *sheet) outsideOf(m Material, at []geom.Point) float64 {
	var sum float64
	for i := range s.faces {
		if m.beyond(s.jacobian(i, at)) > hair {
			sum += s.rest[i].Area
		}
	}
	return sum / s.area
}

// beyond returns the log strain by which a face is beyond what the material
// bears, 0 within.
func (m Material) beyond(j jacobian) float64 {
	if m.Metal != nil {
		large, small := stretches(j)
		return max(0, 1/small-1-nearLimit*m.Metal.Limit(1/large-1))
	}
	if m.Lock > 0 {
		return wovenOf(m).excess(j)
	}
	return m.excess(j.stretching().log())
}

// thicken fills in the thickness of a sheet of metal, whose volume stays.
func (s *sheet) thicken(at []geom.Point, faces []FaceStrain) {
	for i := range faces {
		faces[i].Thick = s.jacobian(i, at).det() - 1
	}
}
