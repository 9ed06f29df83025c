package metal

import (
	"fmt"
	"math"
	"net/url"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/geom"
	"fettle/geom/mesh"
	"fettle/geom/outline"
	"fettle/geom/pdf"
	"fettle/internal/desk"
	"fettle/internal/shapeout"
	"fettle/internal/surfacein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	relief "fettle/internal/web/ui/surface"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/metal"
	"fettle/unit"
)

func (p place) surfaceRoutes() []web.Route {
	at := "/b/{build}/metal/surface"
	return []web.Route{
		{Pattern: "GET " + at + "s", Who: web.Guest, Handle: p.surfaces},
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.newSurface},
		{Pattern: "POST " + at, Who: web.Crew, MaxBody: surfacein.FileLimit + 1<<20, Handle: p.takeSurface},
		{Pattern: "GET " + at + "/{surface}", Who: web.Guest, Handle: p.panelFlat},
		{Pattern: "GET " + at + "/{surface}/file", Who: web.Guest, Handle: p.panelFile},
		{Pattern: "POST " + at + "/{surface}/keep", Who: web.Crew, Handle: p.keepPanel},
	}
}

func (s scene) surfacePath(id build.SurfaceID) string {
	return s.At() + "/surface/" + url.PathEscape(string(id))
}

// ofMetal are the surfaces that are made of sheet.
func (s scene) ofMetal() []build.Surface {
	var list []build.Surface
	for _, one := range s.Build.Surfaces {
		if one.Use == build.ForMetal {
			list = append(list, one)
		}
	}
	return list
}

// surfacesPage are the surfaces that panels are made by, and the form by which
// one is taken in.
type surfacesPage struct {
	scene
	foldActs
	Table table.Table
}

func (s scene) surfacesPage() surfacesPage {
	t := table.Table{ID: "surfaces", Caption: "Panels to be made, as scanned or modelled", Self: s.At() + "/surfaces", Empty: "No surface of a panel is taken in yet: a scan of the other side, mirrored, or a model. Its flat shape, and where it is stretched, shrunk or folded, follow.", Columns: []table.Column{
		{Head: "Surface"}, {Head: "What it is", Wide: true}, {Head: "Panel"}, {Head: "Read from", Wide: true}, {Head: "Area", Unit: "m²", Number: true}, {Head: "Faces", Number: true}}}
	for _, one := range s.ofMetal() {
		panel := table.Text("")
		if one.Panel != "" {
			panel = table.Link(string(one.Panel), s.At()+"/panel/"+url.PathEscape(string(one.Panel)))
		}
		t.Rows = append(t.Rows, table.Row{ID: string(one.ID), Cells: []table.Cell{table.Link(string(one.ID), s.surfacePath(one.ID)), table.Text(one.Name), panel, table.Text(one.File), table.Text(fmt.Sprintf("%.3f", one.Area.M2())), table.Text(fmt.Sprint(one.Faces))}})
	}
	return surfacesPage{scene: s, Table: t}
}

func (p place) surfaces(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page := s.surfacesPage()
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-panels.csv", page.Table.Records())
	case "json":
		return r.JSON(s.ofMetal())
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: "panels to be made"}, showSurfaces(page))
}

func (p place) newSurface(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: "a panel to be made"}, showSurfaceForm(s.surfacesPage()))
}

// takeSurface reads a surface, keeps it in the vault and lays the fact on the
// slip.
func (p place) takeSurface(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	one := build.Surface{ID: build.SurfaceID(strings.ToUpper(f.Text("id", 1, 12))), Name: f.Text("name", 1, 80), Note: f.Text("note", 0, 400), Use: build.ForMetal, Panel: build.PanelID(f.Raw("panel"))}
	m := surfacein.Read(f, &one)
	if f.Err() == nil {
		surfacein.Keep(r, p.desk.Vault, f, &one, m)
	}
	change := &build.SetSurface{Surface: one}
	if f.Err() == nil {
		desk.Holds(f, s.Build, "panel", change)
	}
	if f.Err() == nil {
		return p.desk.Propose(r, s.surfacePath(one.ID), change)
	}
	page := s.surfacesPage()
	page.foldActs = foldActs{Open: "surface", Wrong: f.Errors, typed: f.Raw}
	return r.Invalid(web.Sheet{Place: "metal", Shown: "a panel to be made"}, showSurfaceForm(page))
}

func (s scene) nextSurface() string {
	for n := len(s.Build.Surfaces) + 1; ; n++ {
		if id := fmt.Sprintf("U%d", n); s.Build.Surface(build.SurfaceID(id)) == nil {
			return id
		}
	}
}

// panelsToMake are the panels that a surface can be of, those to be made first.
func (s scene) panelsToMake(picked string) []field.Option {
	list := []field.Option{{Value: "", Label: "none on the list"}}
	for _, making := range []bool{true, false} {
		for _, p := range s.Build.Panels {
			if (p.Decision == build.Make) == making {
				list = append(list, field.Option{Value: string(p.ID), Label: string(p.ID) + " " + p.FullName(), Picked: string(p.ID) == picked})
			}
		}
	}
	return list
}

// atOnce is how many vertices are laid flat while a person waits.
const atOnce = 30_000

// madePage is a panel that is made from a surface, beside its sheet laid flat.
type madePage struct {
	scene
	foldActs
	Surface build.Surface
	Mesh    mesh.Mesh
	Ask     stage.PanelAsk
	Side    relief.Named
	Panel   *stage.Panel
	Class   []relief.Class
	Trouble string
}

func (p place) madePage(r *web.Request, f *web.Form) (madePage, error) {
	s, err := p.scene(r)
	if err != nil {
		return madePage{}, err
	}
	one := s.Build.Surface(build.SurfaceID(r.Path("surface")))
	if one == nil || one.Use != build.ForMetal {
		return madePage{}, fault.New(fault.NotFound, "no panel is made by a surface %q", r.Path("surface"))
	}
	page := madePage{scene: s, Surface: *one, Side: relief.Side(f.Raw("side")), Ask: stage.PanelAsk{Grade: "DC04", Gauge: unit.Millimetre, Mirror: f.Raw("mirror") == "yes"}}
	if of := s.Build.Panel(one.Panel); of != nil && of.Gauge > 0 {
		page.Ask.Gauge = of.Gauge
	}
	if f.Raw("grade") != "" {
		page.Ask.Grade = f.Choice("grade", stage.Grades()...)
	}
	if f.Raw("gauge") != "" {
		page.Ask.Gauge = unit.Length(f.Decimal("gauge", 3, 100, mostGauge))
	}
	page.foldActs = foldActs{Open: "panel", Wrong: f.Errors}
	if page.Mesh, err = surfacein.Open(r.Context(), p.desk.Vault, *one); err != nil || f.Err() != nil {
		return page, err
	}
	if n := len(page.Mesh.Points); n > atOnce {
		page.Trouble = fmt.Sprintf("It has %d vertices; up to %d are laid flat here. Thin it out in the program of the scanner and take it in again.", n, atOnce)
		return page, nil
	}
	laid, err := stage.LayPanel(r.Context(), page.Mesh, page.Ask)
	if err != nil {
		page.Trouble = err.Error()
		return page, nil
	}
	page.Panel, page.Mesh = &laid, laid.Problem.Surface
	page.Class = make([]relief.Class, len(laid.Result.Faces))
	for i := range page.Class {
		page.Class[i] = formedAs(laid.Ratio(i), laid.Near(i))
	}
	return page, nil
}

// formedAs is the class of a face by what is done to its sheet.
func formedAs(ratio, near float64) relief.Class {
	switch {
	case near >= 0.9:
		return relief.Past
	case ratio > 1.05:
		return relief.Hard
	case ratio > 1.01:
		return relief.Pulled
	case ratio < 1/1.05:
		return relief.Wrinkles
	case ratio < 1/1.01:
		return relief.Eased
	}
	return relief.Lies
}

// formedWords say what a class asks of a metalworker.
var formedWords = [relief.Classes][2]string{
	relief.Lies: {"stays as it is", "within 1 %"}, relief.Pulled: {"stretch: hammer or wheel", "+1 to +5 %"}, relief.Hard: {"stretch much, in passes", "over +5 %"},
	relief.Past: {"at its forming limit: split the panel", "90 % of the limit or more"}, relief.Eased: {"shrink: tuck or shrinker", "−1 to −5 %"}, relief.Wrinkles: {"shrink much: tucks, or cut and weld", "over −5 %"},
}

// formedBand is one line of the legend.
type formedBand struct {
	Class       relief.Class
	Does, Means string
	Share       float64
}

func (page madePage) bands() []formedBand {
	var area [relief.Classes]float64
	var whole float64
	for i, c := range page.Class {
		area[c] += page.Panel.Areas[i]
		whole += page.Panel.Areas[i]
	}
	var list []formedBand
	for _, c := range []relief.Class{relief.Past, relief.Hard, relief.Pulled, relief.Lies, relief.Eased, relief.Wrinkles} {
		list = append(list, formedBand{c, formedWords[c][0], formedWords[c][1], area[c] / whole})
	}
	return list
}

// spots are the most stretched and the most shrunk face.
func (page madePage) spots() []relief.Spot {
	high, low := 0, 0
	for i := range page.Class {
		if page.Panel.Ratio(i) > page.Panel.Ratio(high) {
			high = i
		}
		if page.Panel.Ratio(i) < page.Panel.Ratio(low) {
			low = i
		}
	}
	return []relief.Spot{{Face: int32(high), Label: "1"}, {Face: int32(low), Label: "2"}}
}

func (page madePage) spotWords() string {
	at := page.spots()
	return fmt.Sprintf("1: most stretched, area %s %%. 2: most shrunk, area %s %%.", signed(page.Panel.Ratio(int(at[0].Face))-1), signed(page.Panel.Ratio(int(at[1].Face))-1))
}

func signed(share float64) string {
	return strings.Replace(fmt.Sprintf("%+.1f", 100*share), "-", "−", 1)
}

func (page madePage) solid() relief.Solid {
	return relief.Solid{Points: page.Mesh.Points, Faces: page.Mesh.Faces, Class: page.Class, Cuts: page.Panel.Result.Cuts, Spots: page.spots()}
}

func (page madePage) flat() relief.Flat {
	f := relief.Flat{Points: page.Panel.Result.Flat.Points, Faces: page.Panel.Result.Flat.Faces, Class: page.Class, Spots: page.spots()}
	for _, b := range page.Panel.Bends {
		f.Lines = append(f.Lines, [2]geom.Point{b.From, b.To})
	}
	return f
}

// bendTable are the places where the sheet is folded rather than stretched.
func (page madePage) bendTable() table.Table {
	t := table.Table{ID: "folds", Caption: "Where it is folded rather than stretched", Empty: "No straight fold is in it.", Columns: []table.Column{{Head: "Fold"}, {Head: "Length", Unit: "mm", Number: true}, {Head: "Way"}, {Head: "Angle", Unit: "°", Number: true}, {Head: "Radius", Unit: "mm", Number: true}}}
	for i, b := range page.Panel.Bends {
		way := "up"
		if b.Angle > 0 {
			way = "down" // away from the outside
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(fmt.Sprint(i + 1)), table.Text(fmt.Sprintf("%.0f", b.From.Distance(b.To))), table.Text(way), table.Text(fmt.Sprintf("%.0f", math.Abs(b.Angle)*180/math.Pi)), table.Text(fmt.Sprintf("%.1f", b.Radius))}})
	}
	return t
}

// asked is what is asked, as the address has it.
func (page madePage) asked(side string) string {
	v := url.Values{"grade": {page.Ask.Grade}, "gauge": {mm(page.Ask.Gauge)}, "side": {side}}
	if page.Ask.Mirror {
		v.Set("mirror", "yes")
	}
	return page.surfacePath(page.Surface.ID) + "?" + v.Encode()
}

// fileOf is the address of the flat panel in a form.
func (page madePage) fileOf(form string) string {
	return strings.Replace(page.asked(page.Side.Key), "?", "/file?form="+form+"&", 1)
}

func (p place) panelFlat(r *web.Request) error {
	page, err := p.madePage(r, r.Asked())
	if err != nil {
		return err
	}
	if r.As() == "json" {
		said := map[string]any{"surface": page.Surface, "trouble": page.Trouble}
		if page.Panel != nil {
			said["forming"], said["bends"], said["figures"] = page.Panel.Forming, page.Panel.Bends, page.Panel.Figures()
		}
		return r.JSON(said)
	}
	return p.desk.Page(r, page.dressed(), showPanelFlat(page))
}

func (page madePage) dressed() web.Sheet {
	return web.Sheet{Place: "metal", Shown: "panel " + string(page.Surface.ID) + " laid flat"}
}

// trimOver is what is left over about a panel that is formed by hand.
const trimOver = 12 * unit.Millimetre

// panelFile answers with the flat panel at true size.
func (p place) panelFile(r *web.Request) error {
	page, err := p.madePage(r, r.Asked())
	if err != nil {
		return err
	}
	if page.Panel == nil {
		return fault.New(fault.Invalid, "it cannot be laid flat so: %s", page.Trouble)
	}
	var plan outline.Plan
	for i, part := range page.Panel.Outlines() {
		plan.Outlines = append(plan.Outlines, shapeout.Closed(layerFit, part)...)
		plan.Labels = append(plan.Labels, outline.Label{Layer: layerFit, Text: fmt.Sprintf("%s part %d, %s %s mm", page.Surface.ID, i+1, page.Ask.Grade, mm(page.Ask.Gauge)), At: geom.Ring(part.Outer).Centroid(), Height: 8})
	}
	for _, b := range page.Panel.Bends {
		layer := layerUp
		if b.Angle > 0 {
			layer = layerDown
		}
		plan.Outlines = append(plan.Outlines, outline.Outline{Layer: layer, Points: []geom.Point{b.From, b.To}})
	}
	pens := map[string]pdf.Pen{layerFit: {Width: 0.5}, layerUp: foldPens[layerUp], layerDown: foldPens[layerDown]}
	return shapeout.Drawing(r, r.Build()+"-panel-"+string(page.Surface.ID), fmt.Sprintf("%s, panel %s %s: net of what is left over", page.Build.Title, page.Surface.ID, page.Surface.Name), plan, pens)
}

// keepPanel keeps one part of the flat panel as a blank's true shape, through
// the slip.
func (p place) keepPanel(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	page, err := p.madePage(r, f)
	if err != nil {
		return err
	}
	one := build.Blank{ID: build.BlankID(strings.ToUpper(f.Text("blank-id", 1, 12))), Name: f.Text("blank-name", 1, 80), Gauge: page.Ask.Gauge, Quantity: 1, Over: unit.Length(f.Decimal("blank-over", 3, 0, 100_000))}
	part := int(f.Int("part", 1, 1000))
	if old := page.Build.Blank(one.ID); old != nil {
		one.Finding, one.Done, one.Quantity = old.Finding, old.Done, old.Quantity
	}
	if f.Err() == nil && page.Panel == nil {
		f.Fail("gauge", "cannot be laid flat so: "+page.Trouble)
	}
	if f.Err() == nil {
		parts := page.Panel.Outlines()
		if part > len(parts) {
			f.Fail("part", "must be from 1 to "+strconv.Itoa(len(parts)))
		} else if one, err = stage.PanelBlank(one, page.Surface, parts[part-1]); err != nil {
			f.Fail("part", err.Error())
		}
	}
	change := &build.SetBlanks{Blanks: []build.Blank{one}}
	if f.Err() == nil {
		desk.Holds(f, page.Build, "blank-id", change)
	}
	if f.Err() == nil {
		return p.desk.Propose(r, page.blankPath(one.ID), change)
	}
	page.foldActs = foldActs{Open: "panel", Wrong: f.Errors, typed: f.Raw}
	return r.Invalid(page.dressed(), showPanelFlat(page))
}
