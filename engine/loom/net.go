package loom

import (
	"slices"
	"strings"
)

// kind says what a branch of the net stands for.
type kind uint8

const (
	wireBranch kind = iota
	fuseBranch
	contactBranch // of a switch, closed in some positions
	makeBranch    // of a relay, 30 to 87
	breakBranch   // of a relay, 30 to 87a
	earthBranch
	cavityBranch
	coilBranch
	loadBranch
	batteryBranch
	alternatorBranch
)

// passes reports whether a branch of the kind is metal all through: what a
// short circuit runs along and what joins two points for good.
func (k kind) passes() bool { return k <= cavityBranch }

// switched reports whether the branch is closed only at times.
func (k kind) switched() bool { return k == contactBranch || k == makeBranch || k == breakBranch }

// branch is two nodes joined by one part; of is its index in the list of its kind.
type branch struct {
	kind   kind
	of     int
	a, b   int32
	ohms   float64 // of what has a fixed one
	closed []bool  // contactBranch: by position
}

// net is a problem as nodes and branches. Terminals that nothing lies between
// are one node.
type net struct {
	p        *Problem
	branches []branch
	names    []string // of nodes: the first terminal seen
	nodes    map[Pin]int32
	body     int32
	wires    []int // branch of each wire
	loads    []int // branch of each consumer
	fuses    []int
	cells    []int // branch of each battery
	chargers []int
	coils    []int
	touching [][]int32 // branches by node
}

// builder gathers terminals into nodes.
type builder struct {
	index map[Pin]int32
	pins  []Pin
	up    []int32
}

func (b *builder) pin(p Pin) int32 {
	if p.Part == Body {
		p.Terminal = ""
	}
	if i, ok := b.index[p]; ok {
		return i
	}
	i := int32(len(b.pins))
	b.index[p], b.pins, b.up = i, append(b.pins, p), append(b.up, i)
	return i
}

func root(up []int32, i int32) int32 {
	for up[i] != i {
		up[i] = up[up[i]]
		i = up[i]
	}
	return i
}

func (b *builder) join(x, y int32) {
	x, y = root(b.up, x), root(b.up, y)
	b.up[max(x, y)] = min(x, y)
}

// netOf compiles a problem that has passed its checks.
func netOf(p *Problem) *net {
	n := &net{p: p}
	b := &builder{index: map[Pin]int32{}}
	n.body = b.pin(Pin{Part: Body})
	joints := map[string]*Joint{}
	for i := range p.Joints {
		joints[p.Joints[i].Name] = &p.Joints[i]
	}
	for i := range p.Wires {
		w := &p.Wires[i]
		n.wires = append(n.wires, n.add(wireBranch, i, b.pin(onJoint(joints, w.From)), b.pin(onJoint(joints, w.To)), 0))
	}
	n.addSources(b)
	n.addSwitches(b)
	n.addRelays(b)
	for i := range p.Consumers {
		c := &p.Consumers[i]
		n.loads = append(n.loads, n.add(loadBranch, i, b.pin(Pin{c.Name, c.plus()}), b.pin(Pin{c.Name, c.minus()}), 0))
	}
	n.addJoints(b)
	n.number(b)
	return n
}

// onJoint puts all terminals of a splice or an earth on one point.
func onJoint(joints map[string]*Joint, p Pin) Pin {
	if j := joints[p.Part]; j != nil && j.Kind != Connector {
		p.Terminal = ""
	}
	return p
}

func (n *net) add(k kind, of int, a, b int32, ohms float64) int {
	n.branches = append(n.branches, branch{kind: k, of: of, a: a, b: b, ohms: ohms})
	return len(n.branches) - 1
}

func (n *net) addSources(b *builder) {
	for i, c := range n.p.Batteries {
		n.cells = append(n.cells, n.add(batteryBranch, i, b.pin(Pin{c.Name, "+"}), b.pin(Pin{c.Name, "-"}), n.p.batteryOhms(c)))
	}
	for i, a := range n.p.Alternators {
		n.chargers = append(n.chargers, n.add(alternatorBranch, i, b.pin(Pin{a.Name, "B+"}), b.pin(Pin{a.Name, "B-"}), or(a.Ohms, 0.005)))
	}
	for i, f := range n.p.Fuses {
		n.fuses = append(n.fuses, n.add(fuseBranch, i, b.pin(Pin{f.Name, "1"}), b.pin(Pin{f.Name, "2"}), n.p.fuseOhms(f, false)))
	}
}

// addSwitches makes one branch of every pair of terminals that some position joins.
func (n *net) addSwitches(b *builder) {
	for i, s := range n.p.Switches {
		at := map[[2]int32]int{}
		for k, position := range s.Positions {
			for _, list := range position.Joins {
				for _, t := range list[1:] {
					pair := [2]int32{b.pin(Pin{s.Name, list[0]}), b.pin(Pin{s.Name, t})}
					where, ok := at[pair]
					if !ok {
						where = n.add(contactBranch, i, pair[0], pair[1], or(s.Ohms, 0.005))
						n.branches[where].closed = make([]bool, len(s.Positions))
						at[pair] = where
					}
					n.branches[where].closed[k] = true
				}
			}
		}
	}
}

func (n *net) addRelays(b *builder) {
	for i, r := range n.p.Relays {
		common := b.pin(Pin{r.Name, "30"})
		n.add(makeBranch, i, common, b.pin(Pin{r.Name, "87"}), or(r.Ohms, 0.005))
		if r.Break {
			n.add(breakBranch, i, common, b.pin(Pin{r.Name, "87a"}), or(r.Ohms, 0.005))
		}
		n.coils = append(n.coils, n.add(coilBranch, i, b.pin(Pin{r.Name, "86"}), b.pin(Pin{r.Name, "85"}), or(r.CoilOhms, 85*n.p.scale()*n.p.scale())))
	}
}

// addJoints joins both sides of cavities, and earths to the body.
func (n *net) addJoints(b *builder) {
	for i, j := range n.p.Joints {
		switch j.Kind {
		case Earth:
			at := b.pin(Pin{Part: j.Name})
			switch {
			case j.Open:
			case j.Ohms == 0:
				b.join(at, n.body)
			default:
				n.add(earthBranch, i, at, n.body, j.Ohms)
			}
		case Connector:
			for _, pin := range slices.Clone(b.pins) {
				cavity, ok := strings.CutSuffix(pin.Terminal, "<")
				if pin.Part != j.Name || !ok {
					continue
				}
				plug, socket := b.pin(pin), b.pin(Pin{j.Name, cavity + ">"})
				if j.Ohms == 0 {
					b.join(plug, socket)
				} else {
					n.add(cavityBranch, i, plug, socket, j.Ohms)
				}
			}
		}
	}
}

// number gives every point its node and every node its branches.
func (n *net) number(b *builder) {
	of := make([]int32, len(b.pins))
	n.nodes = make(map[Pin]int32, len(b.pins))
	for i, pin := range b.pins {
		if r := root(b.up, int32(i)); r == int32(i) {
			of[i] = int32(len(n.names))
			n.names = append(n.names, pin.String())
		} else {
			of[i] = of[r]
		}
		n.nodes[pin] = of[i]
	}
	n.body = of[n.body]
	n.touching = make([][]int32, len(n.names))
	for i := range n.branches {
		e := &n.branches[i]
		e.a, e.b = of[e.a], of[e.b]
		n.touching[e.a] = append(n.touching[e.a], int32(i))
		if e.b != e.a {
			n.touching[e.b] = append(n.touching[e.b], int32(i))
		}
	}
}

// other returns the far end of a branch.
func (e *branch) other(at int32) int32 {
	if e.a == at {
		return e.b
	}
	return e.a
}
