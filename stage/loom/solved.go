package loom

import (
	"context"
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/loom"
	"fettle/engine/loom/route"
	"fettle/takeoff"
)

// solved is the loom worked out: the net, the route where one is drawn, and
// what is cut.
type solved struct {
	b     *build.Build
	p     loom.Problem // as solved: its lengths and bundles are those of the route where they are asked for
	r     loom.Result
	ways  *route.Problem
	led   *route.Result
	known sizes
	cuts  []Cut
	unled []takeoff.Check // why nothing is drawn
}

// mostRounds is how often net and route are worked out in turn: the route packs
// the sections, and the full rules ask what lies beside a wire on the route.
const mostRounds = 4

// solve works a loom out, its route included where one is drawn. A loom that is
// faulty in form is an error with its place.
func solve(ctx context.Context, b *build.Build) (solved, error) {
	s := solved{b: b, p: ProblemOf(b)}
	stated := s.p.Runs()
	for range mostRounds {
		r, err := loom.Solve(ctx, s.p, loom.Options{})
		if err != nil {
			return s, err
		}
		same := s.led != nil && slices.EqualFunc(r.Runs, s.r.Runs, func(a, b loom.Sized) bool { return a.Section == b.Section })
		s.r = r
		if same || !s.lead(ctx) || !s.learn() {
			break
		}
	}
	s.known = sizesOf(s.p, s.r)
	s.cuts = cutsOf(b, s.p, s.r, stated)
	if s.led != nil {
		s.cuts = branched(b, s.cuts, *s.led, *s.ways)
	}
	s.inOrder()
	for i, c := range s.cuts {
		s.cuts[i].Outside = outside(s.known[c.Section])
	}
	return s, nil
}

// lead works the route out, and reports whether there is one.
func (s *solved) lead(ctx context.Context) bool {
	ways, ok := RouteOf(s.b, s.p, s.r)
	if !ok {
		return false
	}
	led, err := route.Solve(ctx, ways, route.Options{})
	if err != nil {
		s.ways, s.led, s.unled = nil, nil, []takeoff.Check{unrouted(err)}
		return false
	}
	s.ways, s.led = &ways, &led
	return true
}

// learn takes over from the route what is asked of it: what lies together by
// the full rules, and lengths where the shop chose so. It reports whether there
// was something.
func (s *solved) learn() bool {
	by := s.b.Loom.Settings.ByRoute
	if s.r.Rules.Counted {
		s.p.Bundles = bundlesOf(s.led)
	}
	if by {
		for i := range s.p.Circuits {
			s.p.Circuits[i].LengthM = routed(s.led, s.p.Circuits[i].Run)
		}
		for i := range s.p.Wires {
			s.p.Wires[i].LengthM = routed(s.led, s.p.Wires[i].Run)
		}
	}
	return by || s.r.Rules.Counted
}

// routed is the length of a run in metres: along the route, or as listed where
// it is not drawn.
func routed(led *route.Result, run loom.Run) float64 {
	if mm := longest(led, run.ID); mm > 0 {
		return mm / 1000
	}
	return run.LengthM
}

// bundlesOf is what lies together on each stretch of the route. A circuit and
// its branches count as one run, and as many wires as lie there.
func bundlesOf(led *route.Result) []loom.Bundle {
	var list []loom.Bundle
	for _, x := range led.Runs {
		b := loom.Bundle{Name: "stretch " + x.ID, Wires: len(x.Wires)}
		for _, i := range x.Wires {
			if c := circuitOfWire(led.Wires[i].ID); !slices.Contains(b.Runs, c) {
				b.Runs = append(b.Runs, c)
			}
		}
		list = append(list, b)
	}
	return list
}

// inFull is what the full rules would choose for each run, where the loom is
// worked out by others; nothing where it is not, or cannot be.
func (s *solved) inFull(ctx context.Context) []loom.Sized {
	if s.r.Rules.Counted {
		return nil
	}
	p := s.p
	p.Rules = loom.InFull
	if s.led != nil {
		p.Bundles = bundlesOf(s.led)
	}
	r, err := loom.Solve(ctx, p, loom.Options{})
	if err != nil {
		return nil
	}
	return r.Runs
}

// inFullWords says what the full rules chose.
func inFullWords(x loom.Sized) string {
	words := fmt.Sprintf("%s mm² (%s)", x.Section, x.Rule)
	for _, f := range x.Fails {
		words += fmt.Sprintf(", and it fails: %s", f)
	}
	return words
}
