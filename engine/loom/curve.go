package loom

import "math"

// Curve is a type of fuse: how long it takes to open at multiples of its
// rating, and what it loses.
type Curve struct {
	Name    string  `json:"name"`
	Says    string  `json:"says,omitempty"`
	Points  []Open  `json:"points"`            // multiples ascending
	Colours []Shade `json:"colours,omitempty"` // by rating
	DropMV  float64 `json:"drop_mv,omitempty"` // at its rating; the cold resistance is 0.7 of that ÷ amps
}

// Open is the window in seconds in which a fuse opens at a multiple of its
// rating; LongestS 0 says that it need not open.
type Open struct {
	Multiple  float64 `json:"multiple"`
	ShortestS float64 `json:"shortest_s"`
	LongestS  float64 `json:"longest_s"`
}

// Shade is a rating with the colour of the fuse's body.
type Shade struct {
	Amps   float64 `json:"amps"`
	Colour string  `json:"colour"`
	ColdMO float64 `json:"cold_milliohm,omitempty"` // measured, where a sheet gives it
}

// Names of the fuse types that are there from the start.
const (
	Blade = "blade"
	Maxi  = "maxi"
	Link  = "link"
)

// Curves returns the fuse types that are there from the start.
func Curves() []Curve {
	blade := Curve{
		Name: Blade, Says: "ISO 8820-3 type C and F: 1.35 and 2.0 from makers' sheets, the rest trade default", DropMV: 120,
		Points: []Open{{1.1, 360000, 0}, {1.35, 0.75, 1800}, {1.6, 0.25, 50}, {2, 0.15, 5}, {3.5, 0.04, 0.5}, {6, 0.02, 0.1}},
		Colours: []Shade{
			{1, "black", 123}, {2, "grey", 53.5}, {3, "violet", 0}, {4, "pink", 22.8}, {5, "tan", 0}, {7.5, "brown", 0}, {10, "red", 7.7},
			{15, "blue", 0}, {20, "yellow", 0}, {25, "clear", 0}, {30, "green", 0}, {40, "orange", 0},
		},
	}
	maxi := Curve{
		Name: Maxi, Says: "ISO 8820-3 type E, extract of the older DIN 72581-3", DropMV: 100,
		Points:  []Open{{1, 360000, 0}, {1.35, 60, 1800}, {2, 2, 60}, {3.5, 0.2, 7}, {6, 0.04, 1}},
		Colours: []Shade{{20, "yellow", 0}, {30, "green", 0}, {40, "orange", 0}, {50, "red", 0}, {60, "blue", 0}, {70, "tan", 0}, {80, "clear", 0}},
	}
	link := maxi
	link.Name, link.Says, link.Colours = Link, "taken as type E until the maker's sheet is typed in", nil
	return []Curve{blade, maxi, link}
}

// Longest returns the longest time in seconds that the fuse may take to open at
// a multiple of its rating, between points by straight lines of the logarithms;
// +Inf where it need not open. Beyond the last point the last time is held.
func (c Curve) Longest(multiple float64) float64 {
	return c.at(multiple, func(o Open) float64 { return o.LongestS }, math.Inf(1))
}

// Shortest returns the time in seconds for which the fuse holds for certain.
func (c Curve) Shortest(multiple float64) float64 {
	return c.at(multiple, func(o Open) float64 { return o.ShortestS }, math.Inf(1))
}

// Holds returns the largest multiple of its rating in the table at which the fuse
// holds for certain for so many seconds, at least 1.
func (c Curve) Holds(seconds float64) float64 {
	multiple := 1.0
	for _, o := range c.Points {
		if o.ShortestS >= seconds {
			multiple = max(multiple, o.Multiple)
		}
	}
	return multiple
}

func (c Curve) at(multiple float64, of func(Open) float64, below float64) float64 {
	for i, o := range c.Points {
		if multiple > o.Multiple {
			continue
		}
		if i == 0 || of(c.Points[i-1]) == 0 || multiple == o.Multiple {
			if multiple == o.Multiple && of(o) > 0 {
				return of(o)
			}
			return below
		}
		p := c.Points[i-1]
		part := math.Log(multiple/p.Multiple) / math.Log(o.Multiple/p.Multiple)
		return of(p) * math.Pow(of(o)/of(p), part)
	}
	if len(c.Points) == 0 {
		return below
	}
	return of(c.Points[len(c.Points)-1])
}

// LetThrough returns the most heat in A²s per ohm that a fuse of a rating lets
// through at a current, and the time it takes. Where the time of the last point,
// held, gives more than limit, the heat of the last point itself counts: a fuse
// that melts faster than it cools needs no more heat at more current.
func (c Curve) LetThrough(rating, amps, limit float64) (heat, seconds float64) {
	m := amps / rating
	seconds = c.Longest(m)
	heat = amps * amps * seconds
	if n := len(c.Points); n > 0 && m > c.Points[n-1].Multiple && heat > limit {
		last := c.Points[n-1]
		heat = last.Multiple * last.Multiple * rating * rating * last.LongestS
		seconds = heat / (amps * amps)
	}
	return heat, seconds
}

// Melting returns the least heat in A²s per ohm that opens a fuse of a rating
// in milliseconds: that of the shortest time at the last point.
func (c Curve) Melting(rating float64) float64 {
	if len(c.Points) == 0 {
		return 0
	}
	last := c.Points[len(c.Points)-1]
	return last.Multiple * last.Multiple * rating * rating * last.ShortestS
}

// Ohms returns the resistance of a fuse of a rating: cold, or hot at its rating.
func (c Curve) Ohms(rating float64, hot bool) float64 {
	factor := 1.0
	if hot {
		factor = 1.45 // 40 to 50 % more at the rating
	}
	for _, s := range c.Colours {
		if s.Amps == rating && s.ColdMO > 0 {
			return factor * s.ColdMO / 1000
		}
	}
	return factor * 0.69 * c.DropMV / 1000 / rating // 0.69 is 1 ÷ 1.45: DropMV is told hot
}

// Colour returns the colour of the body of a fuse of a rating, or nothing.
func (c Curve) Colour(rating float64) string {
	for _, s := range c.Colours {
		if s.Amps == rating {
			return s.Colour
		}
	}
	return ""
}
