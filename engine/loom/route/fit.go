package route

import (
	"fmt"
	"slices"

	"fettle/figure"
)

// tight is a hole or clip that a bundle does not pass.
type tight struct {
	node    int
	bundle  float64
	largest float64
}

// through is the outer diameter of what passes a node, and the number of wires.
func (g *given) through(t *trunk, runs []Stretch, v int, k *packs) (float64, int, error) {
	var wires []int
	wall, thickest := 0.0, 0.0
	for i := range runs {
		if ends := g.ends[runs[i].Edge]; ends[0] == v || ends[1] == v {
			wires = append(wires, runs[i].Wires...)
			wall, thickest = max(wall, g.wall(runs[i].Cover)), max(thickest, runs[i].Packed)
		}
	}
	slices.Sort(wires)
	wires = slices.Compact(wires)
	if len(wires) == 0 {
		return 0, 0, nil
	}
	d, _, err := k.pack(g.bundle(wires))
	return max(d, thickest) + 2*wall, len(wires), err // all together are never said to be thinner than some
}

// passes looks at every hole and limited clip of the forest.
func (g *given) passes(t *trunk, runs []Stretch, k *packs) (rows []HoleRow, narrow []tight, err error) {
	for v, n := range g.p.Nodes {
		if t.degree[v] == 0 || n.Kind != Hole && n.Largest == 0 {
			continue
		}
		bundle, wires, err := g.through(t, runs, v, k)
		if err != nil {
			return nil, nil, err
		}
		if n.Kind != Hole {
			if bundle > n.Largest {
				narrow = append(narrow, tight{v, bundle, n.Largest})
			}
			continue
		}
		row, largest := g.grommet(n, bundle)
		row.Wires = wires
		if !row.Fits {
			narrow = append(narrow, tight{v, bundle, largest})
		}
		rows = append(rows, row)
	}
	return rows, narrow, nil
}

// grommet chooses hole and grommet for a bundle.
func (g *given) grommet(n Node, bundle float64) (HoleRow, float64) {
	row := HoleRow{ID: n.ID, Panel: n.Panel, At: n.At, New: n.New, Bore: n.Bore, Bundle: bundle}
	last := g.r.Grommets[len(g.r.Grommets)-1]
	note, source := "table of grommets", figure.TradeDefault
	if n.Bore == 0 {
		size := last
		for _, s := range g.r.Grommets {
			if s.Inside >= bundle {
				size = s
				break
			}
		}
		row.Bore, row.Inside = size.Bore, size.Inside
	} else {
		row.Inside = max(n.Bore-4, 0.6*n.Bore) // a lip of 2 mm all round
		for _, s := range g.r.Grommets {
			if s.Bore == n.Bore {
				row.Inside = s.Inside
			}
		}
		source, note = figure.Measured, "the hole as it is"
	}
	largest := row.Inside
	if n.Largest > 0 {
		largest = n.Largest
		if n.Bore > 0 {
			row.Inside = n.Largest
		}
		note = "largest bundle as given"
	}
	row.Fits = bundle <= largest
	sign := "≤"
	if !row.Fits {
		sign = ">"
	}
	row.Working = figure.Figure{Name: "hole " + n.ID, Text: mm(row.Bore), Formula: "smallest hole whose grommet passes the bundle",
		With: fmt.Sprintf("bundle %s %s %s through a hole of %s", mm(bundle), sign, mm(largest), mm(row.Bore)),
		Inputs: []figure.Input{
			{Name: "bundle", Value: mm(bundle), Source: figure.Worked, Note: "packed, with its cover"},
			{Name: "passes", Value: mm(largest), Source: source, Note: note},
		},
		Caution: "Drill before paint, deburr, coat the edge, then the grommet. A connector may be larger than the bundle: feed the wires before it goes on, or choose the hole for it."}
	return row, largest
}

// Smallest is the smallest grommet of the table of the package that passes a
// bundle of an outer diameter in mm; false where none does.
func Smallest(bundle float64) (Grommet, bool) {
	for _, s := range grommets {
		if s.Inside >= bundle {
			return s, true
		}
	}
	return Grommet{}, false
}

// narrowFindings tells what does not fit once no other way is left.
func (g *given) narrowFindings(narrow []tight) []Finding {
	var all []Finding
	for _, n := range narrow {
		node := g.p.Nodes[n.node]
		f := Finding{Rule: RuleClip, Where: "waypoint " + node.ID, Text: fmt.Sprintf("a bundle of %s, it holds %s", mm(n.bundle), mm(n.largest)), Hint: "a larger clip, or a second one beside it"}
		if node.Kind == Hole {
			f.Rule, f.Where = RuleHole, "hole "+node.ID
			f.Text = fmt.Sprintf("a bundle of %s, %s passes, and no other way was found on which all fits", mm(n.bundle), mm(n.largest))
			f.Hint = "split the bundle over a second hole"
			for _, s := range g.r.Grommets {
				if s.Inside >= n.bundle {
					f.Hint = fmt.Sprintf("a hole of %s would pass it, or split the bundle over a second hole", mm(s.Bore))
					break
				}
			}
		}
		all = append(all, f)
	}
	return all
}
