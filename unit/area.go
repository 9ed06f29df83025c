package unit

// Area is a surface in whole square millimetres.
type Area int64

// MarshalJSON writes the quantity in square metres.
func (v Area) MarshalJSON() ([]byte, error) { return []byte(FormatDecimal(int64(v), 6, 2)), nil }

// UnmarshalJSON reads the quantity in square metres, as a number or as text.
func (v *Area) UnmarshalJSON(data []byte) error {
	n, err := decodeDecimal(data, 6)
	if err == nil {
		*v = Area(n)
	}
	return err
}

// SquareMetre is one square metre.
const SquareMetre Area = 1_000_000

// Rect returns the area of a rectangle, rounded to a square millimetre.
func Rect(w, h Length) Area { return Area(MulDiv(int64(w), int64(h), 1_000_000)) }

// M2 returns the area in square metres.
func (v Area) M2() float64 { return float64(v) / float64(SquareMetre) }

// String gives square metres with two decimals.
func (v Area) String() string { return FormatDecimal(MulDiv(int64(v), 1, 10_000), 2, 2) + " m²" }
