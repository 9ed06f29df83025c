package metal

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/engine/flatten"
	"fettle/figure"
	"fettle/unit"
)

// Trade defaults of the K-factor of mild steel: 0.42 where the inside radius is
// the gauge, from 0.38 for sharper bends to 0.48 for wide ones. A bend pressed
// flat upon itself loses 0.43 of the gauge, which is K = 0.5.
const (
	kEqual = 0.42
	kSharp = 0.38
	kWide  = 0.48
	kHem   = 0.50
)

// readError is how well a strip's three lengths are read together, in mm.
const readError = 0.1

// allowance is the length of sheet in a bend, mm: its angle times the radius of
// the line that keeps its length.
func allowance(bend build.Bend, gauge unit.Length, k float64) float64 {
	return flatten.Fold{Angle: bend.Angle * math.Pi / 180, Radius: bend.Radius.Mm(), K: k}.Allowance(gauge.Mm())
}

// kFactor is where in the sheet the line lies that keeps its length.
type kFactor struct {
	K, Low, High float64
	Input        figure.Input
}

// kOf is the K-factor of a bend: that of the shop's own strips of this gauge and
// of a radius from half to twice this one, else the trade default.
func kOf(strips []build.Strip, gauge unit.Length, bend build.Bend) kFactor {
	sum, last := 0.0, ""
	n := 0
	for _, s := range strips {
		if alike(s, gauge, bend) {
			sum += s.K()
			n, last = n+1, string(s.ID)
		}
	}
	if n > 0 {
		k := sum / float64(n)
		err := readError / math.Sqrt(float64(n)) / (bend.Angle * math.Pi / 180 * gauge.Mm())
		note := fmt.Sprintf("test strip %s", last)
		if n > 1 {
			note = fmt.Sprintf("mean of %d test strips", n)
		}
		return kFactor{K: k, Low: k - err, High: k + err, Input: figure.Input{Name: "K", Value: fmt.Sprintf("%.3f", k), Source: figure.OwnPast, Note: note, Link: "metal/folds"}}
	}
	ratio := bend.Radius.Mm() / gauge.Mm()
	f := kFactor{K: kSharp, Low: kSharp, High: kWide}
	note := fmt.Sprintf("mild steel, radius %.1f × gauge; %.2f to %.2f are met: fold a test strip", ratio, kSharp, kWide)
	switch {
	case bend.Angle > 135 && ratio < 0.25:
		f.K, f.High = kHem, kHem
		note = "a hem pressed flat loses 0.43 of the gauge; fold a test strip"
	case ratio > 0:
		f.K = min(max(kEqual+float64(0.1*math.Log10(ratio)), kSharp), kWide)
	}
	f.Input = figure.Input{Name: "K", Value: fmt.Sprintf("%.3f", f.K), Source: figure.TradeDefault, Note: note, Link: "metal/folds"}
	return f
}

// alike tells whether a strip speaks for a bend: a hem pressed flat is a
// bend of its own kind.
func alike(s build.Strip, gauge unit.Length, bend build.Bend) bool {
	if d := s.Gauge - gauge; d > 50*unit.Micrometre || d < -50*unit.Micrometre || (s.Bend.Angle > 135) != (bend.Angle > 135) {
		return false
	}
	return s.Bend.Radius <= 2*bend.Radius && bend.Radius <= 2*s.Bend.Radius
}
