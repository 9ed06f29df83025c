package pattern

import (
	"fmt"

	"fettle/fault"
	"fettle/geom"
)

// DefaultMitre is how far a tip may lie from its corner, in allowances: corners
// of 60° and wider keep their point.
const DefaultMitre = 2

// Cut is the line along which a piece is cut.
type Cut struct {
	Line Line         `json:"line"`
	Near float64      `json:"near_mm"`        // how much nearer than its allowance the worst place lies
	Far  float64      `json:"far_mm"`         // how much further, mitres left out
	Shut [][2]float64 `json:"shut,omitempty"` // gaps of the sewn line that the allowances of both sides fill
}

// Cut offsets every edge of a piece by its own allowance. The offsets of two
// edges meet in a point; a tip further from its corner than mitre allowances (0
// for the default, else 1 or more) is cut off squarely there; inner corners and
// hollow curves are trimmed. The line is checked before it is handed out.
func (p Piece) Cut(mitre float64) (Cut, error) {
	if err := p.Check(); err != nil {
		return Cut{}, err
	}
	if mitre == 0 {
		mitre = DefaultMitre
	}
	if !(mitre >= 1 && mitre <= 20) {
		return Cut{}, fault.New(fault.Invalid, "a mitre of %g allowances", mitre).At("mitre").WithHint("1 to 20; 2 keeps the point of corners of 60° and wider")
	}
	f := fence{p.Line, p.allowances(), mitre}
	joints := f.joints()
	if line, ok := f.straight(joints); ok {
		if c, err := p.CheckCut(line, mitre); err == nil {
			return c, nil
		}
	}
	line, shut, err := f.united(joints)
	if err != nil {
		return Cut{}, fault.Within(err, "piece "+p.ID)
	}
	c, err := p.CheckCut(line, mitre)
	if err != nil {
		return Cut{}, &fault.Fault{Kind: fault.Internal, Where: "piece " + p.ID, Msg: "the cut line does not hold: " + err.Error(), Cause: err}
	}
	for _, q := range shut {
		c.Shut = append(c.Shut, [2]float64{q.X, q.Y})
	}
	return c, nil
}

// Area returns the area inside the cut line in m².
func (c Cut) Area() float64 { return geom.RingArea(c.Line) / 1e6 }

func place(q geom.Point) string { return fmt.Sprintf("%.1f, %.1f", q.X, q.Y) }
