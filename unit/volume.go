package unit

// Volume is a quantity of liquid in whole microlitres.
type Volume int64

// MarshalJSON writes the quantity in litres.
func (v Volume) MarshalJSON() ([]byte, error) { return []byte(FormatDecimal(int64(v), 6, 0)), nil }

// UnmarshalJSON reads the quantity in litres, as a number or as text.
func (v *Volume) UnmarshalJSON(data []byte) error {
	n, err := decodeDecimal(data, 6)
	if err == nil {
		*v = Volume(n)
	}
	return err
}

// Litre is one litre.
const Litre Volume = 1_000_000

// L returns the volume in litres.
func (v Volume) L() float64 { return float64(v) / float64(Litre) }

// String gives litres with two decimals.
func (v Volume) String() string { return FormatDecimal(MulDiv(int64(v), 1, 10_000), 2, 2) + " l" }
