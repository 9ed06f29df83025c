package vehicle

import (
	"slices"
	"strconv"

	"fettle/internal/web/ui/hatch"
)

// The measures of a drawing in units.
const (
	sheetWide = 1072.0
	sheetHigh = 540.0 // of the vehicle alone, at most
	edge      = 20.0
	thumbWide = 196.0
	thumbHigh = 108.0
)

// laid is a view with all its shapes in units of the drawing.
type laid struct {
	view          View
	frame         frame
	width, height float64
	panels        []shape
	lines         []shape
	flags         []*flag
	badges        []placed
	ways          []wayLaid
	dots          []dotLaid
	ground        string // the line the wheels stand on; empty for none
	tones         []twoTone
}

// shape is one path.
type shape struct {
	Panel
	class, d string
	fill     string
}

// wayLaid is a way where it is drawn.
type wayLaid struct {
	Way
	class, d string
}

// dotLaid is a dot where it is drawn.
type dotLaid struct {
	Dot
	x, y float64
}

func (d dotLaid) class() string {
	class := "vehicle-spot"
	if d.Draft {
		class += " vehicle-draft"
	}
	if d.Lit {
		class += " vehicle-lit"
	}
	return class
}

// badgeSize is the side of a badge's plate in units.
const badgeSize = 24.0

// placed is a badge where it is drawn.
type placed struct {
	Badge
	x, y float64 // its plate's upper left corner
}

// class is that of a badge of its meaning.
func (p placed) class() string { return "vehicle-badge vehicle-badge-" + string(p.Mark) }

func (p placed) shift() string { return "translate(" + num(p.x+4) + " " + num(p.y+4) + ")" }

// twoTone is a fill that changes colour at a height.
type twoTone struct {
	id           string
	upper, lower string
	at           string // share of the drawing's height, from above
}

// lay works out the large drawing of a view.
func lay(v View) laid {
	f, _, high := v.fit(edge, 0, sheetWide-2*edge, sheetHigh)
	flags, above, below := plant(v.Pins, f, sheetWide, high)
	rise := edge
	if above > 0 {
		rise = 14 + float64(above)*rowHigh
	}
	f.top = rise
	for _, one := range flags {
		one.lower(rise)
	}
	l := laid{view: v, frame: f, width: sheetWide, height: rise + high + edge, flags: flags}
	if below > 0 {
		l.height = rise + high + 16 + float64(below)*rowHigh
	}
	l.shapes()
	for _, b := range v.Badges {
		at := f.at(b.X, b.Y)
		l.badges = append(l.badges, placed{b, at.X - badgeSize/2, at.Y - badgeSize/2})
	}
	for _, w := range v.Ways {
		l.ways = append(l.ways, wayLaid{w, "vehicle-line vehicle-ink-" + w.Weight, f.path(w.Path)})
	}
	for _, d := range v.Dots {
		at := f.at(d.X, d.Y)
		l.dots = append(l.dots, dotLaid{d, at.X, at.Y})
	}
	return l
}

// thumb works out the small drawing of a view, without flags.
func thumb(v View) laid {
	f, _, high := v.fit(4, 4, thumbWide-8, thumbHigh-8)
	f.top = 4 + (thumbHigh-8-high)/2
	v.Details = slices.DeleteFunc(slices.Clone(v.Details), faint)
	for _, w := range v.Ways {
		v.Details = append(v.Details, w.Line)
	}
	l := laid{view: v, frame: f, width: thumbWide, height: thumbHigh}
	l.shapes()
	for _, p := range v.Pins {
		l.flags = append(l.flags, &flag{Pin: p, At: f.at(p.X, p.Y)})
	}
	return l
}

// faint lines would only blur a small drawing.
func faint(d Line) bool { return d.Weight == "detail" && (d.Fill == "" || d.Fill == "none") }

func (l *laid) shapes() {
	for _, p := range l.view.Panels {
		l.panels = append(l.panels, shape{Panel: p, d: l.frame.path(p.Path), fill: l.fill(p)})
	}
	for _, d := range l.view.Details {
		class := "vehicle-line vehicle-ink-" + d.Weight
		if d.Fill != "" && d.Fill != "none" {
			class += " vehicle-" + d.Fill
		}
		l.lines = append(l.lines, shape{class: class, d: l.frame.path(d.Path)})
	}
	if b := l.view.Box; l.frame.rise && b[1] < 0 && b[3] > 0 {
		from, to := l.frame.at(b[0], 0), l.frame.at(b[2], 0)
		l.ground = "M" + num(from.X) + " " + num(from.Y) + "L" + num(to.X) + " " + num(to.Y)
	}
}

// fill is the panel's hatch or colour; a panel in two colours gets a fill of
// the drawing's own.
func (l *laid) fill(p Panel) string {
	plain := hatch.Fill(p.State, p.Colour)
	if p.Under == "" || plain != p.Colour || !l.frame.rise {
		return plain
	}
	at := strconv.FormatFloat(l.frame.at(0, p.Break).Y/l.height, 'f', 5, 64)
	for _, t := range l.tones {
		if t.upper == p.Colour && t.lower == p.Under && t.at == at {
			return "url(#" + t.id + ")"
		}
	}
	id := "tone-" + l.view.ID + "-" + num(l.width) + "-" + strconv.Itoa(len(l.tones))
	l.tones = append(l.tones, twoTone{id, p.Colour, p.Under, at})
	return "url(#" + id + ")"
}

func (l laid) box() string { return "0 0 " + num(l.width) + " " + num(l.height) }

// The attributes by which a script turns a touched point back into millimetres.
func (l laid) scale() string { return strconv.FormatFloat(l.frame.k, 'g', 8, 64) }

func (l laid) origin() string {
	p := l.frame.at(0, 0)
	return num(p.X) + " " + num(p.Y)
}

func (l laid) axes() string {
	a, b := "+", "+"
	if l.frame.flip {
		a = "-"
	}
	if l.frame.rise {
		b = "-"
	}
	return l.view.Plane[:1] + a + " " + l.view.Plane[1:] + b
}
