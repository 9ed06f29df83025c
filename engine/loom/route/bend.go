package route

import (
	"fmt"
	"math"
)

// bends finds the tightest corner of every stretch, and at waypoints that only
// lead on: the largest radius that touches both legs within half of each.
func (g *given) bends(t *trunk, runs []Stretch) []Finding {
	var all []Finding
	at := map[int][]int{}
	for i := range runs {
		line := g.line(runs[i].Edge)
		for k := 1; k+1 < len(line); k++ {
			if r, bent := cornerRadius(line[k-1], line[k], line[k+1]); bent && (runs[i].Clearest == 0 || r < runs[i].Clearest) {
				runs[i].Clearest = r
			}
		}
		if r := runs[i].Clearest; r > 0 && r < runs[i].Bend {
			all = append(all, tooTight("stretch "+runs[i].ID, runs[i].Outside, r, runs[i].Bend))
		}
		for _, v := range g.ends[runs[i].Edge] {
			if t.degree[v] == 2 {
				at[v] = append(at[v], i)
			}
		}
	}
	for v := range g.p.Nodes {
		if len(at[v]) != 2 {
			continue
		}
		a, b := &runs[at[v][0]], &runs[at[v][1]]
		r, bent := cornerRadius(g.beside(a.Edge, v), g.p.Nodes[v].At, g.beside(b.Edge, v))
		if need := max(a.Bend, b.Bend); bent && r < need {
			all = append(all, tooTight("waypoint "+g.p.Nodes[v].ID, max(a.Outside, b.Outside), r, need))
		}
	}
	return all
}

func tooTight(where string, outside, r, need float64) Finding {
	return Finding{Rule: RuleBend, Where: where, Text: fmt.Sprintf("the line turns within %s, a bundle of %s asks for %s", mm(r), mm(outside), mm(need)),
		Hint: "move the corner out, or take a waypoint more"}
}

// beside is the point of a stretch next to its end at a node.
func (g *given) beside(e, v int) [3]float64 {
	line := g.line(e)
	if g.ends[e][0] == v {
		return line[1]
	}
	return line[len(line)-2]
}

// cornerRadius is the radius of the round that leaves a corner's legs at half
// the shorter one; not bent below 15°.
func cornerRadius(a, b, c [3]float64) (float64, bool) {
	θ := turn(a, b, c)
	if θ < math.Pi/12 {
		return 0, false
	}
	return min(distance(a, b), distance(b, c)) / 2 / math.Tan(θ/2), true
}
