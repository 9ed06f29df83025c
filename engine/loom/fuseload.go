package loom

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/figure"
)

// fuses tells what every fuse carries for long, from the list of circuits and
// from the net, and whether it may.
func (s *sizer) fuses() []FuseLoad {
	behind := s.behind()
	list := make([]FuseLoad, len(s.p.Fuses))
	for i, f := range s.p.Fuses {
		one := FuseLoad{Name: f.Name, Amps: f.Amps}
		terms := s.listed(f, &one)
		if len(s.n.wires) > 0 {
			one.LongA += s.long[i]
			one.ShortA = max(one.ShortA, s.all[i])
			for _, c := range behind[i] {
				one.Feeds = append(one.Feeds, s.p.Consumers[c].Name)
			}
			if s.long[i] > 0 {
				terms = append(terms, fmt.Sprintf("net %.1f", s.long[i]))
			}
		}
		one.NeedA = max(one.LongA/s.rules.FuseLoad, s.briefly(i, one))
		one.Flag = over(one.LongA, s.rules.FuseLoad*f.Amps)
		one.Inrush = s.inrush(i, behind[i])
		one.Window = s.window(i, one.NeedA)
		one.Working = s.fuseWorking(i, one, terms)
		list[i] = one
	}
	return list
}

// briefly is the rating that what a fuse carries for seconds asks for: within the
// multiple at which it holds that long for certain. Without loads of seconds it
// asks for nothing.
func (s *sizer) briefly(i int, one FuseLoad) float64 {
	if !over(one.ShortA, one.LongA) {
		return 0
	}
	return one.ShortA / s.curves[i].Holds(s.rules.ShortS)
}

// listed sums the circuits of a fuse; those that exclude each other count once,
// those of seconds not.
func (s *sizer) listed(f Fuse, one *FuseLoad) []string {
	var amps []float64
	var ids, terms []string
	for i := range s.p.Circuits {
		c := &s.p.Circuits[i]
		if c.Fuse != f.Name {
			continue
		}
		one.Feeds = append(one.Feeds, c.ID)
		if c.Duty == Short {
			one.ShortA += c.Amps
			continue
		}
		amps, ids, terms = append(amps, c.Amps), append(ids, c.ID), append(terms, fmt.Sprintf("%s %g", c.ID, c.Amps))
	}
	one.LongA = together(amps, func(i, j int) bool { return s.p.never(ids[i], ids[j]) })
	one.ShortA += one.LongA
	return terms
}

// behind lists for each fuse the consumers that it feeds.
func (s *sizer) behind() [][]int {
	list := make([][]int, len(s.p.Fuses))
	if s.w == nil {
		return list
	}
	for i, b := range s.n.loads {
		e := &s.n.branches[b]
		for _, node := range []int32{e.a, e.b} {
			s.n.walk(&s.w.live, node, func(k int) bool {
				if x := &s.n.branches[k]; x.kind == fuseBranch && !slices.Contains(list[x.of], i) {
					list[x.of] = append(list[x.of], i)
				}
				return true
			})
		}
	}
	return list
}

// inrush weighs what switching on takes against what the fuse bears: filaments
// by the heat of their pulse against the share of the melting heat that makers
// allow for 100 000 pulses, motors by the time of a locked rotor against the
// window of the fuse, on top of the rest.
func (s *sizer) inrush(fuse int, consumers []int) string {
	if len(consumers) == 0 {
		return ""
	}
	f := s.p.Fuses[fuse]
	curve := s.curves[fuse]
	verdict, heat := "holds", 0.0
	for _, i := range consumers {
		c := &s.p.Consumers[i]
		_, amps := s.p.rated(c)
		factor, seconds := c.inrush()
		amps = min(amps, s.all[fuse])
		if c.Behaviour == Filament {
			heat += pulse(amps, factor, seconds)
			continue
		}
		if factor <= 1 || seconds == 0 {
			continue
		}
		m := (s.all[fuse] + (factor-1)*amps) / f.Amps
		switch {
		case seconds > curve.Longest(m):
			return "opens"
		case seconds > curve.Shortest(m):
			verdict = "may open"
		}
	}
	switch melting := curve.Melting(f.Amps); {
	case heat > melting:
		return "opens"
	case heat > s.rules.PulseShare*melting:
		return "may open"
	}
	return verdict
}

// pulse returns the heat in A²s per ohm by which switching a filament on exceeds
// its steady amps: I(t) = I·(1 + (p−1)·e^(−t/τ)), at twice the amps after seconds.
func pulse(amps, peak, seconds float64) float64 {
	if peak <= 2 {
		return 0
	}
	tau := seconds / math.Log(peak-1)
	return amps * amps * tau * ((peak-1)*(peak-1)/2 + 2*(peak-1))
}

// window returns the smallest standard rating that carries the load and the
// largest that the runs behind the fuse bear, where both are known.
func (s *sizer) window(fuse int, need float64) []float64 {
	curve := s.curves[fuse]
	bears := math.Inf(1)
	for i := range s.asked {
		if a := &s.asked[i]; a.guard == fuse {
			bears = min(bears, s.check(a, a.c).usable)
		}
	}
	low, high := 0.0, 0.0
	for _, c := range curve.Colours {
		if low == 0 && !over(need, c.Amps) {
			low = c.Amps
		}
		if !over(c.Amps, bears) {
			high = c.Amps
		}
	}
	if low == 0 || high == 0 || math.IsInf(bears, 1) {
		return nil
	}
	return []float64{low, high}
}

func (s *sizer) fuseWorking(i int, one FuseLoad, terms []string) figure.Figure {
	f := s.p.Fuses[i]
	sign := "≤"
	if one.Flag {
		sign = ">"
	}
	var with []string
	if one.LongA > 0 {
		with = append(with, fmt.Sprintf("%s = %.1f A × %.4g = %.1f A %s %g A", strings.Join(terms, " + "), one.LongA, 1/s.rules.FuseLoad, one.LongA/s.rules.FuseLoad, sign, f.Amps))
	}
	if brief := s.briefly(i, one); brief > 0 {
		sign = "≤"
		if over(brief, f.Amps) {
			sign = ">"
		}
		holds := s.curves[i].Holds(s.rules.ShortS)
		with = append(with, fmt.Sprintf("for seconds %.1f A ÷ %g, at which it holds %g s for certain, = %.1f A %s %g A", one.ShortA, holds, s.rules.ShortS, brief, sign, f.Amps))
	}
	if with == nil {
		with = []string{"nothing that is known draws through it"}
	}
	return figure.Figure{
		Name: "load of fuse " + f.Name, Text: fmt.Sprintf("%.1f A of %g A", one.LongA, f.Amps),
		Formula: "what is on for long ÷ " + fmt.Sprintf("%g", s.rules.FuseLoad) + " is no more than the rating, never together counted once; what is on for seconds is no more than the fuse holds for so long",
		With:    strings.Join(with, "; "),
		Inputs: []figure.Input{
			{Name: "share for long", Value: fmt.Sprintf("%g", s.rules.FuseLoad), Source: figure.TradeDefault, Note: s.rules.FuseLoadSays},
			{Name: "rating", Value: fmt.Sprintf("%g A", f.Amps), Source: figure.Decided},
		},
		Caution: "a fuse protects the wire: never put in a larger one than the wire bears",
	}
}

func (s *sizer) boxWorking(u BoxUse) figure.Figure {
	fig := figure.Figure{
		Name: "ways left in " + u.Name, Text: fmt.Sprintf("%d", u.Left), Formula: "ways − fuses",
		With:   fmt.Sprintf("%d − %d = %d", u.Ways, u.Used, u.Left),
		Inputs: []figure.Input{{Name: "ways", Value: fmt.Sprintf("%d", u.Ways), Source: figure.Decided}},
	}
	if u.AfterSplit > 0 {
		fig.With += fmt.Sprintf("; splitting what is flagged needs %d ways of a %d-way box", u.AfterSplit, u.Ways)
	}
	return fig
}
