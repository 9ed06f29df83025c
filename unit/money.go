package unit

// Money is an amount in whole hundredths of the build's currency. It carries no
// currency of its own: a build has exactly one, and [Currency] writes it.
type Money int64

// MarshalJSON writes the quantity in whole units of currency with two decimals.
func (v Money) MarshalJSON() ([]byte, error) { return []byte(FormatDecimal(int64(v), 2, 2)), nil }

// UnmarshalJSON reads the quantity in whole units of currency with two decimals, as a number or as text.
func (v *Money) UnmarshalJSON(data []byte) error {
	n, err := decodeDecimal(data, 2)
	if err == nil {
		*v = Money(n)
	}
	return err
}

// PerHour treats v as an hourly rate and returns what e costs, rounded half
// away from zero to a hundredth.
func (v Money) PerHour(e Effort) Money { return Money(MulDiv(int64(v), int64(e), int64(Hour))) }

// Percent returns p per cent of v, p given in hundredths of a per cent
// (4 % is 400), rounded half away from zero.
func (v Money) Percent(p int64) Money { return Money(MulDiv(int64(v), p, 10_000)) }
