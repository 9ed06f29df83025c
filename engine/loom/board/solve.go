package board

import (
	"context"
	"fmt"
	"math"
	"slices"

	"fettle/engine/loom/route"
	"fettle/fault"
	"fettle/geom"
)

// filled puts the defaults in.
func (r Rules) filled() (Rules, error) {
	for _, x := range []struct {
		name               string
		v                  *float64
		habit, least, most float64
	}{
		{"width_mm", &r.Width, 0, 0, 1e5}, {"height_mm", &r.Height, 0, 0, 1e5}, {"margin_mm", &r.Margin, 60, 1, 1000},
		{"apart_mm", &r.Apart, 25, 1, 50}, {"peg_pitch_mm", &r.Pitch, 200, 20, 2000}, {"label_from_mm", &r.LabelFrom, 40, 1, 500},
	} {
		if *x.v == 0 {
			*x.v = x.habit
		}
		if !(*x.v >= x.least && *x.v <= x.most) {
			return r, fault.New(fault.Invalid, "%v", *x.v).At("rules, " + x.name).WithHint(fmt.Sprintf("between %v and %v", x.least, x.most))
		}
	}
	return r, nil
}

// desk is a problem at work.
type desk struct {
	p     Problem
	r     Rules
	node  map[string]int
	ends  []geom.Point // faces: width and height of each node's connector
	wires [][]seat     // that end in each node
	words []Text       // to be spread
	out   Result
}

// Solve lays a routed loom flat and draws it. The routed result is first held
// to its problem. Cancelled, it lays in wedges.
func Solve(ctx context.Context, p Problem) (Result, error) {
	r, err := p.Rules.filled()
	if err != nil {
		return Result{}, err
	}
	if err := route.Check(p.Loom, p.Routed); err != nil {
		return Result{}, fault.Wrap(fault.Invalid, err, "the routed loom does not hold")
	}
	d := &desk{p: p, r: r, node: map[string]int{}}
	for i, n := range p.Loom.Nodes {
		d.node[n.ID] = i
	}
	d.faceSizes()
	t := d.tree()
	d.out.Status = Laid
	if err := d.layAll(ctx, t); err != nil {
		return Result{}, err
	}
	d.draw(t)
	return d.out, nil
}

// tree takes over the stretches; room beyond an end is kept for its connector.
func (d *desk) tree() *tree {
	arms := make([]arm, len(d.p.Routed.Runs))
	for i, s := range d.p.Routed.Runs {
		arms[i] = arm{a: d.node[s.From], b: d.node[s.To], length: s.Length, half: min(s.Outside/2, 25), bend: min(s.Bend, 150), run: i}
	}
	end := make([]float64, len(d.p.Loom.Nodes))
	for v, size := range d.ends {
		if size.X > 0 {
			end[v] = math.Hypot(size.X, size.Y) + faceGap
		}
	}
	return newTree(len(d.p.Loom.Nodes), arms, end)
}

// layAll lays every tree of the forest and stacks them.
func (d *desk) layAll(ctx context.Context, t *tree) error {
	var roots []int
	seen := make([]bool, t.n)
	total := 0.0
	for v := range t.n {
		if seen[v] || len(t.at[v]) == 0 {
			continue
		}
		roots = append(roots, v)
		for _, u := range t.hang(v) {
			seen[u] = true
			if e := t.up[u]; e >= 0 {
				total += t.arms[e].length
			}
		}
	}
	if len(roots) == 0 {
		return fault.New(fault.Invalid, "no wire leads from one place to another").At("routed, stretches").WithHint("a loom has at least one stretch")
	}
	y, width, fits := 0.0, 0.0, true
	for _, root := range roots {
		share := d.r
		if len(roots) > 1 && share.Height > 0 {
			own := 0.0
			for _, u := range t.hang(root) {
				if e := t.up[u]; e >= 0 {
					own += t.arms[e].length
				}
			}
			share.Height *= own / total
		}
		box, ok := d.layOne(ctx, t, root, share)
		fits = fits && ok
		d.shift(t, root, geom.Point{Y: y})
		y += box.Y
		width = max(width, box.X)
	}
	d.out.Width, d.out.Height = width, y
	if d.r.Width > 0 && d.r.Width >= width && d.r.Height == 0 {
		d.out.Width = d.r.Width
	}
	if d.r.Width > 0 && d.r.Height > 0 && width <= d.r.Width+1e-9 && y <= d.r.Height+1e-9 {
		d.out.Width, d.out.Height = d.r.Width, d.r.Height
	} else if d.r.Width > 0 && width > d.r.Width || d.r.Height > 0 && y > d.r.Height {
		fits = false
	}
	if !fits && (d.r.Width > 0 || d.r.Height > 0) {
		d.out.Status = TooLarge
		d.out.Findings = append(d.out.Findings, route.Finding{Rule: RuleBoard, Where: "board",
			Text: fmt.Sprintf("the loom was not laid on %s by %s", size(d.r.Width), size(d.r.Height)),
			Hint: fmt.Sprintf("it lies on %.0f by %.0f mm; or build it in two parts", math.Ceil(d.out.Width), math.Ceil(d.out.Height))})
	}
	return nil
}

func size(x float64) string {
	if x == 0 {
		return "any size"
	}
	return fmt.Sprintf("%.0f mm", x)
}

// tries is how often a tree is laid anew with what had trouble laid earlier.
const tries = 8

// layOne lays one tree: on the board where it has a size, else, or where that
// fails, on one as large as it takes. It returns what it takes.
func (d *desk) layOne(ctx context.Context, t *tree, root int, r Rules) (box geom.Point, fits bool) {
	first, trunk := t.trunk(root)
	t.hang(first)
	if r.Width > 0 {
		height := r.Height
		if height == 0 {
			height = r.Width
		}
		for _, grow := range []float64{1, 1.25, 1.6, 2, 3} { // as it is, else how large it must be
			by := r
			by.Width *= grow
			if d.inRows(ctx, t, first, trunk, by, height*grow) {
				return geom.Point{X: by.Width, Y: height * grow}, grow == 1
			}
		}
	}
	length := 0.0
	for _, e := range trunk {
		length += t.arms[e].length
	}
	if kept := d.best(ctx, t, first, straight(length), trunk, geom.Point{}); kept != nil {
		d.take(t, kept)
	} else {
		wedges(t, first)
		d.out.Status = Wedges
		if ctx.Err() != nil {
			d.out.Status = Interrupted
		}
		d.out.Findings = append(d.out.Findings, route.Finding{Rule: RuleCloser, Where: "the loom", Text: "branches found no free way and were laid in wedges, at the angles that these leave", Hint: "move breakouts apart, or build it in two parts"})
	}
	return d.toCorner(t, first), r.Width == 0 && r.Height == 0
}

// inRows lays a tree on a board of a size, its trunk in as many rows as keep
// most of what is asked; false where it fits in none.
func (d *desk) inRows(ctx context.Context, t *tree, root int, trunk []int, r Rules, height float64) bool {
	var kept *laid
	least := 0
	for n := 1; n <= 12 && (least == 0 || n < least+4); n++ {
		for _, reserve := range [2]float64{min(0.1*r.Width, 200), 20} {
			line := rows(t, trunk, r.Width, height, r.Margin, reserve, n)
			if line == nil {
				continue
			}
			if least == 0 {
				least = n
			}
			got := d.best(ctx, t, root, line, trunk, geom.Point{X: r.Width - r.Margin, Y: height - r.Margin})
			if got != nil && (kept == nil || got.worst < kept.worst) {
				kept = got
			}
			if kept != nil && kept.worst < closer {
				d.take(t, kept)
				return true
			}
		}
	}
	if kept == nil {
		return false
	}
	d.take(t, kept)
	return true
}

// laid is a tree's layout set aside.
type laid struct {
	*layout
	pos  []geom.Point
	path [][]geom.Point
}

// best lays a tree a few times along one trunk and keeps the layout that asks
// for the least to be lowered; nil where none was found.
func (d *desk) best(ctx context.Context, t *tree, root int, start []geom.Point, trunk []int, bound geom.Point) *laid {
	first := make([]float64, len(t.arms))
	for i := range first {
		first[i] = 1
	}
	var kept *laid
	for range tries {
		l := d.layout(t, root, bound)
		l.first = first
		if l.lay(ctx, root, start, trunk) && (kept == nil || l.worst < kept.worst) {
			kept = &laid{l, slices.Clone(t.pos), slices.Clone(t.path)}
		}
		if l.worst < closer || ctx.Err() != nil {
			break
		}
		l.trouble()
	}
	return kept
}

// take puts a layout back that was set aside, the other trees left alone.
func (d *desk) take(t *tree, kept *laid) {
	for _, v := range t.hang(kept.root) {
		t.pos[v] = kept.pos[v]
		if e := t.up[v]; e >= 0 {
			t.path[e] = kept.path[e]
		}
	}
	d.told(kept.layout)
}

func (d *desk) layout(t *tree, root int, bound geom.Point) *layout {
	for _, v := range t.hang(root) {
		if e := t.up[v]; e >= 0 {
			t.path[e] = nil
		}
	}
	return &layout{t: t, root: root, apart: d.r.Apart, f: &field{cells: map[[2]int32][]int32{}, bound: bound, margin: d.r.Margin}}
}

// told notes branches that were laid closer than asked.
func (d *desk) told(l *layout) {
	if l.worst < closer {
		return
	}
	if d.out.Status == Laid {
		d.out.Status = Narrowed
	}
	lv := levels[l.worst]
	d.out.Findings = append(d.out.Findings, route.Finding{Rule: RuleCloser, Where: "stretch " + d.p.Routed.Runs[l.t.arms[l.where].run].ID,
		Text: fmt.Sprintf("laid at %.0f mm from others and at least %.0f° at its breakout; asked were %.0f mm and 30°", lv.apart*l.apart, lv.angle/deg, l.apart),
		Hint: "turn the branch by hand, or move its breakout"})
}

// shift moves a tree.
func (d *desk) shift(t *tree, root int, by geom.Point) {
	for _, v := range t.hang(root) {
		t.pos[v] = t.pos[v].Add(by)
		if e := t.up[v]; e >= 0 {
			for i := range t.path[e] {
				t.path[e][i] = t.path[e][i].Add(by)
			}
		}
	}
}

// toCorner moves a tree to the corner of the board and returns what it takes.
func (d *desk) toCorner(t *tree, root int) geom.Point {
	lo, hi := geom.Point{X: math.Inf(1), Y: math.Inf(1)}, geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, v := range t.hang(root) {
		room := t.end[v]
		see := []geom.Point{t.pos[v]}
		if e := t.up[v]; e >= 0 {
			see = append(see, t.path[e]...)
		}
		for i, p := range see {
			if i > 0 {
				room = 0
			}
			lo = geom.Point{X: min(lo.X, p.X-room), Y: min(lo.Y, p.Y-room)}
			hi = geom.Point{X: max(hi.X, p.X+room), Y: max(hi.Y, p.Y+room)}
		}
	}
	m := d.r.Margin
	d.shift(t, root, geom.Point{X: m - lo.X, Y: m - lo.Y})
	return geom.Point{X: hi.X - lo.X + 2*m, Y: hi.Y - lo.Y + 2*m}
}
