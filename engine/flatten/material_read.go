package flatten

import (
	"context"

	"fettle/geom"
)

// mount makes the material pass on flat positions and notes its result.
func (n *newton) mount(ctx context.Context, d *disc, at []geom.Point, p Problem, o Options, r *Result) error {
	s, m := n.sheet, *p.Material
	r.Isometric.Outside = s.outsideOf(m, at)
	if r.Status != Interrupted {
		status, err := n.bear(ctx, d, at, p, o)
		if err != nil {
			return err
		}
		r.Status = status
	}
	r.Faces = faceStrains(s, at)
	if m.Metal != nil {
		s.thicken(at, r.Faces)
	}
	r.Material = sumUp(s, at, r.Faces, d.boundary)
	r.Material.Outside = s.outsideOf(m, at)
	return nil
}

// outsideOf returns the share of the area that is outside what the material
// bears: of leather, vinyl and cloth beyond the limits in any direction, of
// sheet metal within a tenth of its forming limit.
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
	return m.excess(j.stretching().log())
}

// thicken fills in the thickness of a sheet of metal, whose volume stays.
func (s *sheet) thicken(at []geom.Point, faces []FaceStrain) {
	for i := range faces {
		faces[i].Thick = s.jacobian(i, at).det() - 1
	}
}
