package nest

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/geom"
	"fettle/geom/overlay"
)

// flawless is the quality of material outside all zones, which pieces of
// quality 0 ask for.
const flawless = math.MaxInt

// need is how much area asks for a quality or a better one.
type need struct {
	quality int
	area    float64
}

// needs lists, for every quality that some piece asks for, the area of all
// pieces that ask for that or a better one. A piece with zones of its own
// counts with the least quality that any part of it will do with.
func (b *packing) needs() []need {
	var list []need
	asked := make([]int, len(b.problem.Pieces))
	for i := range b.problem.Pieces {
		asked[i] = b.leastAsked(i)
		if !slices.ContainsFunc(list, func(n need) bool { return n.quality == asked[i] }) {
			list = append(list, need{quality: asked[i]})
		}
	}
	for k := range list {
		for _, it := range b.items {
			if asked[it.piece] >= list[k].quality {
				list[k].area += b.forms[it.piece].area
			}
		}
	}
	slices.SortFunc(list, func(p, q need) int { return cmp.Compare(p.quality, q.quality) })
	return list
}

func askedOf(quality int) int {
	if quality == 0 {
		return flawless
	}
	return quality
}

// usable is the area of a container that is of a quality or a better one:
// the outline without holes, keep-outs and poorer zones.
func usable(c *Container, quality int) (float64, error) {
	out := append([]geom.Polygon{}, c.KeepOut...)
	for _, z := range c.Zones {
		if z.Quality < quality {
			out = append(out, z.Shape)
		}
	}
	if len(out) == 0 {
		return c.Outline.Area(), nil
	}
	rest, err := overlay.Subtract([]geom.Polygon{c.Outline}, out)
	sum := 0.0
	for _, p := range rest {
		sum += p.Area()
	}
	return sum, err
}

// measure works out what every sheet has of every quality asked for. Rounding
// in what an area is worth is given away, so that the bound stays one.
func (b *packing) measure() error {
	b.asked = b.needs()
	for i := range b.problem.Containers {
		var have []float64
		for _, n := range b.asked {
			area, err := usable(&b.problem.Containers[i], n.quality)
			if err != nil {
				return err
			}
			have = append(have, area*(1+1e-9))
		}
		b.have = append(b.have, have)
	}
	for i := range b.sheets {
		b.sheets[i].free = b.have[b.sheets[i].container][0]
	}
	return nil
}

// enough says whether sheets have the area of every quality that is asked for.
// Where they do not, no layout exists; where they do, there may be none either.
func (b *packing) enough(sheets []int) bool {
	_, short := b.short(sheets)
	return short <= 0
}

// short returns the quality that sheets lack most of, and how much.
func (b *packing) short(sheets []int) (quality int, area float64) {
	area = math.Inf(-1)
	for k, n := range b.asked {
		sum := n.area
		for _, s := range sheets {
			sum -= b.have[b.sheets[s].container][k]
		}
		if sum > area {
			quality, area = n.quality, sum
		}
	}
	return quality, area
}

// leastCost is a cost that no layout of all copies can go below: for every
// quality, the cost of the cheapest area that is enough of it, the last sheet
// counted in part unless all cost the same.
func (b *packing) leastCost() float64 {
	most, same := 0.0, true
	for _, s := range b.sheets {
		same = same && s.cost == b.sheets[0].cost
	}
	for k, n := range b.asked {
		order := slices.Clone(b.sheets)
		have := func(s sheet) float64 { return b.have[s.container][k] }
		slices.SortStableFunc(order, func(p, q sheet) int { return cmp.Compare(p.cost*have(q), q.cost*have(p)) })
		cost, left := 0.0, n.area
		for _, s := range order {
			if left <= 0 {
				break
			}
			share := 1.0
			if !same && have(s) > left {
				share = left / have(s)
			}
			cost += s.cost * share
			left -= have(s)
		}
		most = max(most, cost)
	}
	return most
}

// mostValue is a value that no layout in a knapsack can pass: the pieces that
// are worth most for their area, until the area is full.
func (b *packing) mostValue() float64 {
	order, left, sum := slices.Clone(b.units), 0.0, 0.0
	for _, s := range b.sheets {
		have := b.have[s.container]
		left += have[0]
	}
	slices.SortStableFunc(order, func(p, q unit) int { return cmp.Compare(q.value*p.area, p.value*q.area) })
	for _, u := range order {
		if left <= 0 {
			break
		}
		sum += u.value * min(1, left/u.area)
		left -= u.area
	}
	return sum
}

// reason says why not all copies are laid: a proof where there is one.
func (b *packing) reason() string {
	for i := range b.problem.Pieces {
		if why := b.fitsNowhere(i); why != "" {
			return nameOf(b.problem, i) + ": " + why
		}
	}
	for n := range b.units {
		if u := &b.units[n]; len(u.items) > 1 && !b.laid(u) && !slices.ContainsFunc(b.sheets, func(s sheet) bool { return b.mayTake(u, s) }) {
			p := &b.problem.Pieces[b.items[u.items[0]].piece]
			if p.Group != "" {
				return fmt.Sprintf("group %s: together its pieces ask for more area than any one sheet has of their quality", p.Group)
			}
			return fmt.Sprintf("%s and its mate: together they ask for more area than any one sheet has of their quality", nameOf(b.problem, b.items[u.items[0]].piece))
		}
	}
	all := make([]int, len(b.sheets))
	for i := range all {
		all[i] = i
	}
	if quality, area := b.short(all); area > 0 {
		what := "material without fault"
		if quality != flawless {
			what = fmt.Sprintf("material of quality %d or better", quality)
		}
		return fmt.Sprintf("the pieces ask for %.6g more area of %s than there is", area, what)
	}
	for i, on := range b.now.on {
		if on == unlaid {
			it := b.items[i]
			return fmt.Sprintf("no place was found for %s, copy %d; a larger budget may find one", nameOf(b.problem, it.piece), it.copy+1)
		}
	}
	return ""
}

// fitsNowhere proves that a piece fits on no sheet, or returns "".
func (b *packing) fitsNowhere(i int) string {
	f, asked := &b.forms[i], 0
	least := b.leastAsked(i)
	for k, n := range b.asked {
		if n.quality == least {
			asked = k
		}
	}
	small, narrow := true, true
	for _, s := range b.sheets {
		small = small && f.area > b.have[s.container][asked]
		narrow = narrow && !b.mayHold(i, s)
	}
	switch {
	case small:
		return "it is larger than what any sheet has of its quality"
	case narrow:
		return "it is too long or too wide for every sheet in every turn allowed"
	}
	return ""
}

// mayTake is false where a sheet lacks the area of some quality that the copies
// of a unit ask for.
func (b *packing) mayTake(u *unit, s sheet) bool {
	for k, n := range b.asked {
		sum := 0.0
		for _, i := range u.items {
			if it := b.items[i]; b.leastAsked(it.piece) >= n.quality {
				sum += b.forms[it.piece].area
			}
		}
		if sum > b.have[s.container][k] {
			return false
		}
	}
	return true
}

// leastAsked is the least quality that any part of a piece will do with.
func (b *packing) leastAsked(i int) int {
	p := &b.problem.Pieces[i]
	least := askedOf(p.Quality)
	for _, z := range p.Zones {
		least = min(least, askedOf(z.Quality))
	}
	return least
}

// mayHold is false where a piece is longer or wider than a sheet in every turn.
func (b *packing) mayHold(i int, s sheet) bool {
	outline := b.problem.Containers[s.container].Outline
	box := outline.Bounds()
	if b.problem.Pieces[i].Free {
		return b.forms[i].diameter <= math.Hypot(box.Width(), box.Height()) &&
			narrowWay(b.problem.Pieces[i].Shape) <= narrowWay(outline)
	}
	return slices.ContainsFunc(b.forms[i].turns, func(t turn) bool {
		return t.box.Width() <= box.Width() && t.box.Height() <= box.Height()
	})
}

// narrowWay is how far apart two parallel lines have to be at least for a
// shape to lie between them: one runs along an edge of its hull.
func narrowWay(p geom.Polygon) float64 {
	hull, least := geom.Hull(p.Outer), math.Inf(1)
	for i, a := range hull {
		b, far := hull[(i+1)%len(hull)], 0.0
		for _, q := range hull {
			far = max(far, math.Abs(leftward(a, b, q)))
		}
		least = min(least, far/a.Distance(b))
	}
	return least
}
