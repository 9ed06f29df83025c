package loom

import (
	"slices"
	"strings"

	"fettle/build"
)

// partsOf is a part of the net by its name, where it is a switch or a relay.
func (s sheet) partsOf(name string) (*build.Switch, *build.Relay) {
	l := &s.Build.Loom
	if i := slices.IndexFunc(l.Switches, func(x build.Switch) bool { return x.Name == name }); i >= 0 {
		return &l.Switches[i], nil
	}
	if i := slices.IndexFunc(l.Relays, func(x build.Relay) bool { return x.Name == name }); i >= 0 {
		return nil, &l.Relays[i]
	}
	return nil, nil
}

func (s sheet) sourceKind(name string) string {
	if slices.ContainsFunc(s.Build.Loom.Alternators, func(x build.Alternator) bool { return x.Name == name }) {
		return "generator"
	}
	return "battery"
}

// closes tells in which positions a switch joins a terminal, and to which.
func closes(sw *build.Switch, terminal string) (with string, positions []string) {
	for _, q := range sw.Positions {
		for _, j := range q.Joins {
			if i := slices.Index(j, terminal); i >= 0 {
				positions = append(positions, q.Name)
				if with == "" && len(j) > 1 {
					with = j[0]
					if i == 0 {
						with = j[1]
					}
				}
			}
		}
	}
	return with, positions
}

// drawContact draws the contact of a switch that a run leaves by, open as it is
// at rest, with the positions that close it. A terminal that no position names
// is one that the switch is fed by.
func (s sheet) drawContact(p *pen, sw *build.Switch, terminal string, y int) {
	with, positions := closes(sw, terminal)
	right := partAt + partWide
	if len(positions) == 0 {
		p.line("net-line", "M%d %dH%d", partAt, y, right)
		return
	}
	rest := slices.Contains(positions, sw.Positions[0].Name)
	p.line("net-line", "M%d %dh36M%d %dH%d", partAt, y, partAt+72, y, right)
	if rest {
		p.line("net-line", "M%d %dh36", partAt+36, y)
	} else {
		p.line("net-line", "M%d %dl34 -14", partAt+36, y)
	}
	p.line("net-dot", "M%d %da3 3 0 1 0 6 0a3 3 0 1 0 -6 0z", partAt+33, y)
	p.text("net-strong", partAt+6, y-6, with)
	p.text("net-small", partAt+76, y+14, strings.Join(positions, ", "))
}

// drawRelay draws the contact and the coil of a relay.
func drawRelay(p *pen, r *build.Relay, terminal string, y, bottom int) {
	right := partAt + partWide
	p.line("net-line", "M%d %dh36M%d %dH%d", partAt, y, partAt+72, y, right)
	if terminal == "87a" {
		p.line("net-line", "M%d %dh36", partAt+36, y)
	} else {
		p.line("net-line", "M%d %dl34 -14", partAt+36, y)
	}
	p.line("net-dot", "M%d %da3 3 0 1 0 6 0a3 3 0 1 0 -6 0z", partAt+33, y)
	p.text("net-strong", partAt+6, y-6, "30")
	c := bottom - 32 // of the coil, below the last run
	p.line("net-box", "M%d %dh40v20h-40z", partAt+70, c-10)
	p.line("net-line", "M%d %dl12 -20", partAt+84, c+10)
	p.line("net-line", "M%d %dh42M%d %dh42", partAt+28, c, partAt+110, c)
	p.line("net-drive", "M%d %dV%d", partAt+90, c-10, y-7)
	p.text("net-strong", partAt+6, c+5, "86")
	p.text("net-strong", partAt+158, c+5, "85")
	if r.Diode { // across the coil, its bar towards 86
		p.line("net-line", "M%d %dv16h26M%d %dv-6l-12 6l12 6zM%d %dv12M%d %dh30v-16", partAt+56, c, partAt+94, c+16, partAt+82, c+10, partAt+94, c+16)
	}
}

// coilHigh is the room of a relay's coil below its runs.
const coilHigh = 54

// symbol draws a part by its kind about a place, 24 wide.
func (p *pen) symbol(kind string, x, y int) {
	ring := func() { p.line("net-sign", "M%d %da12 12 0 1 0 24 0a12 12 0 1 0 -24 0z", x-12, y) }
	switch kind {
	case "lamp":
		ring()
		p.line("net-line", "M%d %dl17 17m0 -17l-17 17", x-8, y-8)
	case "motor", "generator":
		ring()
		p.text("net-strong net-middle", x, y+5, map[string]string{"motor": "M", "generator": "G"}[kind])
	case "battery":
		p.line("net-line", "M%d %dv24M%d %dv12M%d %dv24M%d %dv12", x+12, y-12, x+5, y-6, x-2, y-12, x-9, y-6)
		p.text("net-small", x+14, y-8, "+")
	case "coil":
		p.line("net-sign", "M%d %dh24v14h-24z", x-12, y-7)
	case "horn":
		p.line("net-sign", "M%d %dh8l14 -8v24l-14 -8h-8z", x-11, y-4)
	case "box":
		p.line("net-sign", "M%d %dh24v24h-24z", x-12, y-12)
		p.line("net-line", "M%d %dh6m-3 -3v6m6 14h6", x-9, y-5)
	default:
		p.line("net-dot", "M%d %da4 4 0 1 0 8 0a4 4 0 1 0 -8 0z", x-4, y)
	}
}

// drawLoad draws what a run feeds, with its connector before and its earth
// behind it.
func (p *pen) drawLoad(l load, y int) {
	from := wireEnd
	if l.Plug != "" {
		p.line("net-line", "M%d %dH%d", from, y, plugAt+10)
		p.line("net-plug", "M%d %dl7 6l-7 6m6 -12l7 6l-7 6", plugAt+10, y-6)
		p.text("net-strong net-middle", plugAt+16, y-10, l.Cavity)
		p.text("net-small", wireEnd+6, y+19, l.Plug)
		from = plugAt + 24
	}
	p.line("net-line", "M%d %dH%d", from, y, loadAt)
	p.symbol(l.Kind, loadAt+12, y)
	x := nameAt
	if l.Pin != "" {
		p.text("net-strong", loadAt-14, y-6, l.Pin)
	}
	if l.Earth == "" {
		p.words("", x, y, 24, l.Name)
		return
	}
	p.words("", x, y-7, 17, l.Name)
	p.line("net-line", "M%d %dv%dH%dv8", loadAt+12, y+12, 8, earthAt)
	p.line("net-line", "M%d %dh24m-19 5h14m-10 5h6", earthAt-12, y+28)
	p.text("net-small net-right", earthAt-6, y+16, l.Earth)
}
