package metal

import (
	"fmt"
	"math"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/unit"
)

// Unfolded is a folded blank laid flat. Places are mm from the edge of the
// first flange, across the bends.
type Unfolded struct {
	Size   float64 // across the bends
	Give   float64 // how far off it may be, either way, by what K is known to
	Lines  []BendLine
	Figure figure.Figure // the flat size
}

// BendLine is a bend as it is marked out on the flat sheet.
type BendLine struct {
	Bend   build.Bend
	From   float64 // where the sheet begins to bend
	Middle float64 // the line that is scribed
	To     float64
	Figure figure.Figure // what the bend takes
}

// takes is the length of sheet in the bend.
func (l BendLine) takes() float64 { return l.To - l.From }

const edgesCut = "Edges are knives: gloves and eye protection. Keep hands clear of nose, leaf and blade, guards on; one person works the brake. A part in a load path is for a competent person, to the maker's repair sheet."

// Unfold lays a folded blank flat by the bend allowance of each bend.
func Unfold(b *build.Build, blank build.Blank) Unfolded {
	var u Unfolded
	var sums []string
	inputs := []figure.Input{{Name: "gauge", Value: mm2(blank.Gauge.Mm()), Source: figure.Decided, Link: "metal/sheets"}}
	seen := map[string]bool{}
	for i, f := range blank.Profile.Flanges {
		straight := blank.Profile.Straight(i, blank.Gauge)
		sums = append(sums, fmt.Sprintf("%.2f", straight))
		u.Size += straight
		inputs = append(inputs, figure.Input{Name: "flange " + Letter(i), Value: mm2(f.Length.Mm()), Source: figure.Measured, Note: "over the outside"})
		if i+1 == len(blank.Profile.Flanges) {
			break
		}
		k := kOf(b.Strips, blank.Gauge, f.Bend)
		line := BendLine{Bend: f.Bend, From: u.Size}
		line.To = u.Size + allowance(f.Bend, blank.Gauge, k.K)
		line.Middle = (line.From + line.To) / 2
		line.Figure = takesFigure(blank.Gauge, f.Bend, k, line.takes())
		u.Give += max(allowance(f.Bend, blank.Gauge, k.High)-line.takes(), line.takes()-allowance(f.Bend, blank.Gauge, k.Low))
		u.Size = line.To
		u.Lines = append(u.Lines, line)
		sums = append(sums, fmt.Sprintf("%.2f", line.takes()))
		if !seen[k.Input.Note] {
			seen[k.Input.Note] = true
			inputs = append(inputs, k.Input)
		}
	}
	u.Figure = figure.Figure{Name: "flat size of " + string(blank.ID), Text: fmt.Sprintf("%.1f mm", u.Size),
		Formula: "what stays straight of each flange and what each bend takes, from edge to edge; straight = outside length − set-back of its bends, set-back = (radius + gauge) × tan(angle ÷ 2), beyond 90° radius + gauge",
		With:    fmt.Sprintf("%s = %.2f mm, ± %.1f mm by what K is known to", strings.Join(sums, " + "), u.Size, u.Give),
		Inputs:  inputs, Caution: edgesCut}
	return u
}

// takesFigure is the working of what one bend takes.
func takesFigure(gauge unit.Length, bend build.Bend, k kFactor, takes float64) figure.Figure {
	return figure.Figure{Name: "sheet in the bend", Text: fmt.Sprintf("%.2f mm", takes),
		Formula: "angle × π ÷ 180 × (inside radius + K × gauge)",
		With:    fmt.Sprintf("%g × π ÷ 180 × (%.2f + %.3f × %.2f) = %.2f mm", bend.Angle, bend.Radius.Mm(), k.K, gauge.Mm(), takes),
		Inputs: []figure.Input{{Name: "angle", Value: fmt.Sprintf("%g°", bend.Angle), Source: figure.Decided, Note: "that the sheet is turned through"},
			{Name: "inside radius", Value: mm2(bend.Radius.Mm()), Source: figure.Decided}, {Name: "gauge", Value: mm2(gauge.Mm()), Source: figure.Decided}, k.Input}}
}

// Flat returns the size a folded blank is cut to: along its bends and across
// them, across to the tenth of a millimetre.
func (u Unfolded) Flat(along unit.Length) build.Spot {
	return build.Spot{along, unit.Length(math.Round(u.Size*10)) * 100 * unit.Micrometre}
}

// Letter names a flange: A, B, C.
func Letter(i int) string { return string(rune('A' + i)) }

func mm2(v float64) string { return fmt.Sprintf("%g mm", math.Round(v*100)/100) }
