package paint

import (
	"math"

	"fettle/build"
	"fettle/engine/coat"
)

// Ratio reads a mix as a tin says it, such as "2:1 + 5 %", into parts by volume.
// What the percentage is counted on must be said; it is the last part. Fault:
// Invalid for a text that is no ratio, or a percentage of nobody knows what.
func Ratio(text string, of build.ExtraOf) ([]float64, build.Extra, error) {
	mix, percent, err := coat.ParseRatio(text)
	if err != nil || percent == 0 {
		return mix, build.Extra{}, err
	}
	r := coat.Recipe{Basis: map[build.ExtraOf]coat.Basis{build.OfAll: coat.OfAll, build.OfPaint: coat.OfPaint}[of]}
	for i, n := range mix {
		r.Components = append(r.Components, coat.Component{Role: coat.Role(min(i, int(coat.Reducer))), Parts: n})
	}
	r.Components = append(r.Components, coat.Component{Name: "+ x %", Role: coat.Reducer, Extra: percent})
	parts, err := r.Parts()
	if err != nil {
		return nil, build.Extra{}, err
	}
	last := len(parts) - 1
	parts[last] = math.Round(parts[last]*1e4) / 1e4
	return parts, build.Extra{Percent: percent, Of: of}, nil
}
