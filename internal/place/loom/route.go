package loom

import (
	"fmt"
	"strconv"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/drawn"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/vehicle"
	"fettle/internal/web/ui/working"
	"fettle/unit"
)

func (p place) routeRoutes() []web.Route {
	at := "/b/{build}/loom/route"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.route},
		{Pattern: "POST " + at + "/drilled", Who: web.Crew, Handle: p.drilled},
		{Pattern: "POST " + at + "/lengths", Who: web.Crew, Handle: p.lengths},
		{Pattern: "POST " + at + "/start", Who: web.Crew, Handle: p.start},
		{Pattern: "GET " + at + "/places", Who: web.Guest, Handle: p.places},
	}
}

// routePage is the vehicle with the loom drawn in, its holes and its lengths.
type routePage struct {
	sheet
	Views   []vehicle.View
	View    vehicle.View
	Holes   table.Table
	Runs    table.Table
	Lengths table.Table
	Undrawn int             // circuits without ends on the body
	Unholed []build.Hole    // not drilled yet
	Longer  []build.Circuit // whose length by the route differs from the list
	Moved   []string        // what the slip does to the route
	Ends    []unplaced      // of the list of circuits, that no waypoint goes by
}

func (p place) route(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := s.routePage(r.Query("view"))
	page.Moved = s.moved(r.Context())
	switch r.As() {
	case "csv":
		switch r.Query("list") {
		case "bundles":
			return r.CSV(r.Build()+"-bundles.csv", page.Runs.Records())
		case "lengths":
			return r.CSV(r.Build()+"-lengths.csv", page.Lengths.Records())
		}
		return r.CSV(r.Build()+"-holes.csv", page.Holes.Records())
	case "json":
		return r.JSON(map[string]any{"route": s.Loom.Route, "holes": s.Loom.Holes})
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: "the route, " + plural(len(s.Loom.Holes), "hole"), Scripts: []string{touchScript}}, showRoute(page))
}

func (s sheet) routePage(view string) routePage {
	page := routePage{sheet: s, Holes: s.holes(), Runs: s.bundles()}
	page.Views = s.drawings(s.Crew)
	page.View, _ = drawn.View(page.Views, view)
	for _, h := range s.Build.Loom.Holes {
		if !h.Drilled {
			page.Unholed = append(page.Unholed, h)
		}
	}
	page.lengthTable()
	page.Ends = s.unplacedEnds()
	return page
}

// holes is the list of holes, for whoever drills them before paint.
func (s sheet) holes() table.Table {
	t := table.Table{ID: "holes", Caption: "Holes, to be drilled before paint", Self: s.At() + "/route?list=holes", Empty: "The loom passes no hole.", Columns: []table.Column{
		{Head: "Hole"}, {Head: "Panel", Wide: true}, {Head: "Drill", Unit: "mm", Number: true}, {Head: "Grommet", Wide: true}, {Head: "Bundle", Unit: "mm", Number: true}, {Head: "Wires", Number: true}, {Head: "So"}, {Head: "Drilled"}}}
	for _, h := range s.Loom.Holes {
		says, meaning := "fits", mark.Safe
		switch {
		case !h.Fits:
			says, meaning = "too small", mark.Lost
		case h.Wires == 0:
			says, meaning = "nothing passes", mark.Tight
		}
		done := "no"
		if h.Drilled {
			done = "yes"
		}
		bundle := table.Text("")
		if h.Bundle > 0 {
			text := fmt.Sprintf("%.1f", h.Bundle)
			bundle = table.Show(text, working.Figure("hole-"+h.ID+"-bundle", working.Inline, retext(h.Working, text)))
		}
		t.Rows = append(t.Rows, table.Row{ID: "hole-" + h.ID, Quiet: h.Drilled, Cells: []table.Cell{table.Link(h.ID, s.holePath(h.ID)), table.Link(string(h.Panel)+" "+h.PanelName, s.Base+"/panel/"+string(h.Panel)),
			table.Text(number(h.Diameter.Mm())), table.Text(h.Grommet), bundle, table.Text(strconv.Itoa(h.Wires)), table.Show(says, mark.Show(meaning, says)), table.Text(done)}})
	}
	return t
}

// bundles is the list of stretches with what lies in each.
func (s sheet) bundles() table.Table {
	t := table.Table{ID: "bundles", Caption: "Bundles, stretch by stretch", Self: s.At() + "/route?list=bundles", Empty: "No stretch carries a wire yet.", Columns: []table.Column{
		{Head: "Stretch"}, {Head: "From", Wide: true}, {Head: "To", Wide: true}, {Head: "Length", Unit: "mm", Number: true}, {Head: "Wires", Number: true}, {Head: "Across", Unit: "mm", Number: true}, {Head: "Cover"}, {Head: "Bend, least radius", Unit: "mm", Number: true}}}
	if s.Loom.Route == nil {
		return t
	}
	for _, x := range s.Loom.Route.Runs {
		text := fmt.Sprintf("%.1f", x.Outside)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Link(x.ID, s.stretchPath(x.ID)), table.Link(s.placeName(x.From), s.pointPath(build.WaypointID(x.From))), table.Link(s.placeName(x.To), s.pointPath(build.WaypointID(x.To))), table.Text(fmt.Sprintf("%.0f", x.Length)), table.Text(strconv.Itoa(len(x.Wires))),
			table.Show(text, working.Figure("bundle-"+x.ID, working.Inline, retext(x.Working, text))), table.Text(string(x.Cover)), table.Text(fmt.Sprintf("%.0f", x.Bend))}})
	}
	return t
}

func (s sheet) placeName(id string) string {
	if w := s.Build.Loom.Waypoint(build.WaypointID(id)); w != nil && w.Name != "" {
		return w.Name
	}
	return id
}

// lengthTable sets the lengths by the list beside those of the route.
func (page *routePage) lengthTable() {
	t := table.Table{ID: "lengths", Caption: "Lengths: by the list, and along the route", Self: page.At() + "/route?list=lengths", Empty: "No circuit has both a length and a way yet.", Columns: []table.Column{
		{Head: "Circuit", Wide: true}, {Head: "By the list", Unit: "m", Number: true}, {Head: "Along the route", Unit: "m", Number: true}, {Head: "Difference", Unit: "m", Number: true}}}
	for _, row := range page.Loom.Rows {
		switch {
		case row.Circuit == nil:
			continue
		case row.RoutedMM == 0:
			page.Undrawn++
			continue
		}
		d := (row.RoutedMM - row.StatedMM) / 1000
		if d > 0.05 || d < -0.05 {
			page.Longer = append(page.Longer, *row.Circuit)
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Link(row.ID+" "+row.Circuit.Name, page.onePath(row.ID)), table.Text(fmt.Sprintf("%.2f", row.StatedMM/1000)),
			table.Text(fmt.Sprintf("%.2f", row.RoutedMM/1000)), table.Text(fmt.Sprintf("%+.2f", d))}})
	}
	page.Lengths = t
}

// drilled notes that a hole is drilled.
func (p place) drilled(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	act := &build.DrillHole{Hole: f.Text("hole", 1, 20), Day: view.Now.Date(), By: build.PersonID(r.Person().Code)}
	desk.Holds(f, &view.Build, "hole", act)
	if err := f.Err(); err != nil {
		return err
	}
	return p.desk.Keep(r, f.Raw("entry"), act.Say(&view.Build), "/b/"+r.Build()+"/loom/route#holes", act)
}

// lengths takes the lengths of the route over into the list: of one circuit, or
// of all that differ.
func (p place) lengths(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	var changes []build.Change
	for _, row := range s.Loom.Rows {
		if row.Circuit == nil || row.RoutedMM == 0 || f.Raw("circuit") != "" && f.Raw("circuit") != row.ID {
			continue
		}
		c := *row.Circuit
		c.Length = (unit.Length(row.RoutedMM*float64(unit.Millimetre)) + 10*unit.Millimetre - 1) / (10 * unit.Millimetre) * (10 * unit.Millimetre)
		if c.Length != row.Circuit.Length {
			changes = append(changes, &build.SetCircuit{Circuit: c})
		}
	}
	if len(changes) == 0 {
		return fault.New(fault.Conflict, "the list has the lengths of the route already")
	}
	return p.desk.Propose(r, s.Base+"/slip", changes...)
}

// holeOptions are the holes that are still to be drilled.
func (page routePage) holeOptions() []field.Option {
	list := make([]field.Option, len(page.Unholed))
	for i, h := range page.Unholed {
		list[i] = field.Option{Value: h.ID, Label: fmt.Sprintf("%s, %g mm in %s", h.ID, h.Diameter.Mm(), h.Panel)}
	}
	return list
}
