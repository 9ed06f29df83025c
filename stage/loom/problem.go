package loom

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/engine/loom"
)

// ProblemOf is the loom as the engine takes it. A circuit that has wires is
// worked out as a net, one that has none by its list.
func ProblemOf(b *build.Build) loom.Problem {
	l, s := &b.Loom, b.Loom.Settings
	p := loom.Problem{Name: b.Name, Rules: s.Rules, Cable: s.Cable, NominalV: s.Volts, PositiveEarth: s.PositiveEarth, AmbientC: s.Air}
	for _, a := range s.Airs {
		p.Zones = append(p.Zones, loom.Zone{Name: a.Name, AmbientC: a.Celsius})
	}
	for _, c := range l.Cables {
		p.Own = append(p.Own, cableOf(c))
	}
	for _, x := range l.Batteries {
		p.Batteries = append(p.Batteries, loom.Battery{Name: x.Name, Volts: x.Volts, CrankingAmps: x.Cranking, AmpHours: x.AmpHours, ReserveMinutes: x.Reserve, DrainMilliamps: x.Drain})
	}
	for _, x := range l.Alternators {
		p.Alternators = append(p.Alternators, loom.Alternator{Name: x.Name, Volts: x.Volts, RatedAmps: x.Rated, IdleAmps: x.Idle})
	}
	for _, x := range l.Boxes {
		p.Boxes = append(p.Boxes, loom.Box{Name: x.Name, Ways: x.Ways})
	}
	for _, x := range l.Fuses {
		p.Fuses = append(p.Fuses, loom.Fuse{Name: x.Name, Amps: x.Amps, Type: x.Type, Box: x.Box, Empty: x.Empty})
	}
	wire(b, &p)
	for _, c := range b.Circuits {
		if !wiredOut(l, c.ID) {
			p.Circuits = append(p.Circuits, circuitOf(b, &p, c))
		}
	}
	for _, e := range l.Exclusives {
		if never := slices.DeleteFunc(slices.Clone(e.Never), func(id string) bool { return !known(&p, id) }); len(never) > 1 {
			p.Exclusives = append(p.Exclusives, loom.Exclusive{Never: never})
		}
	}
	return p
}

func wiredOut(l *build.Loom, circuit string) bool {
	return slices.ContainsFunc(l.Wires, func(w build.Wire) bool { return w.Circuit == circuit })
}

func known(p *loom.Problem, id string) bool {
	return slices.ContainsFunc(p.Circuits, func(c loom.Circuit) bool { return c.ID == id }) ||
		slices.ContainsFunc(p.Consumers, func(c loom.Consumer) bool { return c.Name == id })
}

func cableOf(c build.Cable) loom.Cable {
	out := loom.Cable{Name: c.Name, Says: c.Says, MaxC: c.MaxC, AmbientC: c.AirC, K: c.K}
	for _, s := range c.Sizes {
		out.Sizes = append(out.Sizes, loom.Conductor{Name: s.Name, MM2: s.MM2, MilliOhmPerM: s.MilliOhm, Amps: s.Amps, OD: s.OD.Mm()})
	}
	return out
}

// duties by the words of the list.
var duties = map[string]loom.Duty{"int": loom.Intermittent, "short": loom.Short}

// circuitOf is a circuit of the list. The fuse it names is added where no list
// of fuses has it, one of its own for a link.
func circuitOf(b *build.Build, p *loom.Problem, c build.Circuit) loom.Circuit {
	out := loom.Circuit{
		Run:  loom.Run{ID: c.ID, Label: c.Label, LengthM: c.Length.Mm() / 1000, Section: c.Section, Duty: duties[c.Duty], Colour: Letters(c.Colour), DropPercent: c.DropLimit, Zone: c.Air, Pair: c.Pair},
		Name: c.Name, From: c.From, To: c.To, Amps: c.Load, Feed: c.Feed,
	}
	for _, x := range b.Loom.Consumers {
		if slices.Contains(x.Circuits, c.ID) {
			out.Night = out.Night || x.Night
			out.Share = max(out.Share, x.Share)
		}
	}
	if c.Fuse == "" || c.Fuse == "none" {
		out.Unfused = c.Unfused
		return out
	}
	f := loom.Fuse{Name: c.Fuse, Amps: c.FuseA}
	if c.Fuse == "link" {
		f.Name, f.Type = "link "+c.ID, loom.Link
	}
	if !slices.ContainsFunc(p.Fuses, func(o loom.Fuse) bool { return o.Name == f.Name }) {
		if f.Amps == 0 {
			out.Unfused = "nobody has said what fuse " + c.Fuse + " is rated at" // told by a check of its own
			return out
		}
		p.Fuses = append(p.Fuses, f)
	}
	out.Fuse = f.Name
	return out
}

// alsoCalled are words for colours that people use beside those of the codes.
var alsoCalled = map[string]string{"grey": "slate", "gray": "slate", "purple": "violet"}

// Letters returns a colour as a code writes it, or nothing where it cannot be
// read: letters of either code with a remark behind them, or words.
func Letters(colour string) string {
	text, _, _ := strings.Cut(colour, "(")
	text = strings.TrimSpace(text)
	if _, err := loom.ReadColour(text); err == nil {
		return text
	}
	var list []string
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r == '/' || r == ',' }) {
		word = strings.TrimSpace(word)
		if other, ok := alsoCalled[word]; ok {
			word = other
		}
		i := slices.IndexFunc(loom.Hues(), func(h loom.Hue) bool { return h.Name == word && h.AU7 != "" })
		if i < 0 {
			return ""
		}
		list = append(list, loom.Hues()[i].AU7)
	}
	return strings.Join(list, "/")
}
