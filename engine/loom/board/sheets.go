package board

import "context"

// Size is a board of so many whole sheets of 2440 × 1220 mm, a trade default.
type Size struct {
	Width  float64 `json:"width_mm"`
	Height float64 `json:"height_mm"`
	Sheets int     `json:"sheets"`
	How    string  `json:"how"` // the sheets lie
}

// Area is in m².
func (s Size) Area() float64 { return s.Width * s.Height / 1e6 }

// Sizes are boards that a shop can set up from whole sheets, the smallest first;
// none is deeper than 2440 mm, which two people reach across from both sides.
func Sizes() []Size {
	return []Size{
		{2440, 1220, 1, "one sheet"}, {4880, 1220, 2, "two sheets end to end"}, {2440, 2440, 2, "two sheets side by side"},
		{7320, 1220, 3, "three sheets end to end"}, {3660, 2440, 3, "three sheets side by side"},
		{4880, 2440, 4, "two by two sheets"}, {7320, 2440, 6, "three by two sheets"}, {9760, 2440, 8, "four by two sheets"},
	}
}

// Smallest lays a loom on the smallest of Sizes on which it keeps all that is
// asked; where it does so on none, on the largest. Tried is how it lies on those
// that are smaller, in their order, and on the one taken.
func Smallest(ctx context.Context, p Problem) (r Result, tried []Status, err error) {
	for _, s := range Sizes() {
		p.Rules.Width, p.Rules.Height = s.Width, s.Height
		if r, err = Solve(ctx, p); err != nil {
			return Result{}, nil, err
		}
		if tried = append(tried, r.Status); r.Status == Laid || ctx.Err() != nil {
			break
		}
	}
	return r, tried, nil
}
