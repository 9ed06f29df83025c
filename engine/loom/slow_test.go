package loom

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// slow is a second reading of a loom that shares nothing with the engine but
// the types: every terminal is a row, joined terminals share one by renaming,
// volts come by Gaussian elimination with pivots, every product of positions is
// tried. It knows resistances, motors and relays.
type slow struct {
	p    *Problem
	r    *Result
	row  map[string]int
	rows int
}

func newSlow(p *Problem, r *Result) *slow {
	s := &slow{p: p, r: r, row: map[string]int{}}
	s.row["body"] = 0
	s.rows = 1
	return s
}

// at returns the row of a terminal.
func (s *slow) at(part, terminal string) int {
	name := part + ":" + terminal
	if part == "body" {
		name = "body"
	}
	for _, j := range s.p.Joints {
		if j.Name == part {
			name = part
			if j.Kind == Earth && j.Ohms == 0 && !j.Open {
				name = "body"
			}
		}
	}
	if _, ok := s.row[name]; !ok {
		s.row[name] = s.rows
		s.rows++
	}
	return s.row[name]
}

// slowPart is a resistance between rows with what drives it, in volts.
type slowPart struct {
	a, b  int
	ohms  float64
	volts float64
	name  string
}

// parts lists the resistors of a state; without loads for short circuits, all
// contacts closed where position is nil.
func (s *slow) parts(position map[string]string, pulled map[string]bool, loads, hot bool) []slowPart {
	var list []slowPart
	add := func(name string, a, b int, ohms, volts float64) {
		list = append(list, slowPart{a, b, ohms, volts, name})
	}
	p := s.p
	for _, b := range p.Batteries {
		add("battery", s.at(b.Name, "+"), s.at(b.Name, "-"), 5.4/b.CrankingAmps, 12.6)
	}
	for i, w := range p.Wires {
		one := s.r.Runs[i]
		c := one.Celsius
		if hot {
			c = 105
		}
		add("wire "+w.ID, s.at(w.From.Part, w.From.Terminal), s.at(w.To.Part, w.To.Terminal), s.size(one.Section).MilliOhmPerM/1000*w.LengthM*(1+0.00393*(c-20)), 0)
	}
	for _, f := range p.Fuses {
		ohms := 0.12 / 1.45 / f.Amps
		if f.Type == Maxi {
			ohms = 0.1 / 1.45 / f.Amps
		}
		for _, known := range [][2]float64{{1, 0.123}, {2, 0.0535}, {4, 0.0228}, {10, 0.0077}} {
			if f.Amps == known[0] {
				ohms = known[1]
			}
		}
		if hot {
			ohms *= 1.45
		}
		add("fuse "+f.Name, s.at(f.Name, "1"), s.at(f.Name, "2"), ohms, 0)
	}
	for _, w := range p.Switches {
		for _, q := range w.Positions {
			if position != nil && position[w.Name] != q.Name {
				continue
			}
			for _, j := range q.Joins {
				for _, t := range j[1:] {
					add("switch "+w.Name, s.at(w.Name, j[0]), s.at(w.Name, t), 0.005, 0)
				}
			}
		}
	}
	for _, r := range p.Relays {
		if position == nil || pulled[r.Name] {
			add("relay "+r.Name, s.at(r.Name, "30"), s.at(r.Name, "87"), 0.005, 0)
		}
		if loads {
			add("coil "+r.Name, s.at(r.Name, "86"), s.at(r.Name, "85"), 85, 0)
		}
	}
	for _, j := range p.Joints {
		if j.Kind == Earth && j.Ohms > 0 && !j.Open {
			add("earth "+j.Name, s.at(j.Name, ""), 0, j.Ohms, 0)
		}
	}
	for _, c := range p.Consumers {
		if loads && c.Behaviour != Motor {
			add("load "+c.Name, s.at(c.Name, "+"), s.at(c.Name, "-"), 13.5/c.Amps, 0)
		}
	}
	return list
}

func (s *slow) size(name string) Conductor { return thinSizes[name] }

var thinSizes = func() map[string]Conductor {
	sizes := map[string]Conductor{}
	for _, z := range thinWall().Sizes {
		sizes[z.Name] = z
	}
	return sizes
}()

// volts solves a list of resistors with amps injected, by elimination.
func (s *slow) volts(list []slowPart, inject []float64) []float64 {
	n := s.rows
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n+1)
		copy(m[i][n:], inject[i:i+1])
	}
	for _, e := range list {
		g := 1 / e.ohms
		m[e.a][e.a] += g
		m[e.b][e.b] += g
		m[e.a][e.b] -= g
		m[e.b][e.a] -= g
		m[e.a][n] += g * e.volts
		m[e.b][n] -= g * e.volts
	}
	m[0] = make([]float64, n+1)
	m[0][0] = 1
	for k := range n {
		p := k
		for i := k; i < n; i++ {
			if math.Abs(m[i][k]) > math.Abs(m[p][k]) {
				p = i
			}
		}
		m[k], m[p] = m[p], m[k]
		if math.Abs(m[k][k]) < 1e-9 { // hangs loose: at 0 V
			m[k][k], m[k][n] = 1, 0
			continue
		}
		var full []int
		for j := k; j <= n; j++ {
			if m[k][j] != 0 {
				full = append(full, j)
			}
		}
		for i := k + 1; i < n; i++ {
			if f := m[i][k] / m[k][k]; f != 0 {
				for _, j := range full {
					m[i][j] -= f * m[k][j]
				}
			}
		}
	}
	v := make([]float64, n)
	for i := n - 1; i >= 0; i-- {
		x := m[i][n]
		for j := i + 1; j < n; j++ {
			x -= m[i][j] * v[j]
		}
		v[i] = x / m[i][i]
	}
	return v
}

// carried returns the most amps that each wire carries in any state.
func (s *slow) carried() map[string]float64 {
	s.parts(nil, nil, true, false) // names all rows
	for _, c := range s.p.Consumers {
		s.at(c.Name, "+")
		s.at(c.Name, "-")
	}
	most := map[string]float64{}
	for _, text := range settings(*s.p) {
		position := map[string]string{}
		for one := range strings.SplitSeq(text, ",") {
			if name, q, ok := strings.Cut(one, "="); ok {
				position[name] = q
			}
		}
		pulled := map[string]bool{}
		for range len(s.p.Relays) + 2 {
			list := s.parts(position, pulled, true, false)
			v := s.volts(list, make([]float64, s.rows))
			inject := make([]float64, s.rows)
			for _, c := range s.p.Consumers {
				if a, b := s.at(c.Name, "+"), s.at(c.Name, "-"); c.Behaviour == Motor && v[a]-v[b] > 4 {
					inject[a] -= c.Amps
					inject[b] += c.Amps
				}
			}
			v = s.volts(list, inject)
			for _, r := range s.p.Relays {
				pulled[r.Name] = math.Abs(v[s.at(r.Name, "86")]-v[s.at(r.Name, "85")]) >= 7.2
			}
			for _, e := range list {
				if id, ok := strings.CutPrefix(e.name, "wire "); ok {
					most[id] = max(most[id], math.Abs(v[e.a]-v[e.b])/e.ohms)
				}
			}
		}
	}
	return most
}

// guards returns the fuses without which a row has no way to the battery's plus.
func (s *slow) guards(row int) []Fuse {
	var list []Fuse
	for _, f := range s.p.Fuses {
		if s.joined(row, "fuse "+f.Name) || !s.joined(row, "") {
			continue
		}
		list = append(list, f)
	}
	return list
}

// joined reports whether metal joins a row to the battery's plus when one part
// is taken out, past the body.
func (s *slow) joined(row int, without string) bool {
	seen := map[int]bool{s.at(s.p.Batteries[0].Name, "+"): true}
	list := s.parts(nil, nil, false, false)
	for again := true; again; {
		again = false
		for _, e := range list {
			if e.name != without && e.name != "battery" && e.a != 0 && e.b != 0 && seen[e.a] != seen[e.b] {
				seen[e.a], seen[e.b], again = true, true, true
			}
		}
	}
	return seen[row]
}

// refuses tells why a wire that was accepted should not have been, or nothing.
func (s *slow) refuses(i int, carried map[string]float64, bundle float64) string {
	const slack = 1.01
	w, one := s.p.Wires[i], s.r.Runs[i]
	c := s.size(one.Section)
	ambient := 40.0
	for _, z := range s.p.Zones {
		if z.Name == w.Zone {
			ambient = z.AmbientC
		}
	}
	usable := c.Amps * bundle * math.Min(1, math.Sqrt((105-ambient)/75))
	amps := carried[w.ID]
	if amps > usable*slack {
		return fmt.Sprintf("carries %.3f A, usable %.3f A", amps, usable)
	}
	hot := math.Min(105, ambient+75*math.Pow(amps/c.Amps/bundle, 2))
	if drop := amps * c.MilliOhmPerM / 1000 * w.LengthM * (1 + 0.00393*(hot-20)); drop > one.DropMaxV*slack {
		return fmt.Sprintf("loses %.4f V of %.4f V", drop, one.DropMaxV)
	}
	a, b := s.at(w.From.Part, w.From.Terminal), s.at(w.To.Part, w.To.Terminal)
	if w.Unfused != "" || !s.joined(a, "") || !s.joined(b, "") {
		return ""
	}
	far := b
	if list := s.guards(a); len(list) > len(s.guards(b)) {
		far = a
	}
	guards := s.guards(a)
	if len(guards) == 0 {
		return "no fuse guards it"
	}
	f := slices.MinFunc(guards, func(x, y Fuse) int { return int(math.Copysign(1, x.Amps-y.Amps)) })
	if f.Amps > usable*slack {
		return fmt.Sprintf("fuse %g A, usable %.2f A", f.Amps, usable)
	}
	return s.burns(f, c, a, b, far)
}

// burns shorts both ends of a wire to the body in turn and asks whether the fuse
// opens before the insulation is hurt.
func (s *slow) burns(f Fuse, c Conductor, ends ...int) string {
	least := math.Inf(1)
	for _, end := range ends {
		list := append(s.parts(nil, nil, false, true), slowPart{end, 0, 0.005, 0, "short"})
		v := s.volts(list, make([]float64, s.rows))
		least = min(least, v[end]/0.005)
	}
	curve := [][2]float64{{1.35, 1800}, {1.6, 50}, {2, 5}, {3.5, 0.5}, {6, 0.1}}
	if f.Type == Maxi {
		curve = [][2]float64{{1.35, 1800}, {2, 60}, {3.5, 7}, {6, 1}}
	}
	m := least / f.Amps
	heat, seconds := math.Inf(1), math.Inf(1)
	for k := 1; k < len(curve); k++ {
		if x, y := curve[k-1], curve[k]; m >= x[0] && m <= y[0] {
			seconds = math.Exp(math.Log(x[1]) + (math.Log(m)-math.Log(x[0]))*(math.Log(y[1])-math.Log(x[1]))/(math.Log(y[0])-math.Log(x[0])))
			heat = least * least * seconds
		}
	}
	if last := curve[len(curve)-1]; m > last[0] {
		heat = math.Pow(last[0]*f.Amps, 2) * last[1]
		seconds = heat / least / least
	}
	if bears := math.Pow(87.6*c.MM2, 2); heat > bears*1.03 || seconds > 5.1 {
		return fmt.Sprintf("a short of %.1f A lets %.0f A²s through %s in %.2f s, it bears %.0f", least, heat, f.Name, seconds, bears)
	}
	return ""
}
