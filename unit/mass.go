package unit

// Mass is a quantity of matter in whole milligrams.
type Mass int64

// MarshalJSON writes the quantity in kilograms.
func (v Mass) MarshalJSON() ([]byte, error) { return []byte(FormatDecimal(int64(v), 6, 0)), nil }

// UnmarshalJSON reads the quantity in kilograms, as a number or as text.
func (v *Mass) UnmarshalJSON(data []byte) error {
	n, err := decodeDecimal(data, 6)
	if err == nil {
		*v = Mass(n)
	}
	return err
}

// Kilogram is one kilogram.
const Kilogram Mass = 1_000_000

// Kg returns the mass in kilograms.
func (v Mass) Kg() float64 { return float64(v) / float64(Kilogram) }

// String gives kilograms.
func (v Mass) String() string { return FormatDecimal(int64(v), 6, 0) + " kg" }
