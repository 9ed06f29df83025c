package flatten

import (
	"fmt"
	"math"

	"fettle/fault"
)

// Fold is one bend of a folded blank.
type Fold struct {
	Angle  float64 // radians that the flange is turned from flat: π/2 for a square corner
	Radius float64 // mm, inside
	K      float64 // neutral line over thickness from the inside; 0: by DIN 6935
}

// Blank is what a folded part is cut from.
type Blank struct {
	Length     float64      // mm
	Lines      []float64    // mm from the first edge: the middle of each bend, where the fold is marked
	Bends      [][2]float64 // mm from the first edge: where each bend begins and ends
	Deductions []float64    // mm by fold: what the flanges' lengths are too long by
}

// Neutral returns where the neutral line lies in the thickness of a bend, from
// the inside: (0.65 + 0.5 lg(radius ÷ thickness)) ÷ 2, at most one half
// [DIN6935]. Bend a strip of the sheet to hand and measure it; no table knows
// the tool.
func Neutral(radius, thickness float64) float64 {
	return min(max(0.65+float64(0.5*math.Log10(radius/thickness)), 0), 1) / 2
}

// Allowance returns the length of the neutral line within the fold, mm, for a
// sheet of that thickness.
func (f Fold) Allowance(thickness float64) float64 {
	k := f.K
	if k == 0 {
		k = Neutral(f.Radius, thickness)
	}
	return f.Angle * (f.Radius + float64(k*thickness))
}

// Deduction returns by how much two flanges that are measured to the outer
// corner (the crossing of their outer faces) are longer than their blank, mm.
func (f Fold) Deduction(thickness float64) float64 {
	return float64(2*f.setback(thickness)) - f.Allowance(thickness)
}

// setback is from the outer corner to where the bend begins.
func (f Fold) setback(thickness float64) float64 {
	return math.Tan(f.Angle/2) * (f.Radius + thickness)
}

// Unfold returns the blank of flanges of a sheet, one more than folds, measured
// over the outside to the corners, mm.
func Unfold(flanges []float64, folds []Fold, thickness float64) (Blank, error) {
	if len(flanges) != len(folds)+1 {
		return Blank{}, fault.New(fault.Invalid, "%d folds join %d flanges, here are %d", len(folds), len(folds)+1, len(flanges))
	}
	if !(thickness > 0) {
		return Blank{}, fault.New(fault.Invalid, "thickness is %g mm, should be above 0", thickness)
	}
	var b Blank
	var back float64 // setback of the fold before
	for i, f := range folds {
		if err := f.fits(); err != nil {
			return Blank{}, fault.Within(err, fmt.Sprintf("fold %d", i+1))
		}
		s := f.setback(thickness)
		straight := flanges[i] - back - s
		if straight < 0 {
			return Blank{}, tooShort(i, back+s)
		}
		begin := b.Length + straight
		b.Length = begin + f.Allowance(thickness)
		b.Bends = append(b.Bends, [2]float64{begin, b.Length})
		b.Lines = append(b.Lines, (begin+b.Length)/2)
		b.Deductions = append(b.Deductions, f.Deduction(thickness))
		back = s
	}
	last := len(flanges) - 1
	if flanges[last] < back {
		return Blank{}, tooShort(last, back)
	}
	b.Length += flanges[last] - back
	return b, nil
}

func (f Fold) fits() error {
	switch {
	case !(f.Angle > 0 && f.Angle < math.Pi*170/180):
		return fault.New(fault.Invalid, "angle is %.4g°, should be above 0 and below 170", f.Angle*180/math.Pi).
			WithHint("measure a closed hem to its bend, not to a corner")
	case !(f.Radius > 0):
		return fault.New(fault.Invalid, "inside radius is %g mm, should be above 0", f.Radius)
	case !(f.K >= 0 && f.K <= 0.5):
		return fault.New(fault.Invalid, "neutral line is at %g of the thickness, should be from 0 to 0.5", f.K)
	}
	return nil
}

func tooShort(flange int, least float64) error {
	return fault.New(fault.Invalid, "shorter than its bends, which take %.4g mm", least).At(fmt.Sprintf("flange %d", flange+1))
}
