package pattern

import (
	"fmt"
	"math"
	"slices"

	"fettle/fault"
	"fettle/figure"
	"fettle/geom"
)

// Wheel is a steering wheel's rim that is covered with strips laced along the
// inside of the rim.
type Wheel struct {
	Rim     Given     // mm across, middle of grip to middle of grip
	Grip    Given     // mm across the rim itself
	Stretch Given     // width that the leather gives, as a part; 0.03
	Closure Given     // mm that the strip is pulled shorter, all the way round; 0
	Pitch   Given     // mm between stitches; 4
	Cross   Given     // mm beyond the cross seam at each end; 2.5
	Spokes  []float64 // degrees at which cross seams lie, at the spokes; none is one seam
}

// Segment is the strip between two cross seams.
type Segment struct {
	Outer Amount `json:"outer"` // along the outside of the rim, mm
	Inner Amount `json:"inner"` // along the laced edges, mm
	Piece Piece  `json:"piece"`
}

// WheelStrip is what a Wheel comes to.
type WheelStrip struct {
	Length   Amount    `json:"length"`   // once round the middle of the grip, mm
	Width    Amount    `json:"width"`    // of the strip, mm
	Wrinkle  Amount    `json:"wrinkle"`  // by how much the outside is longer than the middle and the inside shorter, mm
	Strain   Amount    `json:"strain"`   // the same as a part of the length, %
	Stitches Amount    `json:"stitches"` // along the lacing, all the way round
	Segments []Segment `json:"segments"`
}

// Strip returns the strip and the segments of a wheel. Every line along the
// strip has the length of the rim where it comes to lie, so the ends of a
// segment bow out: at the laced edges the rim is shorter.
func (w Wheel) Strip() (WheelStrip, error) {
	var out WheelStrip
	var s sum
	rim := s.take(w.Rim, asked{name: "rim", unit: "mm", low: 150, high: 700, why: "measure from the middle of the grip to the middle of the grip"})
	closure := s.take(w.Closure, asked{name: "pulled shorter", unit: "mm", low: 0, high: 100, has: true, why: "nothing"})
	length, err := s.is("strip length", math.Pi*rim-closure, "mm", 0, "π × rim − pulled shorter", fmt.Sprintf("π × %s − %s", num(rim, 1), num(closure, 1)))
	if err != nil {
		return out, err
	}
	s = sum{}
	grip := s.take(w.Grip, asked{name: "grip", unit: "mm", low: 8, high: 80, why: "a tape round the grip, ÷ π"})
	e := s.part(w.Stretch, asked{name: "stretch", low: 0, high: 0.2, habit: 0.03, has: true, why: "pull a test strip; 3 % is usual"})
	if s.err == nil && grip >= rim {
		s.err = fault.New(fault.Invalid, "a grip of %g mm on a rim of %g mm", grip, rim)
	}
	width, err := s.is("strip width", math.Pi*grip*(1-e), "mm", 1, "π × grip × (1 − stretch)", fmt.Sprintf("π × %s × %s", num(grip, 1), num(1-e, 3)))
	if err != nil {
		return out, err
	}
	out.Length, out.Width = length, width
	if err := w.strain(&out, rim, grip); err != nil {
		return out, err
	}
	return out, w.segments(&out, rim, grip)
}

// strain says why a strip wrinkles, and counts the stitches.
func (w Wheel) strain(out *WheelStrip, rim, grip float64) (err error) {
	var s sum
	s.inputs = append(s.inputs, figure.Input{Name: "grip", Value: num(grip, 1) + " mm", Source: figure.Worked, Note: "as above"})
	if out.Wrinkle, err = s.is("outside over inside", math.Pi*grip, "mm", 0, "± π × grip", "± π × "+num(grip, 1)); err != nil {
		return err
	}
	s = sum{}
	s.worked("outside over inside", out.Wrinkle)
	if out.Strain, err = s.is("what a strip in one piece must give", 100*grip/rim, "%", 1, "± π × grip ÷ (π × rim)", fmt.Sprintf("± %s ÷ %s", num(math.Pi*grip, 0), num(math.Pi*rim, 0))); err != nil {
		return err
	}
	out.Strain = out.Strain.careful("Leather in one strip must stretch so much outside and shrink so much inside, or it wrinkles: cut it in segments at the spokes, and wet or warm it by its maker's sheet. Nothing on the rim may slip or bind: the wheel steers the vehicle.")
	s = sum{}
	pitch := s.take(w.Pitch, asked{name: "stitch pitch", unit: "mm", low: 1, high: 20, habit: 4, has: true, why: "3–5 mm, 3.2 mm from the edge"})
	inner := math.Pi * (rim - grip)
	out.Stitches, err = s.is("stitches of the lacing", math.Ceil(inner/pitch-1e-9), "", 0, "π × (rim − grip) ÷ pitch, rounded up", fmt.Sprintf("%s ÷ %s, rounded up", num(inner, 1), num(pitch, 2)))
	return err
}

func (w Wheel) segments(out *WheelStrip, rim, grip float64) error {
	cuts := slices.Clone(w.Spokes)
	if len(cuts) == 0 {
		cuts = []float64{0}
	}
	slices.Sort(cuts)
	for i, from := range cuts {
		to := cuts[0] + 360
		if i+1 < len(cuts) {
			to = cuts[i+1]
		}
		if !(to-from >= 5) || !(math.Abs(from) <= 720) {
			return fault.New(fault.Invalid, "a segment of %g°", to-from).At("spokes").WithHint("cross seams lie at different angles within one turn, 5° apart or more")
		}
		g, err := w.segment(i+1, (to-from)/360, rim, grip, out)
		if err != nil {
			return err
		}
		out.Segments = append(out.Segments, g)
	}
	return nil
}

// segment draws one strip, the laced edges along x, its middle line on y = 0.
func (w Wheel) segment(n int, share, rim, grip float64, out *WheelStrip) (g Segment, err error) {
	var s sum
	cross := s.take(w.Cross, asked{name: "beyond the cross seam", unit: "mm", low: 0, high: 30, habit: 2.5, has: true, why: "2–3 mm"})
	short := out.Length.Value / (math.Pi * rim) // what the closure takes off
	outer, inner := math.Pi*(rim+grip)*share*short, math.Pi*(rim-grip)*share*short
	s.worked("strip length", out.Length)
	s.worked("outside over inside", out.Wrinkle)
	with := func(sign string) string {
		return fmt.Sprintf("(%s %s %s) × %s", num(out.Length.Value, 0), sign, num(math.Pi*grip*short, 1), num(share, 4))
	}
	if g.Outer, err = s.is(fmt.Sprintf("segment %d, outside", n), outer, "mm", 1, "(strip length + π × grip) × share of the round", with("+")); err != nil {
		return g, err
	}
	g.Outer.Working.Inputs = append(g.Outer.Working.Inputs, figure.Input{Name: "by habit", Value: num(out.Length.Value*share+5, 1) + " mm", Source: figure.TradeDefault, Note: "the trade draws the outer edge 5 mm longer than the middle and stretches the rest"})
	if g.Inner, err = s.is(fmt.Sprintf("segment %d, laced edges", n), inner, "mm", 1, "(strip length − π × grip) × share of the round", with("−")); err != nil {
		return g, err
	}
	g.Inner.Working.Inputs = append(g.Inner.Working.Inputs, figure.Input{Name: "by habit", Value: num(out.Length.Value*share-5, 1) + " mm", Source: figure.TradeDefault, Note: "the trade draws the inner edge 5 mm shorter than the middle and eases the rest"})
	g.Piece = Piece{ID: fmt.Sprintf("rim-%d", n), Name: fmt.Sprintf("rim segment %d", n), Arrow: Arrow{Kind: "stretch", Angle: 90}}
	const steps = 16 // sides of a bowed end: a chord strays by 1/200 of its depth
	end := func(sign float64) {
		for k := range steps + 1 {
			y := float64(2*k)/steps - 1 // −1 to 1 across the strip
			half := (inner + (outer-inner)*(1+math.Cos(math.Pi*y))/2) / 2
			g.Piece.Line = append(g.Piece.Line, geom.Point{X: sign * half, Y: sign * y * out.Width.Value / 2})
		}
	}
	end(1)
	end(-1)
	kind := Plain
	if cross == 0 {
		kind = Butt
	}
	g.Piece.Edges = []Edge{{Name: "end", From: 0, Kind: kind, Allowance: cross}, {Name: "laced left", From: steps, Kind: Butt},
		{Name: "start", From: steps + 1, Kind: kind, Allowance: cross}, {Name: "laced right", From: 2*steps + 1, Kind: Butt}}
	return g, nil
}
