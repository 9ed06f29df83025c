package loom

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	stage "fettle/stage/loom"
)

func (p place) netRoutes() []web.Route {
	return []web.Route{{Pattern: "GET /b/{build}/loom/net", Who: web.Guest, Handle: p.net}}
}

// rung is one run of the net's drawing, from what feeds it to earth.
type rung struct {
	ID      string `json:"id"`
	System  string `json:"system"`
	Fuse    string `json:"fuse,omitempty"`
	Rating  string `json:"rating,omitempty"`
	From    string `json:"from"`
	Pin     string `json:"from_terminal,omitempty"`
	Letters string `json:"colour,omitempty"`
	Section string `json:"section"`
	To      string `json:"to"`
	Loads   []load `json:"loads"`
	Fails   bool   `json:"fails,omitempty"`
	Href    string `json:"-"`

	tied bool // leaves a terminal that a run above it leaves too
}

// load is what a run feeds: a consumer, or the part where a feed ends.
type load struct {
	Name   string `json:"name"`
	Kind   string `json:"kind"` // of its symbol; none is a box
	Pin    string `json:"terminal,omitempty"`
	Plug   string `json:"connector,omitempty"`
	Cavity string `json:"cavity,omitempty"`
	Earth  string `json:"earth,omitempty"` // by name; 31 where none is said
}

// Says reads the rung out.
func (g rung) Says() string {
	text := g.ID + ": from " + joined(g.From, g.Pin) + " by " + strings.TrimSpace(g.Letters+" "+g.Section)
	for i, l := range g.Loads {
		text += map[bool]string{true: " to ", false: " and "}[i == 0] + joined(l.Name, l.Pin)
		if l.Plug != "" {
			text += " by " + l.Plug + " cavity " + l.Cavity
		}
	}
	if g.Fuse != "" {
		text += ", fuse " + g.Fuse + " " + g.Rating
	}
	return text
}

func joined(part, terminal string) string {
	if terminal == "" {
		return part
	}
	return part + " terminal " + terminal
}

// netPage is the net, a sheet for each system.
type netPage struct {
	sheet
	Systems []netSystem
	Only    string // the system that is shown alone
	Runs    int
}

func (p place) net(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	rungs := s.rungs()
	if r.As() == "json" {
		return r.JSON(rungs)
	}
	page := netPage{sheet: s, Only: r.Query("system"), Runs: len(rungs)}
	for _, name := range systems {
		mine := slices.DeleteFunc(slices.Clone(rungs), func(g rung) bool { return g.System != name })
		if len(mine) > 0 {
			page.Systems = append(page.Systems, s.drawSystem(name, mine))
		}
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: "the net, " + plural(page.Runs, "run")}, showNet(page))
}

// code is the code of colours that the drawing is lettered in.
func (page netPage) code() string {
	if page.Build.Loom.Settings.Code == "IEC 60757" {
		return "by IEC 60757"
	}
	return "by BS-AU7"
}

// shown are the sheets that are asked for.
func (page netPage) shown() []netSystem {
	var list []netSystem
	for _, x := range page.Systems {
		if page.Only == "" || page.Only == x.Key {
			list = append(list, x)
		}
	}
	return list
}

// rungs are the runs of the loom, those of one feeder together.
func (s sheet) rungs() []rung {
	list := make([]rung, len(s.Loom.Rows))
	for i, row := range s.Loom.Rows {
		list[i] = s.rung(row)
	}
	first := map[string]int{}
	for i, g := range list {
		if _, ok := first[g.From]; !ok {
			first[g.From] = i
		}
	}
	slices.SortStableFunc(list, func(a, b rung) int { return first[a.From] - first[b.From] })
	return list
}

func (s sheet) rung(row stage.Row) rung {
	g := rung{ID: row.ID, Href: s.onePath(row.ID), Letters: row.AU7, Section: row.Section, Fails: len(row.Fails) > 0, Fuse: row.Fuse}
	if s.Build.Loom.Settings.Code == "IEC 60757" || g.Letters == "" {
		g.Letters = row.IEC
	}
	if row.Fuse != "" {
		g.Rating = number(row.FuseA) + " A"
	}
	for _, c := range s.Loom.Cuts {
		if c.ID == row.ID {
			g.From, g.Pin, _ = strings.Cut(c.From, ":")
			g.To, _, _ = strings.Cut(c.To, ":")
		}
	}
	if c := row.Circuit; c != nil {
		g.To = c.To
		if g.From == "" || strings.HasPrefix(g.From, "splice") {
			g.From = c.From
		}
		if s.Build.Loom.Box(g.From) != nil {
			g.Pin = "" // the way is the fuse, which is drawn
		}
		g.Loads = s.loads(c)
	}
	if len(g.Loads) == 0 {
		g.Loads = []load{s.lands(row, g.To)}
	}
	g.System = s.system(g, row.Circuit)
	return g
}

// loads are the consumers of a circuit, each with its connector and its earth.
func (s sheet) loads(c *build.Circuit) []load {
	var list []load
	for _, x := range s.Build.Loom.Consumers {
		if !slices.Contains(x.Circuits, c.ID) {
			continue
		}
		one := load{Name: x.Name, Kind: kindOf(x), Pin: x.Plus, Earth: s.earthOf(c.ID, x.At)}
		one.Plug, one.Cavity = s.plugOf(c.ID, x.At)
		list = append(list, one)
	}
	return list
}

// lands is where a run ends that feeds no consumer: a terminal of a part.
func (s sheet) lands(row stage.Row, to string) load {
	one := load{Name: to}
	l := &s.Build.Loom
	for _, c := range s.Loom.Cuts {
		if c.ID == row.ID {
			_, one.Pin, _ = strings.Cut(c.To, ":")
		}
	}
	switch {
	case slices.ContainsFunc(l.Batteries, func(x build.Battery) bool { return x.Name == to }):
		one.Kind = "battery"
	case slices.ContainsFunc(l.Alternators, func(x build.Alternator) bool { return x.Name == to }):
		one.Kind = "generator"
	case to == "starter":
		one.Kind = "motor"
	}
	if row.Circuit != nil && (!row.Circuit.Feed || to == "body") {
		if one.Earth = s.earthOf(row.ID, ""); one.Earth == noEarth {
			one.Earth = "" // where it goes on to is not said
		}
		one.Plug, one.Cavity = s.plugOf(row.ID, "")
	}
	return one
}

// plugOf is the connector of a circuit at a place, or its only one.
func (s sheet) plugOf(circuit string, at build.WaypointID) (plug, cavity string) {
	for _, x := range s.Build.Loom.Connectors {
		if t := onTerminal(x.Contacts, circuit); t != "" && (at == "" || x.At == at) {
			return x.Name, t
		}
	}
	return "", ""
}

// noEarth stands where the list does not say at which point a consumer is earthed.
const noEarth = "31"

// earthOf is the nearest of the earth points that a circuit goes to.
func (s sheet) earthOf(circuit string, at build.WaypointID) string {
	best, least := noEarth, -1.0
	from := s.Build.Loom.Waypoint(at)
	for _, j := range s.Build.Loom.Joints {
		if j.Kind != "earth" || !slices.Contains(j.Circuits, circuit) {
			continue
		}
		far := 0.0
		if to := s.Build.Loom.Waypoint(j.At); from != nil && to != nil {
			for i := range from.At {
				d := (from.At[i] - to.At[i]).Mm()
				far += d * d
			}
		}
		if least < 0 || far < least {
			best, least = j.Name, far
		}
	}
	return best
}

func onTerminal(list []build.Contact, circuit string) string {
	for _, t := range list {
		if slices.Contains(t.Circuits, circuit) {
			return t.Terminal
		}
	}
	return ""
}
