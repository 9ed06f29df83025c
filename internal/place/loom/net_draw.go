package loom

import (
	"fmt"
	"strings"
)

// The measures of the net's drawing in its own units.
const (
	netWide  = 1000
	railAt   = 22
	fuseAt   = 40 // before what feeds
	partAt   = 140
	partWide = 200
	tieAt    = 345 // where runs of one terminal part
	lateAt   = 352 // a fuse behind what feeds
	wireAt   = 440
	wireEnd  = 636
	plugAt   = 640
	loadAt   = 718
	nameAt   = 752
	earthAt  = 968
	rowHigh  = 46
	partTop  = 28 // of a feeder above its first run
)

// shape is one element of the drawing: a path, or a text where it has one.
type shape struct {
	Class, D, Fill string
	X, Y           string
	Text           string
}

// pen draws.
type pen struct{ list []shape }

func (p *pen) line(class, format string, a ...any) {
	p.list = append(p.list, shape{Class: class, D: fmt.Sprintf(format, a...)})
}

func (p *pen) text(class string, x, y int, text string) {
	if text != "" {
		p.list = append(p.list, shape{Class: "net-text " + class, X: fmt.Sprint(x), Y: fmt.Sprint(y), Text: text})
	}
}

// words writes a name on as many lines as it takes, its middle at a height.
func (p *pen) words(class string, x, y, letters int, text string) {
	lines := wrapped(text, letters)
	for i, l := range lines {
		p.text(class, x, y+5-7*(len(lines)-1)+14*i, l)
	}
}

// wrapped breaks a name between words, so that no line is longer than so many
// letters where its words allow.
func wrapped(text string, letters int) []string {
	var lines []string
	for _, word := range strings.Fields(text) {
		if n := len(lines) - 1; n >= 0 && len([]rune(lines[n]))+1+len([]rune(word)) <= letters {
			lines[n] += " " + word
			continue
		}
		lines = append(lines, word)
	}
	return lines
}

// netSystem is one sheet of the net.
type netSystem struct {
	Key, Name string
	Box       string
	Runs      int
	Fixed     []shape // rails and what feeds
	Rungs     []netRung
}

// netRung is a run as it is drawn, with where it can be touched.
type netRung struct {
	Href, Says string
	Fails      bool
	Y, High    string
	Shapes     []shape
}

// drawSystem draws the runs of a system below each other, by what feeds them.
func (s sheet) drawSystem(name string, rungs []rung) netSystem {
	sys := netSystem{Key: strings.ToLower(strings.ReplaceAll(name, " ", "-")), Name: name, Runs: len(rungs)}
	var fixed pen
	y, last := 30, 0
	for from := 0; from < len(rungs); {
		to := from
		for to < len(rungs) && rungs[to].From == rungs[from].From {
			to++
		}
		y += partTop
		group := rungs[from:to]
		at := make([]int, len(group))
		pins := map[string]bool{}
		for i, g := range group {
			at[i] = y + rowHigh/2
			g.tied, pins[g.Pin] = g.Pin != "" && pins[g.Pin], true
			sys.Rungs = append(sys.Rungs, s.drawRung(g, y, s.late(g)))
			y += rowHigh * len(g.Loads)
		}
		if _, relay := s.partsOf(group[0].From); relay != nil {
			y += coilHigh
		}
		last = max(last, s.drawFeeder(&fixed, group, at, y))
		y += 16
		from = to
	}
	if last > 0 {
		fixed.line("net-rail", "M%d 26V%d", railAt, last)
		fixed.text("net-strong net-middle", railAt, 18, "30")
	}
	sys.Fixed = fixed.list
	sys.Box = fmt.Sprintf("0 0 %d %d", netWide, y)
	return sys
}

// late tells whether the fuse of a run lies behind the switch or relay that
// feeds it: where that is fed by a run of the list, or where several fuses hang
// on one of its terminals.
func (s sheet) late(g rung) bool {
	sw, relay := s.partsOf(g.From)
	if g.Fuse == "" || sw == nil && relay == nil {
		return false
	}
	if s.fedBy(g.From) != "" {
		return true
	}
	for _, row := range s.Loom.Rows {
		if c := row.Circuit; c != nil && c.From == g.From && row.Fuse != "" && row.Fuse != g.Fuse && s.rung(row).Pin == g.Pin {
			return true
		}
	}
	return false
}

// fedBy is the feed of the list that ends on a part, by its mark.
func (s sheet) fedBy(part string) string {
	for _, row := range s.Loom.Rows {
		if row.Circuit != nil && row.Circuit.Feed && row.Circuit.To == part {
			return row.ID
		}
	}
	return ""
}

// drawFuse is a fuse as the standard draws it, with its way and rating.
func (p *pen) drawFuse(x, y int, fuse, rating string) {
	p.line("net-fuse", "M%d %dh64v14h-64z", x, y-7)
	p.line("net-line", "M%d %dh64", x, y)
	p.text("net-small net-middle", x+32, y-11, fuse+" "+rating)
}

// drawRung draws a run from behind its feeder to earth.
func (s sheet) drawRung(g rung, top int, late bool) netRung {
	var p pen
	y := top + rowHigh/2
	from := partAt + partWide
	if g.tied {
		from = tieAt
	}
	if late {
		p.line("net-line", "M%d %dH%d", from, y, lateAt)
		p.drawFuse(lateAt, y, g.Fuse, g.Rating)
		from = lateAt + 64
	}
	p.line("net-line", "M%d %dH%d", from, y, wireAt)
	base, tracer := paints([]string{g.Letters})
	if base == "" {
		p.line("net-line", "M%d %dH%d", wireAt, y, wireEnd)
	} else {
		p.list = append(p.list, shape{Class: "net-coat", D: fmt.Sprintf("M%d %dH%dv7H%dz", wireAt, y-3, wireEnd, wireAt), Fill: base})
		if tracer != base {
			p.list = append(p.list, shape{Class: "net-tracer", D: fmt.Sprintf("M%d %dH%dv3H%dz", wireAt, y-1, wireEnd, wireAt), Fill: tracer})
		}
	}
	p.text("net-strong", wireAt+4, y-9, g.ID)
	p.text("net-small net-right", wireEnd-4, y-9, strings.TrimSpace(g.Letters+"  "+g.Section+" mm²"))
	for i, l := range g.Loads {
		p.drawLoad(l, y+i*rowHigh)
	}
	if n := len(g.Loads); n > 1 {
		p.line("net-line", "M%d %dV%d", wireEnd, y, y+(n-1)*rowHigh)
		p.line("net-dot", "M%d %da4 4 0 1 0 8 0a4 4 0 1 0 -8 0z", wireEnd-4, y)
	}
	high := rowHigh * len(g.Loads)
	return netRung{Href: g.Href, Says: g.Says(), Fails: g.Fails, Y: fmt.Sprint(top), High: fmt.Sprint(high), Shapes: p.list}
}

// drawFeeder draws what feeds a group of runs, as far down as its runs go, and
// its way to the plus rail; it returns how far down that rail must reach.
func (s sheet) drawFeeder(p *pen, group []rung, at []int, bottom int) int {
	g := group[0]
	top := at[0] - rowHigh/2 - partTop + 8
	sw, relay := s.partsOf(g.From)
	p.line("net-box", "M%d %dh%dV%dh-%dz", partAt, top, partWide, bottom-4, partWide)
	p.words("net-strong", partAt+8, top+12, 28, g.From)
	rail := s.source(g.From)
	pins := map[string]int{}
	for i, g := range group {
		y := at[i]
		if first, again := pins[g.Pin]; again && g.Pin != "" {
			p.line("net-line", "M%d %dV%d", tieAt, first, y)
			p.line("net-dot", "M%d %da4 4 0 1 0 8 0a4 4 0 1 0 -8 0z", tieAt-4, first)
		} else {
			pins[g.Pin] = y
			switch {
			case sw != nil:
				s.drawContact(p, sw, g.Pin, y)
			case relay != nil:
				drawRelay(p, relay, g.Pin, y, bottom)
			case s.source(g.From):
				p.symbol(s.sourceKind(g.From), partAt+40, y)
				p.line("net-line", "M%d %dH%d", partAt+52, y, partAt+partWide)
			default:
				p.line("net-line", "M%d %dH%d", partAt, y, partAt+partWide)
			}
			p.text("net-strong net-right", partAt+partWide-6, y-6, g.Pin)
		}
	}
	if rail {
		return 0
	}
	return s.drawBefore(p, group, at)
}

// drawBefore draws the fuses before a feeder, and its way to the rail.
func (s sheet) drawBefore(p *pen, group []rung, at []int) int {
	last := 0
	seen := map[string]bool{}
	pins := map[string]bool{}
	for i, g := range group {
		own := s.Build.Loom.Box(g.From) != nil || g.Pin == "" // each has a way of its own
		if !own && pins[g.Pin] && (s.late(g) || seen[g.Fuse]) {
			continue
		}
		pins[g.Pin] = true
		y := at[i]
		if g.To == "body" {
			continue // a strap to earth
		}
		if fed := s.fedBy(g.From); fed != "" && !own {
			p.text("net-strong net-right", partAt-6, y-6, "from "+fed)
			p.line("net-line", "M%d %dH%d", fuseAt+40, y, partAt)
			continue
		}
		if g.Fuse == "" || s.late(g) {
			p.line("net-line", "M%d %dH%d", railAt, y, partAt)
		} else {
			p.line("net-line", "M%d %dH%dM%d %dH%d", railAt, y, fuseAt, fuseAt+64, y, partAt)
			p.drawFuse(fuseAt, y, g.Fuse, g.Rating)
			seen[g.Fuse] = true
		}
		p.line("net-dot", "M%d %da4 4 0 1 0 8 0a4 4 0 1 0 -8 0z", railAt-4, y)
		last = y
	}
	return last
}
