package colour

// Contrast is how two colours that meet at a line stand apart.
type Contrast struct {
	Difference float64 // CIEDE2000
	Lightness  float64 // of the lighter less that of the darker, L units
	Ratio      float64 // of luminances, 1 to 21, as WCAG 2 counts it
}

// Beside returns the contrast of two neighbours seen under one light. The
// ratio is (Y₁ + 0.05) ÷ (Y₂ + 0.05), Y as a part of white's: for lettering
// 4.5 is asked of small and 3 of large [WCAG22]. A difference of hue alone is
// lost in dusk and to some eyes: lightness carries a line.
func Beside(a, b Lab) Contrast {
	if a.L < b.L {
		a, b = b, a
	}
	const glare = 0.05
	return Contrast{
		Difference: Difference(a, b), Lightness: a.L - b.L,
		Ratio: (luminance(a) + glare) / (luminance(b) + glare),
	}
}

// luminance returns Y as a part of white's.
func luminance(l Lab) float64 { return max(0, labBack((l.L+16)/116)) }
