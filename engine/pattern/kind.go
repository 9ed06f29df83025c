package pattern

// habit is what the trade does where nobody says otherwise.
type habit struct {
	allowance float64 // mm
	top       float64 // mm from the seam to a row on top
	rows      int     // rows of stitches on top
	sewn      bool    // it can be a seam between two pieces
}

// habitOf returns the trade's default of a kind, and whether there is such a
// kind. Allowances of 10 to 12 mm are basic, half an inch is the American
// habit; rows on top lie 3 to 6 mm from the seam.
func habitOf(k Kind) (habit, bool) {
	switch k {
	case Raw:
		return habit{}, true
	case Butt:
		return habit{sewn: true}, true
	case Plain, Piped:
		return habit{allowance: 12, sewn: true}, true
	case TopStitch:
		return habit{allowance: 12, top: 5, rows: 1, sewn: true}, true
	case French:
		return habit{allowance: 12, top: 5, rows: 2, sewn: true}, true
	case Hem, Wrapped:
		return habit{allowance: 25}, true
	case Sleeve:
		return habit{allowance: 30}, true
	}
	return habit{}, false
}

// Allowed returns the allowance of an edge in mm: its own, or its kind's habit.
func (e Edge) Allowed() float64 {
	if e.Allowance != 0 {
		return e.Allowance
	}
	h, _ := habitOf(e.Kind)
	return h.allowance
}

// TopDistance returns how far from the seam its rows on top lie, and how many
// there are.
func (s Seam) TopDistance() (mm float64, rows int) {
	h, _ := habitOf(s.Kind)
	if s.TopAt != 0 {
		return s.TopAt, h.rows
	}
	return h.top, h.rows
}
