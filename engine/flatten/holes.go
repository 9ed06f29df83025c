package flatten

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// What holes may cost that stay open, as density over 4; a mean stretch of e in
// both directions makes 8e². They may always cost what nobody could tell, 0.5 %.
// They may cost 5 % more than a pattern whose holes are all joined to the rim,
// unless that one unrolls: then they are what keeps it from that.
const (
	holesLeast = 8 * 0.005 * 0.005
	holesMost  = 8 * 0.05 * 0.05
	unrolls    = 1e-6
)

// What costs little shows at once: a start below this density, and no more steps
// from there.
const (
	openLevel = 200.0
	openSteps = 30
)

// best lays a disc flat with as many of its holes open as that rule allows.
// Where not all can stay, those that hide most curvature are joined first, the
// fewest that do.
func (d *disc) best(ctx context.Context, o Options, stats *Stats) (*laying, error) {
	l, err := d.choose(ctx, o, stats)
	if err == nil && ctx.Err() != nil {
		l.status = Interrupted // it may have settled itself, but others were to be tried
	}
	return l, err
}

func (d *disc) choose(ctx context.Context, o Options, stats *Stats) (*laying, error) {
	holes := d.border.holes()
	if len(holes) == 0 {
		l, err := d.free(ctx, o, stats)
		if err != nil {
			return nil, err
		}
		return l, l.apart(ctx, o)
	}
	open := d.try(ctx, o, stats)
	if open != nil && (ctx.Err() != nil || open.overlaps == 0 && open.density-4 <= holesLeast) {
		return open, nil
	}
	closed, err := d.join(holes)
	if err != nil {
		return nil, err
	}
	all, err := closed.free(ctx, o, stats)
	if err != nil {
		return nil, err
	}
	if open != nil && open.overlaps == 0 && open.bears(all) {
		return open, nil
	}
	if err := all.apart(ctx, o); err != nil {
		return nil, err
	}
	if open.bearsApart(ctx, o, all) {
		return open, nil
	}
	return d.fewest(ctx, o, all)
}

// fewest joins as few of a disc's holes as will do, where none is too few; all
// is the disc with all of them joined.
func (d *disc) fewest(ctx context.Context, o Options, all *laying) (*laying, error) {
	holes, _, err := d.hidden()
	if err != nil {
		return nil, err
	}
	pick, little, enough := all, 0, len(holes)
	if !(all.conformal.Dirichlet <= openLevel) {
		return pick, nil // what starts badly with all joined starts no better with fewer
	}
	for enough-little > 1 && ctx.Err() == nil {
		middle := (little + enough) / 2
		joined, err := d.join(holes[:middle])
		if err != nil {
			return nil, err
		}
		if some := joined.try(ctx, o, all.newton.stats); some.bearsApart(ctx, o, all) {
			pick, enough = some, middle
		} else {
			little = middle
		}
	}
	return pick, nil
}

// try lays a disc with its holes open, unless it soon shows that this is dear:
// then nil.
func (d *disc) try(ctx context.Context, o Options, stats *Stats) *laying {
	l, err := d.begin(o, stats)
	if err != nil || l.density > openLevel {
		return nil
	}
	few := o
	few.Steps = min(o.Steps, openSteps)
	if err := l.loosen(ctx, few); err != nil || l.status == OutOfSteps && few.Steps < o.Steps {
		return nil
	}
	return l
}

// bears says whether a laying is good enough beside that with all holes joined.
func (l *laying) bears(all *laying) bool {
	least, over := all.density-4, l.density-4
	return l.overlaps <= all.overlaps && (over <= holesLeast || least > unrolls && over <= least+holesMost)
}

// bearsApart says so of a laying, if there is one, that is laid apart first where
// that with all holes joined had to be.
func (l *laying) bearsApart(ctx context.Context, o Options, all *laying) bool {
	if l == nil || all.newton.sheet.fence != nil && l.apart(ctx, o) != nil {
		return false
	}
	return l.bears(all)
}

// hidden returns the holes of a disc, those that hide most curvature first, and
// how much each does, radians: by so much less than a whole turn their edge turns
// to the right. A level hole hides none, nor does one in what unrolls that could
// be cut out of its pattern.
func (d *disc) hidden() (holes [][]int32, secret []float64, err error) {
	s, err := newSheet(d.mesh)
	if err != nil {
		return nil, nil, err
	}
	turn := defects(s, d.border.corners) // of each corner, to the left
	of := func(hole []int32) float64 {
		sum := 2 * math.Pi
		for _, v := range hole {
			sum += turn[v]
		}
		return sum
	}
	holes = slices.Clone(d.border.holes())
	slices.SortStableFunc(holes, func(a, b []int32) int { return cmp.Compare(math.Abs(of(b)), math.Abs(of(a))) })
	for _, hole := range holes {
		secret = append(secret, of(hole))
	}
	return holes, secret, nil
}
