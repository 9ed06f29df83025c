package paint

import (
	"cmp"
	"fmt"
	"slices"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/paint"
	"fettle/unit"
)

// clockScript lets countdowns run between two fetches of the page.
const clockScript = "countdown.js"

func (p place) clockRoutes() []web.Route {
	return []web.Route{{Pattern: "GET /b/{build}/paint/clocks", Who: web.Guest, Handle: p.clocks}}
}

// clockPage is every clock that runs.
type clockPage struct {
	sheet
	Ask   *web.Form // the air that bare metal stands in
	Faces []face
	Old   []face // closed for more than a day, or with nothing to wait for
	Bare  []bare
	List  table.Table
}

// face is one clock as it hangs on the wall: panels whose zone had the same
// coat and stands alike.
type face struct {
	stage.Running
	Panels []build.PanelID
	Word   string
	Left   int    // minutes until the next turn, negative since it closed
	Until  string // what happens then
	Redo   string // address of the form of paint again; empty where nothing was missed
}

// bare are panels that became bare together.
type bare struct {
	stage.BareMetal
	Panels []build.PanelID
	Left   int // minutes
}

func (p place) clocks(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	c := clockPage{sheet: s, Ask: r.Asked()}
	running := stage.Clocks(s.Build)
	running = slices.DeleteFunc(running, func(x stage.Running) bool { return x.Coat.At > s.Now })
	c.List = s.clockTable(running)
	switch r.As() {
	case "csv":
		return r.CSV("paint-clocks.csv", c.List.Records())
	case "json":
		return r.JSON(s.plainClocks(running))
	}
	c.sort(running)
	c.bare()
	sh := web.Sheet{Place: "paint", Shown: fmt.Sprintf("%d paint clocks at %s", len(c.Faces)+len(c.Bare), s.Now.Clock()), Scripts: []string{clockScript}}
	if len(c.Ask.Errors) > 0 {
		return r.Invalid(sh, showClocks(c))
	}
	return p.desk.Page(r, sh, showClocks(c))
}

// sort puts the clocks on the wall, the most urgent first.
func (c *clockPage) sort(running []stage.Running) {
	lost := stage.Windows(c.Build, c.Now)
	for _, f := range c.faces(running) {
		old := f.Word == "" || f.Word == stage.Closed && f.Left < -24*60
		if f.Word == stage.Closed || f.Word == stage.Closing {
			f.Redo = c.redoOf(f, lost)
		}
		if old {
			c.Old = append(c.Old, f)
		} else {
			c.Faces = append(c.Faces, f)
		}
	}
	rank := []string{stage.Closing, stage.Closed, stage.Open, stage.Curing}
	slices.SortStableFunc(c.Faces, func(a, b face) int {
		return cmp.Or(slices.Index(rank, a.Word)-slices.Index(rank, b.Word), a.Left-b.Left)
	})
}

// faces gathers panels whose clocks stand alike.
func (s sheet) faces(running []stage.Running) []face {
	var list []face
	for _, r := range running {
		word := r.State(s.Now)
		i := slices.IndexFunc(list, func(f face) bool {
			return f.Coat.ID == r.Coat.ID && f.Zone == r.Zone && f.Word == word && f.Next.Name == r.Next.Name
		})
		if i < 0 {
			f := face{Running: r, Word: word}
			f.Left, f.Until = r.Wait(s.Now)
			i, list = len(list), append(list, f)
		}
		list[i].Panels = append(list[i].Panels, r.Panel)
	}
	return list
}

// redoOf is where paint again is entered for a clock whose window closes.
func (c *clockPage) redoOf(f face, windows []stage.Window) string {
	for _, w := range windows {
		if w.Coat.ID == f.Coat.ID {
			w.Panels, w.Zones = f.Panels, []build.ZoneID{f.Zone}
			w.Area = c.Build.SurfaceOf(f.Product, w.Panels, w.Zones)
			lost := stage.MissedOn(c.Build, []stage.Window{w})
			if len(lost.Coats) > 0 {
				return redoAddress(c.sheet, lost, f.Product.Task, f.Next.Name+" not on in time")
			}
		}
	}
	return ""
}

// bare reads the air, where it was given, and gathers the bare panels.
func (c *clockPage) bare() {
	var air *stage.Readings
	f := c.Ask
	if f.Raw("air") != "" || f.Raw("rh") != "" || f.Raw("metal") != "" {
		air = &stage.Readings{Air: degrees(f, "air"), RH: degrees(f, "rh"), Metal: degrees(f, "metal")}
	}
	if len(f.Errors) > 0 {
		air = nil
	}
	list, err := stage.BareMetals(c.Build, c.Now, air)
	if err != nil {
		blame(f, err, airFields)
		list, _ = stage.BareMetals(c.Build, c.Now, nil)
	}
	for _, m := range list {
		i := slices.IndexFunc(c.Bare, func(b bare) bool { return b.Since == m.Since })
		if i < 0 {
			i, c.Bare = len(c.Bare), append(c.Bare, bare{BareMetal: m, Left: int(m.Clock.By - c.Now)})
		}
		c.Bare[i].Panels = append(c.Bare[i].Panels, m.Panel.ID)
	}
}

// clockTable is every clock, a line a zone of a panel.
func (s sheet) clockTable(running []stage.Running) table.Table {
	t := table.Table{ID: "paint-clock-list", Caption: "Every panel and zone at " + s.Now.Clock(), Self: s.Base + "/paint/clocks", Empty: "No coat is on yet.",
		Columns: []table.Column{{Head: "Panel"}, {Head: "Zone", Wide: true}, {Head: "Last coat", Wide: true}, {Head: "On at"}, {Head: "Metal", Unit: "°C", Number: true},
			{Head: "State"}, {Head: "How it stands", Wide: true}}}
	for _, r := range running {
		word := r.State(s.Now)
		t.Rows = append(t.Rows, table.Row{Quiet: word == "", Cells: []table.Cell{
			table.Link(string(r.Panel), s.Base+"/paint/panel/"+string(r.Panel)), table.Text(s.Build.ZoneName(r.Zone)),
			table.Text(fmt.Sprintf("%s, %d of %d", r.Product.Name, r.Coat.Number, r.Product.Coats)),
			table.Text(when(s.Now, r.Coat.At)), table.Text(plainNumber(r.Coat.Metal)),
			table.Show(word, clockMark(word)), table.Text(r.Say(s.Now))}})
	}
	return t
}

// plainClock is a clock as a script gets it.
type plainClock struct {
	Panel   build.PanelID   `json:"panel"`
	Zone    build.ZoneID    `json:"zone"`
	Product build.ProductID `json:"product"`
	Coat    int             `json:"coat"`
	At      unit.Moment     `json:"at"`
	State   string          `json:"state,omitempty"`
	Next    string          `json:"next,omitempty"`
	Opens   unit.Moment     `json:"opens,omitzero"`
	Closes  unit.Moment     `json:"closes,omitzero"`
	Says    string          `json:"says"`
	Trouble string          `json:"trouble,omitempty"`
}

func (s sheet) plainClocks(running []stage.Running) []plainClock {
	list := []plainClock{}
	for _, r := range running {
		c := plainClock{Panel: r.Panel, Zone: r.Zone, Product: r.Product.ID, Coat: r.Coat.Number, At: r.Coat.At, State: r.State(s.Now),
			Next: r.Next.Name, Closes: r.Next.To, Says: r.Say(s.Now), Trouble: r.Trouble}
		if r.Next.Name != "" && r.Trouble == "" {
			c.Opens = r.Next.From
		}
		list = append(list, c)
	}
	return list
}
