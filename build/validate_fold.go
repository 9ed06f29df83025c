package build

import (
	"fmt"

	"fettle/unit"
)

// Bounds of rule 3 for folds.
const (
	mostFlanges = 9
	mostRadius  = 500 * unit.Millimetre
)

// check holds a profile to the rules: two flanges or more, a bend behind each
// but the last, and room on every flange for the bends at its ends.
func (p Profile) check(gauge unit.Length, where string) error {
	if !p.Folded() {
		return nil
	}
	if err := inRange(len(p.Flanges), 2, mostFlanges, "the number of flanges", where); err != nil {
		return err
	}
	for i, f := range p.Flanges {
		at := fmt.Sprintf("%s, flange %d", where, i+1)
		if err := inRange(f.Length, 1, mostCut, "length", at); err != nil {
			return err
		}
		if i+1 == len(p.Flanges) {
			if f.Bend != (Bend{}) {
				return rule(ruleOrder, "no flange follows the last bend").At(at)
			}
		} else if err := f.Bend.check(at); err != nil {
			return err
		}
	}
	for i := range p.Flanges {
		if left := p.Straight(i, gauge); left < 0 {
			return rule(ruleWhole, "the bends at its ends take %.1f mm more than it has", -left).At(fmt.Sprintf("%s, flange %d", where, i+1))
		}
	}
	return nil
}

func (b Bend) check(where string) error {
	return first(within(b.Angle, 1, 180, "angle", where+", bend"), inRange(b.Radius, 0, mostRadius, "radius", where+", bend"))
}

// checkFolds holds test strips and the brake to the rules.
func (b *Build) checkFolds() error {
	for _, s := range b.Strips {
		if err := checkStrip(s); err != nil {
			return err
		}
	}
	return checkBrake(b.Brake)
}

// checkStrip holds a strip to the rules. The line that kept its length lies in
// the sheet, or something was not measured as it is meant.
func checkStrip(s Strip) error {
	where := "test strip " + string(s.ID)
	if s.ID == "" {
		return rule(ruleID, "the ID is missing").At("test strip")
	}
	if err := first(inRange(s.Gauge, 1, mostGauge, "gauge", where), s.Bend.check(where), inRange(s.Flat, 1, mostCut, "flat length", where),
		inRange(s.First, 1, mostCut, "first flange", where), inRange(s.Second, 1, mostCut, "second flange", where), within(s.Springs, 0, 45, "spring-back", where)); err != nil {
		return err
	}
	if k := s.K(); !(k >= 0.2 && k <= 0.6) {
		return rule(ruleRange, "K would be %.2f, and steel gives 0.2 to 0.6: measure the strip, gauge and radius again, flanges over the outside", k).At(where)
	}
	return nil
}

func checkBrake(k Brake) error {
	where := "brake"
	return first(inRange(k.Width, 0, mostCut, "width", where), inRange(k.Gauge, 0, mostGauge, "gauge", where),
		inRange(k.Least, 0, mostRadius, "least flange", where), inRange(k.Nose, 0, mostRadius, "nose", where), within(k.Slope, 0, 90, "slope", where))
}
