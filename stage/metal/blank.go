package metal

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/unit"
)

// Over is what is left over on every side of a blank that is proposed, to be
// scribed in place and trimmed: 10 to 15 mm is the trade's rule.
const Over = 12 * unit.Millimetre

// Proposed lists the blanks that findings call for and nobody has entered: one
// for each place that is to be repaired or made and has a width and a height,
// of the gauge of its panel, as long as the hole is not closed.
func Proposed(b *build.Build) []build.Blank {
	var list []build.Blank
	for _, f := range b.Findings {
		if f.Remedy != build.Repair && f.Remedy != build.Make || f.Size.Height == 0 || f.Size.Round || begun(f.State) || len(f.Panels) == 0 {
			continue
		}
		p := b.Panel(f.Panels[0])
		if p == nil || p.Gauge == 0 || slices.ContainsFunc(b.Blanks, func(o build.Blank) bool { return o.Finding == f.ID }) {
			continue
		}
		list = append(list, build.Blank{
			ID: build.BlankID("B-" + string(f.ID)), Name: "patch, " + p.FullName(), Finding: f.ID, Gauge: p.Gauge,
			Width: f.Size.Width, Height: f.Size.Height, Quantity: f.Size.Places(), Over: Over,
		})
	}
	return list
}

// begun tells whether the patch of a finding is in already.
func begun(s build.FindingState) bool {
	return slices.Index(build.FindingStates(), s) >= slices.Index(build.FindingStates(), build.WeldedIn)
}

// Wanted lists the blanks of a gauge that are still to be cut and whose findings
// are not closed yet.
func Wanted(b *build.Build, gauge unit.Length) []build.Blank {
	var list []build.Blank
	for _, p := range b.Blanks {
		f := b.Finding(p.Finding)
		if p.Gauge == gauge && p.Left() > 0 && (f == nil || !begun(f.State)) {
			list = append(list, p)
		}
	}
	return list
}

// CutSize is the size a blank is cut to, with what is left over.
func CutSize(p build.Blank) string {
	box := p.Cut().Polygon().Bounds()
	return fmt.Sprintf("%.0f × %.0f", box.Width()+2*p.Over.Mm(), box.Height()+2*p.Over.Mm())
}
