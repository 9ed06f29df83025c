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

// rung is one circuit of the net's drawing, from the plus rail to earth.
type rung struct {
	ID, Href     string
	Fuse, Rating string // drawn on the first rung of its fuse
	Bus          bool   // fed by the fuse of the rung above
	More         bool   // the rung below is fed by the same fuse
	From, Pin    string // what it comes from, with the terminal
	Mark         string // colour and section
	To, In       string // what it feeds, with the terminal
	Kind         string // "lamp", "motor", "relay", "feed" or ""
	Earth        string
	Fails        bool
}

// Says reads the rung out.
func (g rung) Says() string {
	text := g.ID + ": from " + joined(g.From, g.Pin) + " by " + g.Mark + " to " + joined(g.To, g.In)
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

// rungsPerSheet are drawn between one pair of rails, so that a sheet of paper
// holds them.
const rungsPerSheet = 16

// netPage is the net on as many sheets as it takes.
type netPage struct {
	sheet
	Sheets [][]rung
	Rungs  []rung
}

func (p place) net(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := netPage{sheet: s, Rungs: s.rungs()}
	if r.As() == "json" {
		return r.JSON(page.Rungs)
	}
	page.Sheets = slices.Collect(slices.Chunk(page.Rungs, rungsPerSheet))
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: "the net, " + plural(len(page.Rungs), "run")}, showNet(page))
}

// rungs draws the runs by their fuses: feeds without a fuse first.
func (s sheet) rungs() []rung {
	rows := slices.Clone(s.Loom.Rows)
	slices.SortStableFunc(rows, func(a, b stage.Row) int { return s.fuseAt(a.Fuse) - s.fuseAt(b.Fuse) })
	list := make([]rung, len(rows))
	for i, row := range rows {
		list[i] = s.rung(row)
		if row.Fuse == "" {
			continue
		}
		list[i].Bus = i > 0 && rows[i-1].Fuse == row.Fuse && i%rungsPerSheet > 0
		list[i].More = i+1 < len(rows) && rows[i+1].Fuse == row.Fuse && (i+1)%rungsPerSheet > 0
		if !list[i].Bus {
			list[i].Fuse, list[i].Rating = row.Fuse, number(row.FuseA)+" A"
		}
	}
	return list
}

// fuseAt is where a fuse stands in the list; none stands first.
func (s sheet) fuseAt(name string) int {
	for i, f := range s.Loom.Fuses {
		if f.Name == name {
			return i
		}
	}
	return -1
}

func (s sheet) rung(row stage.Row) rung {
	g := rung{ID: row.ID, Href: s.onePath(row.ID), Mark: strings.TrimSpace(row.AU7 + " " + row.Section), Fails: len(row.Fails) > 0, Earth: "31"}
	for _, c := range s.Loom.Cuts {
		if c.ID == row.ID {
			g.From, g.Pin, _ = strings.Cut(c.From, ":")
			g.To, g.In, _ = strings.Cut(c.To, ":")
		}
	}
	if row.Circuit == nil {
		return g
	}
	g.To = row.Circuit.To
	if g.From == "" {
		g.From = row.Circuit.From
	}
	g.Kind, g.In = s.kind(row.Circuit)
	if g.Kind == "feed" {
		g.Earth = ""
		return g
	}
	for _, j := range s.Build.Loom.Joints {
		if j.Kind == "earth" && slices.Contains(j.Circuits, row.ID) {
			g.Earth = "31, " + j.Name
		}
	}
	return g
}

// kind is what a circuit feeds, as its symbol, with the terminal it lands on.
func (s sheet) kind(c *build.Circuit) (kind, terminal string) {
	if c.Feed {
		return "feed", s.landsOn(c)
	}
	for _, x := range s.Build.Loom.Consumers {
		if !slices.Contains(x.Circuits, c.ID) {
			continue
		}
		switch {
		case x.Behaviour == "motor":
			return "motor", x.Plus
		case x.Behaviour == "filament" || x.Use == "lamp" || x.Use == "headlamp":
			return "lamp", x.Plus
		}
		return "", x.Plus
	}
	return "", ""
}

// landsOn is the terminal of a switch or relay that a feed goes to.
func (s sheet) landsOn(c *build.Circuit) string {
	for _, x := range s.Build.Loom.Switches {
		if t := onTerminal(x.Contacts, c.ID); t != "" && x.Name == c.To {
			return t
		}
	}
	for _, x := range s.Build.Loom.Relays {
		if t := onTerminal(x.Contacts, c.ID); t != "" && x.Name == c.To {
			return t
		}
	}
	return ""
}

func onTerminal(list []build.Contact, circuit string) string {
	for _, t := range list {
		if slices.Contains(t.Circuits, circuit) {
			return t.Terminal
		}
	}
	return ""
}
