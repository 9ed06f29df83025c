package nest_test

import (
	"strings"
	"testing"

	"fettle/engine/nest"
)

func TestCheckEach_NamesTheLaterOfTwo(t *testing.T) {
	p := nest.Problem{Kind: nest.Bins, Clearance: 1, Containers: []nest.Container{{ID: "board", Outline: square(100)}},
		Pieces: []nest.Piece{{ID: "tile", Shape: square(20), Count: 4, Locked: []nest.Placement{{X: 70, Y: 70}}}}}
	at := []nest.Placement{{Copy: 1, X: 5, Y: 5}, {Copy: 2, X: 15, Y: 5}, {Copy: 3, X: 30, Y: 5}, {X: 70, Y: 70}}
	faults, report := nest.CheckEach(p, at)
	for i, says := range []string{"", "copy 3", "", ""} {
		if says == "" && faults[i] != nil || says != "" && (faults[i] == nil || !strings.Contains(faults[i].Error(), says)) {
			t.Errorf("placement %d: %v, want %q", i+1, faults[i], says)
		}
	}
	if report.SmallestGap != 5 || report.Missing != 1 {
		t.Errorf("the report %+v", report)
	}
	// A locked copy that lies elsewhere is judged like any other.
	at[3].X, at[3].Y = 30, 15
	if faults, _ = nest.CheckEach(p, at); faults[3] == nil || faults[2] != nil {
		t.Errorf("a locked copy over another: %v", faults)
	}
	if faults, _ = nest.CheckEach(p, at[:3]); faults[0] != nil || faults[1] == nil {
		t.Errorf("without the locked copy: %v", faults)
	}
}
