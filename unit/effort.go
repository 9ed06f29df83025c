package unit

import "math"

// Effort is work or presence in whole minutes of one person.
type Effort int64

// Common efforts.
const (
	Minute Effort = 1
	Hour   Effort = 60
)

// Hours returns an effort of h hours, rounded to the minute.
func Hours(h float64) Effort { return Effort(math.Round(h * 60)) }

// H returns the effort in hours.
func (v Effort) H() float64 { return float64(v) / float64(Hour) }

// String gives hours with at most two decimals.
func (v Effort) String() string { return FormatDecimal(MulDiv(int64(v), 100, 60), 2, 0) + " h" }

// MarshalJSON writes hours with up to four decimals, enough to tell minutes apart.
func (v Effort) MarshalJSON() ([]byte, error) {
	return []byte(FormatDecimal(MulDiv(int64(v), 10_000, 60), 4, 0)), nil
}

// UnmarshalJSON reads hours, rounded to the minute.
func (v *Effort) UnmarshalJSON(data []byte) error {
	n, err := decodeDecimal(data, 4)
	if err == nil {
		*v = Effort(MulDiv(n, 60, 10_000))
	}
	return err
}
