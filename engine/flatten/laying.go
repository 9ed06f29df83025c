package flatten

import (
	"context"

	"fettle/fault"
	"fettle/geom"
)

// laying is a disc laid as near to isometry as can be.
type laying struct {
	disc      *disc
	newton    *newton // holds its sheet
	at        []geom.Point
	status    Status
	conformal Strain
	density   float64
	overlaps  int
}

// free lays a disc flat, its holes open, as though it might cover itself.
func (d *disc) free(ctx context.Context, o Options, stats *Stats) (*laying, error) {
	l, err := d.begin(o, stats)
	if err != nil {
		return nil, err
	}
	return l, l.loosen(ctx, o)
}

// begin finds flat positions that turn no face over, scaled as suits the energy
// best, and notes the strain of the conformal map.
func (d *disc) begin(o Options, stats *Stats) (*laying, error) {
	s, err := newSheet(d.mesh)
	if err != nil {
		return nil, err
	}
	o.tell("conformal", 0, 1)
	l := &laying{disc: d, newton: newNewton(s, dirichlet{}, stats)}
	f := d.filled(s)
	weights, err := newLaplace(f.sheet, f.rim, stats)
	if err != nil {
		return nil, err
	}
	at, _ := conformal(f.sheet, weights, f.rim, stats)
	l.at = at[:s.vertices]
	s.scale(l.at)
	l.conformal = sumUp(s, l.at, faceStrains(s, l.at), d.border)
	if l.conformal.Flips > 0 || s.branched(l.at, d.border) {
		if l.at, err = l.rounded(f, weights); err != nil {
			return nil, err
		}
	}
	l.look()
	return l, nil
}

// look takes down how the disc lies.
func (l *laying) look() {
	s := l.newton.sheet
	l.density, l.overlaps = s.total(dirichlet{}, l.at)/s.area, s.overlaps(l.at, l.disc.border)
}

// loosen moves the disc to the least energy.
func (l *laying) loosen(ctx context.Context, o Options) (err error) {
	o.tell("isometric", 0, o.Steps)
	l.status, err = l.newton.loosen(ctx, l.at, o)
	l.look()
	return err
}

// rounded returns flat positions on a round disc that turn no face over.
func (l *laying) rounded(f filling, weights *laplace) ([]geom.Point, error) {
	s, stats := l.newton.sheet, l.newton.stats
	if err := weights.raise(f.near, stats); err != nil {
		return nil, err
	}
	at := round(f.sheet, weights, f.rim, stats)
	if f.sheet.flipped(at) > 0 {
		if err := weights.even(stats); err != nil {
			return nil, err
		}
		at = round(f.sheet, weights, f.rim, stats)
	}
	if n := f.sheet.flipped(at); n > 0 {
		return nil, fault.New(fault.Invalid, "%d faces are too much pressed together to be laid flat in one piece", n).
			WithHint("cut the surface where it bulges most")
	}
	at = at[:s.vertices]
	s.scale(at)
	return at, nil
}

// dearest is how many times the energy a pattern may have that does not cover
// itself before it is given up for the one that does: then only a cut helps.
const dearest = 2

// apart lays a disc anew if its outline crosses itself: from a round disc, whose
// outline does not, with a fence along it.
func (l *laying) apart(ctx context.Context, o Options) error {
	n := l.newton
	if l.overlaps == 0 {
		return nil
	}
	f := l.disc.filled(n.sheet)
	weights, err := newLaplace(f.sheet, f.rim, n.stats)
	if err != nil {
		return err
	}
	other, err := l.rounded(f, weights)
	if err != nil {
		return nil // too much pressed together for a round disc: the overlap is told
	}
	n.sheet.fence = newFence(n.sheet, l.disc.border)
	status, err := n.loosen(ctx, other, o)
	if err != nil {
		return err
	}
	if n.sheet.total(n.energy, other) > dearest*n.sheet.area*l.density {
		n.sheet.fence = nil
		return nil
	}
	l.status, l.at = status, other
	l.look()
	return nil
}
