package metal

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// offBy is how far the kept flat size of a blank may be from what its profile
// gives before it is said, mm.
const offBy = 0.15

// Stale tells by how much a folded blank that is still to be cut is kept longer
// than its profile gives by the K known today, and whether that counts.
func Stale(b *build.Build, blank build.Blank) (by float64, stale bool) {
	if !blank.Profile.Folded() || blank.Left() == 0 {
		return 0, false
	}
	by = blank.Height.Mm() - Unfold(b, blank).Size
	return by, math.Abs(by) > offBy || blank.Shape.Drawn()
}

// FoldedBlank is a blank of a profile as it goes on the list: its flat size
// worked out, and its bends across the way the sheet was rolled.
func FoldedBlank(b *build.Build, blank build.Blank, along unit.Length) build.Blank {
	flat := Unfold(b, blank).Flat(along)
	blank.Width, blank.Height, blank.Shape = flat[0], flat[1], build.Shape{}
	if !blank.Fold.Known() {
		blank.Fold = build.Axis{Tolerance: FoldTolerance}
	}
	return blank
}

// FoldTolerance is how far from square to the rolling direction a fold may lie
// before it is likelier to crack, in degrees.
const FoldTolerance = 20

// folds says which folded blanks are kept with a size that their bends no
// longer give, and which the brake does not fold.
func folds(b *build.Build) []takeoff.Check {
	var checks []takeoff.Check
	for _, blank := range b.Blanks {
		if !blank.Profile.Folded() || blank.Left() == 0 {
			continue
		}
		link := "metal/fold/" + string(blank.ID)
		if by, stale := Stale(b, blank); stale {
			checks = append(checks, takeoff.Check{ID: "flat-size/" + string(blank.ID), Weight: takeoff.Slipping, Link: link,
				Says:   fmt.Sprintf("blank %s is kept %.1f mm across its bends, and they give %.1f mm", blank.ID, blank.Height.Mm(), blank.Height.Mm()-by),
				Do:     "take the flat size anew before it is cut",
				Figure: Unfold(b, blank).Figure})
		}
		if told := Unfoldable(b, blank); len(told) > 0 {
			_, from := BrakeOf(b)
			checks = append(checks, takeoff.Check{ID: "brake/" + string(blank.ID), Weight: takeoff.Tight, Link: link,
				Says: fmt.Sprintf("blank %s cannot be folded as drawn: %s", blank.ID, told[0]),
				Do:   "change the flange or the order, send it out to be folded, or tell what your brake takes",
				Figure: figure.Figure{Name: "brake", Text: told[0], Formula: "every order of folding is tried; the best is told with what is in the way",
					With: fmt.Sprintf("%d in the way", len(told)), Inputs: from, Caution: edgesCut}})
		}
	}
	return checks
}

// Unfoldable lists what is in the way of folding a blank on the brake, with the
// bend that it is in the way of.
func Unfoldable(b *build.Build, blank build.Blank) []string {
	brake, _ := BrakeOf(b)
	var list []string
	if blank.Width > brake.Width {
		list = append(list, fmt.Sprintf("its bends are %.0f mm long, the brake takes %.0f mm", blank.Width.Mm(), brake.Width.Mm()))
	}
	if blank.Gauge > brake.Gauge {
		list = append(list, fmt.Sprintf("it is of %g mm, the brake takes %g mm", blank.Gauge.Mm(), brake.Gauge.Mm()))
	}
	if SectionOf(blank, Unfold(b, blank)).Crosses() {
		list = append(list, "folded so, it runs into itself")
	}
	for _, s := range FoldOrder(b, blank) {
		for _, t := range s.Troubles {
			list = append(list, fmt.Sprintf("bend %d: %s", s.Bend+1, t))
		}
	}
	return list
}

// StepAt is what the outside length of the flange between the two bends of a
// joggle must be, so that the sheet steps aside by so much, mm; false where the
// bends alone take more.
func StepAt(step float64, angle float64, radius, gauge unit.Length) (float64, bool) {
	a := angle * math.Pi / 180
	straight := (step - (2*radius.Mm()+gauge.Mm())*(1-math.Cos(a))) / math.Sin(a)
	return straight + 2*(build.Bend{Angle: angle, Radius: radius}).Setback(gauge), straight >= 0
}
