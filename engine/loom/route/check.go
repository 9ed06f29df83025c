package route

import (
	"math"
	"slices"

	"fettle/engine/loom/circles"
	"fettle/fault"
)

// checker reads the raw problem by itself.
type checker struct {
	p      Problem
	r      Rules
	node   map[string]Node
	length []float64
}

// Check holds a result to the raw problem: the stretches are a forest without
// forbidden ones, every wire goes from end to end over them and is as long as
// said, every bundle holds the wires that pass and no two of them overlap, holes
// pass what goes through them or are told, and the costs add up. It shares the
// rules' defaults with Solve and nothing else.
func Check(p Problem, r Result) error {
	c := checker{p: p, r: p.Rules.filled(), node: map[string]Node{}, length: make([]float64, len(p.Edges))}
	for _, n := range p.Nodes {
		c.node[n.ID] = n
	}
	for i, e := range p.Edges {
		c.length[i] = e.Length
		if e.Length == 0 {
			last := c.node[e.From].At
			for _, v := range append(slices.Clone(e.Via), c.node[e.To].At) {
				c.length[i] += math.Sqrt(sq(v[0]-last[0]) + sq(v[1]-last[1]) + sq(v[2]-last[2]))
				last = v
			}
		}
	}
	for _, f := range []func(Result) error{c.forest, c.wires, c.bundles, c.holes} {
		if err := f(r); err != nil {
			return err
		}
	}
	return nil
}

func sq(x float64) float64 { return x * x }

func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-6*(1+math.Abs(b)) }

func wrong(where, format string, args ...any) error {
	return fault.New(fault.Internal, format, args...).At(where)
}

func (c *checker) forest(r Result) error {
	top := map[string]string{}
	var find func(s string) string
	find = func(s string) string {
		if t, ok := top[s]; ok && t != s {
			return find(t)
		}
		return s
	}
	cost, length := 0.0, 0.0
	for _, s := range r.Runs {
		e := c.p.Edges[s.Edge]
		if e.Forbidden != "" {
			return wrong("stretch "+s.ID, "it is forbidden: %s", e.Forbidden)
		}
		a, b := find(e.From), find(e.To)
		if a == b {
			return wrong("stretch "+s.ID, "it closes a ring")
		}
		top[a] = b
		x := c.length[s.Edge]
		length += x
		if c.node[e.From].New || c.node[e.To].New {
			x *= 1 + c.r.NewHole
		}
		cost += x
	}
	if !alike(r.Tree.Cost, cost) || !alike(r.Tree.Length, length) || r.Tree.Bound > cost+1e-6*cost {
		return wrong("tree", "cost %v, length %v, bound %v, said are %v, %v", cost, length, r.Tree.Bound, r.Tree.Cost, r.Tree.Length)
	}
	return nil
}

// wires walks every wire from its start.
func (c *checker) wires(r Result) error {
	if len(r.Wires) != len(c.p.Wires) {
		return wrong("wires", "%d of %d", len(r.Wires), len(c.p.Wires))
	}
	joint := map[string]Joint{}
	for _, j := range r.Splices {
		joint[j.ID] = j
	}
	own := map[int]bool{}
	for _, s := range r.Runs {
		own[s.Edge] = true
	}
	for i, l := range r.Wires {
		w := c.p.Wires[i]
		if l.Cut == 0 {
			if r.Status != Infeasible && r.Status != Interrupted {
				return wrong("wire "+w.ID, "it has no way, and nothing says so")
			}
			continue
		}
		here, along, extra := w.From.Node, 0.0, 2*c.r.Strip
		for k, s := range l.Steps {
			e := c.p.Edges[s.Edge]
			if !own[s.Edge] {
				return wrong("wire "+w.ID, "step %d leaves the tree", k+1)
			}
			next, ok := step(e, c.length[s.Edge], s, here, w.To.Node, joint)
			if !ok {
				return wrong("wire "+w.ID, "step %d does not go on from %s", k+1, here)
			}
			here = next
			d := math.Abs(s.To - s.From)
			along += d
			slack := e.Slack
			if slack == 0 {
				slack = c.r.Slack
			}
			extra += d * slack
			if e.Flex != "" {
				extra += c.r.FlexSlack
			}
		}
		if here != w.To.Node {
			return wrong("wire "+w.ID, "it ends at %s", here)
		}
		for _, end := range []string{w.From.Node, w.To.Node} {
			n, ok := c.node[end]
			if !ok {
				continue
			}
			extra += n.Stub
			if n.NoService {
				continue
			}
			if n.Service == 0 {
				n.Service = c.r.Service
			}
			extra += n.Service
		}
		if !alike(l.Along, along) || l.Cut < along+extra-1e-6 || l.Cut > along+extra+c.r.RoundUp || !alike(math.Round(l.Cut/c.r.RoundUp)*c.r.RoundUp, l.Cut) {
			return wrong("wire "+w.ID, "%v along and %v with all, said are %v and %v", along, along+extra, l.Along, l.Cut)
		}
	}
	return nil
}

// step follows one step from a name to the next.
func step(e Edge, long float64, s Step, here, last string, joint map[string]Joint) (string, bool) {
	on := func(at float64, name string) bool {
		if j, ok := joint[name]; ok {
			return j.Edge == s.Edge && alike(j.At, at)
		}
		return at == 0 && name == e.From || alike(at, long) && name == e.To
	}
	if !on(s.From, here) || math.Min(s.From, s.To) < 0 || math.Max(s.From, s.To) > long+1e-6 {
		return "", false
	}
	switch {
	case on(s.To, last):
		return last, true
	case s.To == 0:
		return e.From, true
	case alike(s.To, long):
		return e.To, true
	}
	return "", false
}

func (c *checker) bundles(r Result) error {
	for _, s := range r.Runs {
		var want []int
		for i, l := range r.Wires {
			if slices.ContainsFunc(l.Steps, func(t Step) bool { return t.Edge == s.Edge }) {
				want = append(want, i)
			}
		}
		if !slices.Equal(want, s.Wires) {
			return wrong("stretch "+s.ID, "wires %v run in it, said are %v", want, s.Wires)
		}
		d := make([]float64, len(want))
		for k, i := range want {
			d[k] = c.p.Wires[i].Outside
		}
		if err := circles.Check(d, circles.Packing{Diameter: s.Packed, At: s.At}); err != nil {
			return fault.Within(err, "stretch "+s.ID)
		}
		wall := map[Cover]float64{Tape: c.r.TapeWall, Sleeve: c.r.SleeveWall, Bare: 0}[s.Cover]
		if len(want) > 0 && (!alike(s.Outside, s.Packed+2*wall) || !alike(s.Bend, c.r.Bend*s.Outside)) {
			return wrong("stretch "+s.ID, "%v outside, bend %v", s.Outside, s.Bend)
		}
	}
	return nil
}

func (c *checker) holes(r Result) error {
	row := map[string]HoleRow{}
	for _, h := range r.Holes {
		row[h.ID] = h
	}
	for _, s := range r.Runs {
		for _, end := range []string{s.From, s.To} {
			n := c.node[end]
			told := r.Status == Infeasible || r.Status == Interrupted
			if n.Kind == Hole {
				h, ok := row[end]
				if !ok || len(s.Wires) > 0 && h.Bundle < s.Outside-1e-6 {
					return wrong("hole "+end, "stretch %s of %v passes, said is %v", s.ID, s.Outside, h.Bundle)
				}
				largest := h.Inside
				if n.Largest > 0 {
					largest = n.Largest
				}
				if h.Fits != (h.Bundle <= largest) || !h.Fits && !told {
					return wrong("hole "+end, "%v through %v", h.Bundle, largest)
				}
			}
			if n.Kind != Hole && n.Largest > 0 && s.Outside > n.Largest+1e-6 && !told {
				return wrong("waypoint "+end, "%v in %v", s.Outside, n.Largest)
			}
		}
	}
	return nil
}
