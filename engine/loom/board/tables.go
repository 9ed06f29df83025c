package board

import (
	"math"

	"fettle/engine/loom/route"
)

// SpliceRow is one joint: where it lies along its stretch and how far from what
// it must keep clear of.
type SpliceRow struct {
	ID       string   `json:"id"`
	Stretch  string   `json:"stretch"`
	At       float64  `json:"at_mm"`       // from the From end of the stretch
	Breakout float64  `json:"breakout_mm"` // to the nearer end of the stretch
	Next     float64  `json:"next_mm"`     // to the nearest other on the stretch; 0 for none
	Wires    []string `json:"wires"`
}

// Splices lists the joints of a routed loom.
func Splices(r route.Result) []SpliceRow {
	var rows []SpliceRow
	for _, j := range r.Splices {
		for _, s := range r.Runs {
			if s.Edge != j.Edge {
				continue
			}
			row := SpliceRow{ID: j.ID, Stretch: s.ID, At: j.At, Breakout: min(j.At, s.Length-j.At), Wires: j.Wires}
			for _, o := range r.Splices {
				if gap := math.Abs(o.At - j.At); o.ID != j.ID && o.Edge == j.Edge && (row.Next == 0 || gap < row.Next) {
					row.Next = gap
				}
			}
			rows = append(rows, row)
		}
	}
	return rows
}
