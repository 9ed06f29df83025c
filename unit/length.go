package unit

// Length is a distance in whole micrometres.
type Length int64

// MarshalJSON writes the quantity in millimetres.
func (v Length) MarshalJSON() ([]byte, error) { return []byte(FormatDecimal(int64(v), 3, 0)), nil }

// UnmarshalJSON reads the quantity in millimetres, as a number or as text.
func (v *Length) UnmarshalJSON(data []byte) error {
	n, err := decodeDecimal(data, 3)
	if err == nil {
		*v = Length(n)
	}
	return err
}

// Common lengths.
const (
	Micrometre Length = 1
	Millimetre        = 1000 * Micrometre
	Metre             = 1000 * Millimetre
	Inch              = 25400 * Micrometre // exact, by definition
)

// Mm returns the length in millimetres.
func (v Length) Mm() float64 { return float64(v) / float64(Millimetre) }

// String gives millimetres, as on a drawing.
func (v Length) String() string { return FormatDecimal(int64(v), 3, 0) + " mm" }
