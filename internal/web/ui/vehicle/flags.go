package vehicle

import (
	"cmp"
	"slices"

	"fettle/geom"
)

// The measures of a flag in units of the drawing.
const (
	flagWide, flagHigh = 42.0, 25.0
	flagRoom           = 47.0 // from flag to flag in a row
	rowHigh            = 33.0 // from row to row
)

// flag is a pin with the place of its flag.
type flag struct {
	Pin
	At   geom.Point // of the finding
	X, Y float64    // the flag's upper left corner; its pole is its left edge
	Foot float64    // where the pole's straight part begins
}

// plant places the flags above and below the drawing so that none overlaps
// another: each goes to the nearer edge, keeps the order of its pin, and moves
// aside as little as it must. It returns the rows needed above and below.
func plant(pins []Pin, f frame, wide, high float64) (flags []*flag, above, below int) {
	for _, p := range pins {
		flags = append(flags, &flag{Pin: p, At: f.at(p.X, p.Y)})
	}
	slices.SortStableFunc(flags, func(a, b *flag) int { return cmp.Compare(a.At.X, b.At.X) })
	var top, foot []*flag
	for _, one := range flags {
		if one.At.Y < f.top+high*0.55 {
			top = append(top, one)
		} else {
			foot = append(foot, one)
		}
	}
	above, below = rowsFor(top, wide), rowsFor(foot, wide)
	spread(top, above, wide)
	spread(foot, below, wide)
	for i, one := range top {
		one.Foot = f.top - 6
		one.Y = one.Foot - 8 - flagHigh - float64(i%above)*rowHigh
	}
	for i, one := range foot {
		one.Foot = f.top + high + 6
		one.Y = one.Foot + 8 + float64(i%below)*rowHigh
	}
	return flags, above, below
}

// rowsFor returns how many rows hold the flags.
func rowsFor(flags []*flag, wide float64) int {
	each := int(wide / flagRoom)
	return (len(flags) + each - 1) / each
}

// spread deals the flags out to the rows and sets their x.
func spread(flags []*flag, rows int, wide float64) {
	for r := range rows {
		var line []*flag
		for i := r; i < len(flags); i += rows {
			line = append(line, flags[i])
		}
		for i, x := range aside(line, wide) {
			line[i].X = x
		}
	}
}

// aside returns the x of each flag of a row, in order, so that the sum of
// squares of what they move is least while no two overlap (isotonic regression
// by pooling adjacent violators: Barlow and others, Statistical Inference under
// Order Restrictions, 1972).
func aside(line []*flag, wide float64) []float64 {
	type pool struct {
		sum float64
		n   int
	}
	mean := func(p pool) float64 { return p.sum / float64(p.n) }
	var pools []pool
	for i, one := range line {
		pools = append(pools, pool{one.At.X - float64(i)*flagRoom, 1})
		for n := len(pools); n > 1 && mean(pools[n-2]) > mean(pools[n-1]); n = len(pools) {
			pools[n-2] = pool{pools[n-2].sum + pools[n-1].sum, pools[n-2].n + pools[n-1].n}
			pools = pools[:n-1]
		}
	}
	last := wide - flagWide - float64(len(line)-1)*flagRoom
	var out []float64
	for _, p := range pools {
		for range p.n {
			out = append(out, max(2, min(mean(p), last))+float64(len(out))*flagRoom)
		}
	}
	return out
}

// lower moves a flag and its finding down by d units.
func (f *flag) lower(d float64) {
	f.At.Y += d
	f.Y += d
	f.Foot += d
}

// pole is the leader line from the finding to the flag's far corner.
func (f *flag) pole() string {
	end := f.Y
	if f.Y > f.At.Y {
		end = f.Y + flagHigh
	}
	return "M" + num(f.At.X) + " " + num(f.At.Y) + "L" + num(f.X) + " " + num(f.Foot) + "V" + num(end)
}

// cloth is the outline of the flag, with a notch at its free end.
func (f *flag) cloth() string {
	x, y := f.X, f.Y
	return "M" + num(x) + " " + num(y) + "H" + num(x+flagWide) + "L" + num(x+flagWide-5) + " " + num(y+flagHigh/2) +
		"L" + num(x+flagWide) + " " + num(y+flagHigh) + "H" + num(x) + "Z"
}

func (f *flag) class() string {
	class := "vehicle-flag"
	if f.Draft {
		class += " vehicle-draft"
	}
	if f.Done {
		class += " vehicle-done"
	}
	if f.Lit {
		class += " vehicle-lit"
	}
	return class
}
