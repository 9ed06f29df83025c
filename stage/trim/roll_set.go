package trim

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/nest"
	"fettle/fault"
	"fettle/geom"
)

// RollOf is the roll of a material that comes by the metre, or nil.
func RollOf(b *build.Build, material string) *build.Roll {
	for i := range b.Rolls {
		if b.Rolls[i].Material == material {
			return &b.Rolls[i]
		}
	}
	return nil
}

// unroll takes the roll to cut from: x runs along it from its squared end, y
// across it.
func (s *Set) unroll() {
	r := s.Roll
	s.Hides = []build.HideID{""}
	s.problem.Kind, s.problem.Clearance = nest.Strip, r.Gap.Mm()
	s.problem.Containers = []nest.Container{{ID: string(r.ID), Height: r.Width.Mm(), Margin: r.Edge.Mm(), Count: 1,
		Repeat: nest.Repeat{X: r.Repeat.Mm(), Y: r.Across.Mm(), Phase: geom.Point{X: r.Begins[0].Mm(), Y: r.Begins[1].Mm()}}}}
}

// turnsOn lists how a pattern may be turned on a roll: its tight direction, or
// the nap, along the roll, with a half turn where there is no nap; by quarter
// turns where it may lie as it likes.
func turnsOn(r build.Roll, c Cut) []float64 {
	along := 0 - c.Axis().Angle // not −0
	switch {
	case r.Nap:
		return []float64{along}
	case c.Axis().Known():
		return []float64{along, along + 180}
	}
	return []float64{along, along + 90, along + 180, along + 270}
}

// matchOn is how a pattern keeps to that of the roll; nil where either has none.
func matchOn(r build.Roll, c Cut) *nest.Match {
	m := nest.Match{X: c.Piece.Match.Along && r.Repeat > 0, Y: c.Piece.Match.Across && r.Across > 0}
	if !m.X && !m.Y {
		return nil
	}
	m.Anchor = c.anchor()
	return &m
}

// narrow is a fault where a pattern is wider than the roll in every turn it may
// lie in.
func (s *Set) narrow() error {
	if s.Roll == nil {
		return nil
	}
	m := s.problem.Containers[0]
	var wide []string
	for _, p := range s.problem.Pieces {
		fits := slices.ContainsFunc(p.Rotations, func(turn float64) bool {
			return nest.Placement{Rotation: turn}.Lay(p.Shape).Bounds().Height() <= m.Height-2*m.Margin+1e-6
		})
		if !fits {
			wide = append(wide, p.ID)
		}
	}
	if len(wide) > 0 {
		return fault.New(fault.Invalid, "wider than roll %s between its edges: %s", s.Roll.ID, strings.Join(wide, ", ")).WithHint("join them, cut them from a wider roll, or say that they may lie otherwise")
	}
	return nil
}

// where says what copies lie on.
func (s *Set) where(hide build.HideID) string {
	if s.Roll != nil && hide == "" {
		return fmt.Sprintf("roll %s", s.Roll.ID)
	}
	return fmt.Sprintf("hide %s", hide)
}
