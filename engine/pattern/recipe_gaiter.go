package pattern

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Gaiter is the sleeve round a lever, from its ring at the floor to its collar.
type Gaiter struct {
	Foot   Given // mm round the ring at the floor
	Head   Given // mm round the collar
	Height Given // mm between them, the lever upright
	Travel Given // mm that the collar moves to one side; 0
	Panels int   // flat panels with seams between; 0 or 1 for a cone with one seam
}

// GaiterPattern is what a Gaiter comes to.
type GaiterPattern struct {
	Slant Amount  `json:"slant"` // along the sewn side, the lever's way included, mm
	Angle Amount  `json:"angle"` // of the sector, 0 for panels, degrees
	Piece Piece   `json:"piece"` // its quantity is the number of panels
	Flare float64 `json:"-"`     // radius of the foot less that of the head, mm
}

// Pattern returns the development of a gaiter: the sector of a ring for a cone,
// a trapezoid for each panel of a pyramid. The slant is taken to the collar at
// the far end of its way, so that the lever reaches it.
func (g Gaiter) Pattern() (GaiterPattern, error) {
	var out GaiterPattern
	if g.Panels < 0 || g.Panels == 2 || g.Panels > 24 {
		return out, fault.New(fault.Invalid, "a gaiter of %d panels", g.Panels).At("gaiter").WithHint("one for a cone, three or more for a pyramid")
	}
	var s sum
	foot := s.take(g.Foot, asked{name: "round the foot", unit: "mm", low: 30, high: 5000, why: "a tape round the ring"})
	head := s.take(g.Head, asked{name: "round the head", unit: "mm", low: 20, high: 5000, why: "a tape round the collar"})
	height := s.take(g.Height, asked{name: "height", unit: "mm", low: 5, high: 2000, why: "from ring to collar, the lever upright"})
	travel := s.take(g.Travel, asked{name: "way of the collar", unit: "mm", low: 0, high: 1000, has: true, why: "it stays where it is"})
	if s.err == nil && head > foot {
		s.err = fault.New(fault.Invalid, "a head of %g mm over a foot of %g mm", head, foot).At("round the head").WithHint("turn it over: the wider end is the foot")
	}
	n, turn := max(g.Panels, 1), 2*math.Pi
	formula, how := "√(height² + ((foot − head) ÷ 2π + way)²)", "2π"
	if n > 1 { // from the middle of a side of the foot to that of the head
		turn = 2 * float64(n) * math.Tan(math.Pi/float64(n))
		formula, how = "√(height² + ((foot − head) ÷ (2 n tan 180°/n) + way)²)", num(turn, 3)
	}
	flare := (foot-head)/turn + travel
	slant := math.Hypot(height, flare)
	var err error
	if out.Slant, err = s.is("slant", slant, "mm", 1, formula, fmt.Sprintf("√(%s² + ((%s − %s) ÷ %s + %s)²)", num(height, 1), num(foot, 1), num(head, 1), how, num(travel, 1))); err != nil {
		return out, err
	}
	out.Flare = flare
	out.Slant = out.Slant.careful("Try a mock-up through every gear, stop to stop, before leather is cut: a gaiter that pulls the lever out of gear is dangerous.")
	if n > 1 {
		out.Piece = trapezoid("gaiter", "gaiter panel", foot/float64(n), head/float64(n), slant)
		out.Piece.Quantity = n
		return out, nil
	}
	return out, out.cone(foot, head, slant)
}

// cone draws the sector: arcs of the true length round foot and head, slant
// apart. A sleeve that hardly flares is a rectangle.
func (out *GaiterPattern) cone(foot, head, slant float64) (err error) {
	angle := (foot - head) / slant
	var s sum
	s.worked("slant", out.Slant)
	if out.Angle, err = s.is("angle of the sector", angle*180/math.Pi, "°", 1, "(foot − head) ÷ slant", fmt.Sprintf("(%s − %s) ÷ %s = %s rad", num(foot, 1), num(head, 1), num(slant, 1), num(angle, 4))); err != nil {
		return err
	}
	if angle > 1.999*math.Pi {
		return fault.New(fault.Invalid, "it is so flat that its development closes on itself").At("gaiter").WithHint("make it of two halves or of panels")
	}
	if angle < 1e-3 {
		out.Piece = trapezoid("gaiter", "gaiter", foot, head, slant)
		return nil
	}
	outer, inner := foot/angle, head/angle
	chords := int(max(8, math.Ceil(angle/(2*math.Acos(1-0.02/outer))))) // 0.02 mm off the arc
	p := Piece{ID: "gaiter", Name: "gaiter", Line: Line{}.arc(outer, -angle/2, angle/2, chords).arc(inner, angle/2, -angle/2, chords)}
	p.Edges = []Edge{{Name: "foot", From: 0, Kind: Plain}, {Name: "right", From: chords, Kind: Plain}, {Name: "head", From: chords + 1, Kind: Plain}, {Name: "left", From: 2*chords + 1, Kind: Plain}}
	out.Piece = p
	return nil
}
