package trim

import (
	"fmt"
	"slices"
	"strconv"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/trim"
)

func (p place) layRoutes() []web.Route {
	at := "/b/{build}/trim/lay/{material}"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.lay},
		{Pattern: "POST " + at + "/rows", Who: web.Crew, Handle: p.keepRows},
		{Pattern: "POST " + at + "/buy", Who: web.Crew, Handle: p.buyRoll},
		{Pattern: "POST " + at + "/lock", Who: web.Crew, Handle: p.lock},
	}
}

// layPage is the cut plan of one material.
type layPage struct {
	sheet
	Material string
	Need     stage.Need
	Roll     *build.Roll // of a material by the metre
	Rows     stage.Rows
	Layout   *build.Layout // kept, or on the slip; nil where there is none
	Verdict  stage.Verdict
	Cards    []sheetCard
	Table    table.Table
	Undrawn  []build.HideID
}

func (s sheet) layPage(material string) (layPage, error) {
	page := layPage{sheet: s, Material: material, Need: stage.NeedOf(s.Build, material), Layout: s.Build.LayoutOf(material)}
	if page.Need.Pieces == 0 {
		return page, fault.New(fault.NotFound, "no piece is cut from %q", material)
	}
	layout := build.Layout{Material: material}
	if page.Roll = stage.RollOf(s.Build, material); page.Roll != nil {
		page.Rows = stage.RowsOf(s.Build, *page.Roll)
		layout.Roll, layout.Placed = page.Roll.ID, page.Rows.Placed
	}
	if page.Layout != nil {
		layout = *page.Layout
		page.Verdict = stage.VerdictOf(s.Build, material)
	}
	page.Cards = s.cards(material, &layout, page.Verdict, true)
	leave(page.Cards, s.remnants(layout))
	for _, h := range s.Build.Hides {
		if page.Roll == nil && h.Material == material && !h.Refused && !h.Outline.Drawn() {
			page.Undrawn = append(page.Undrawn, h.ID)
		}
	}
	page.Table = page.cutList()
	return page, nil
}

// remnants are what a layout leaves of the hides it lies on.
func (s sheet) remnants(l build.Layout) []stage.Remnant {
	if len(l.Placed) == 0 {
		return nil
	}
	set, err := stage.SetOf(s.Build, stage.Asked{Material: l.Material})
	if err != nil {
		return nil
	}
	return set.Remnants(l.Placed)
}

// layOf is the cut plan that a request names.
func (p place) layOf(r *web.Request) (layPage, error) {
	s, err := p.load(r)
	if err != nil {
		return layPage{}, err
	}
	return s.layPage(r.Path("material"))
}

func (p place) lay(r *web.Request) error {
	page, err := p.layOf(r)
	if err != nil {
		return err
	}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-cut-plan.csv", page.Table.Records())
	case "json":
		return r.JSON(map[string]any{"need": page.Need, "layout": page.Layout, "verdict": page.Verdict, "rows": page.Rows, "remnants": page.remnants(build.Layout{Material: page.Material, Placed: page.placed()})})
	case "paper":
		return r.Page(web.Sheet{Place: "trim", Shown: "cut plan, " + page.Material}, layPaper(page))
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: "cut plan, " + page.Material}, showLay(page))
}

// keepRows keeps the lay of a roll in rows as its cut plan, through the slip.
func (p place) keepRows(r *web.Request) error {
	page, err := p.layOf(r)
	if err != nil {
		return err
	}
	if page.Roll == nil {
		return fault.New(fault.Invalid, "%s does not come by the metre", page.Material)
	}
	id := build.LayoutID(page.Material)
	if page.Layout != nil {
		id = page.Layout.ID
	}
	return p.desk.Propose(r, page.Base+"/slip", &build.KeepLayout{Layout: build.Layout{ID: id, Material: page.Material, Roll: page.Roll.ID, Placed: page.Rows.Placed, Note: "in rows"}})
}

// lock fixes every copy on a hide, as once it is cut, or lets all move again.
func (p place) lock(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	l := s.Build.LayoutOf(r.Path("material"))
	if l == nil {
		return fault.New(fault.NotFound, "no cut plan of %q is kept", r.Path("material"))
	}
	c := &build.LockPieces{Layout: l.ID, Free: f.Has("free")}
	for _, at := range l.Placed {
		if string(at.Hide) == f.Raw("hide") {
			c.Copies = append(c.Copies, build.PieceCopy{Piece: at.Piece, Copy: at.Copy})
		}
	}
	return p.desk.Propose(r, s.layPath(l.Material), c)
}

// ordered is one copy in the order in which it is cut.
type ordered struct {
	Number int
	Cut    stage.Cut
	At     build.Placed
	Name   string
}

// cutOrder is the order of cutting on a sheet: what is seen first and large
// first, while there is room to shift; within a grade by size.
func (s sheet) cutOrder(material string, list []build.Placed, hide build.HideID) []ordered {
	cuts := stage.Cuts(s.Build, material)
	var out []ordered
	for _, at := range list {
		if c := stage.CutOf(cuts, at.Piece, at.Copy); c != nil && at.Hide == hide {
			out = append(out, ordered{Cut: *c, At: at, Name: c.Name(at.Copy)})
		}
	}
	slices.SortStableFunc(out, func(a, b ordered) int {
		if d := stage.Quality(b.Cut.Piece.Grade) - stage.Quality(a.Cut.Piece.Grade); d != 0 {
			return d
		}
		return int(b.Cut.Shape.Area() - a.Cut.Shape.Area())
	})
	for i := range out {
		out[i].Number = i + 1
	}
	return out
}

// placed are the copies of the cut plan: the kept one, or the rows of a roll.
func (page layPage) placed() []build.Placed {
	switch {
	case page.Layout != nil:
		return page.Layout.Placed
	case page.Roll != nil:
		return page.Rows.Placed
	}
	return nil
}

// sheets are what is cut from, in order: hides, or nothing for a roll.
func (page layPage) sheets() []build.HideID {
	if page.Roll != nil {
		return []build.HideID{""}
	}
	var list []build.HideID
	for _, c := range page.Cards {
		list = append(list, c.Hide.ID)
	}
	return list
}

// cutList is every copy in cutting order, by hide.
func (page layPage) cutList() table.Table {
	t := table.Table{ID: "cut-list", Caption: "Cutting order", Self: page.layPath(page.Material), Paper: page.layPath(page.Material) + "?as=paper", Empty: "Nothing is laid yet.", Columns: []table.Column{
		{Head: "No", Number: true}, {Head: "Piece"}, {Head: "Name", Wide: true}, {Head: "Size", Unit: "mm"}, {Head: "Grade"}, {Head: "Middle", Unit: "mm"}, {Head: "Turned", Unit: "°", Number: true}, {Head: ""}}}
	for _, hide := range page.sheets() {
		group := "Hide " + string(hide)
		if hide == "" {
			group = "Roll, from its squared end"
		}
		for _, o := range page.cutOrder(page.Material, page.placed(), hide) {
			x, y := middle(o.Cut.Lies(o.At))
			t.Rows = append(t.Rows, table.Row{Group: group, Cells: []table.Cell{table.Text(strconv.Itoa(o.Number)), table.Text(o.Name), table.Text(o.Cut.Piece.Name),
				table.Text(fmt.Sprintf("%.0f × %.0f", o.Cut.Piece.Width.Mm(), o.Cut.Piece.Height.Mm())), table.Text(o.Cut.Piece.Grade), table.Text(fmt.Sprintf("%.0f, %.0f", x, -y)),
				table.Text(short(o.At.Rotation)), table.Text(lockWord(o.At))}})
		}
	}
	return t
}

func lockWord(p build.Placed) string {
	if p.Locked {
		return "locked"
	}
	return ""
}

// headline says in a sentence how the cut plan stands.
func (page layPage) headline() string {
	n, laid := page.Need.Pieces, 0
	if page.Layout != nil {
		laid = len(page.Layout.Placed)
	}
	switch {
	case laid == 0 && page.Roll != nil:
		return noneLaid(n) + ": these are rows, to buy by."
	case laid == 0:
		return noneLaid(n) + "."
	case len(page.Verdict.Faults) > 0:
		return fmt.Sprintf("%d of the %d pieces laid cannot be cut where they lie.", len(page.Verdict.Faults), laid)
	case laid < n:
		return fmt.Sprintf("%d of %d pieces are laid, and all of them can be cut as they lie.", laid, n)
	}
	return fmt.Sprintf("All %d pieces are laid and can be cut as they lie.", n)
}

// gap is the smallest distance that the exact checker found.
func (page layPage) gap() figure.Figure {
	return figure.Figure{Name: "smallest gap", Text: fmt.Sprintf("%.1f mm", page.Verdict.Gap), Formula: "least distance between two pieces, or of a piece to an edge, a mark or a keep-out, by the exact checker",
		With: page.Verdict.Nearest, Inputs: stage.HabitsOf(page.Build, page.Material), Caution: "A drawing is not the material: lay the patterns down, and look, before you cut."}
}

// fill is the share of a hide, or of what is cut off a roll, that pieces lie on.
func (c sheetCard) fill() figure.Figure {
	area := c.Drawing.Outline.Area() / 1e6
	return figure.Figure{Name: c.title() + ", laid", Text: fmt.Sprintf("%.0f %%", 100*c.Laid), Formula: "true shapes of the pieces on it ÷ its outline, or width × length of a roll",
		With: fmt.Sprintf("%.2f m² ÷ %.2f m² = %.1f %%", c.Laid*area, area, 100*c.Laid)}
}

// left is the largest piece that is left of a hide.
func (c sheetCard) left() figure.Figure {
	r := c.Drawing.Left
	return figure.Figure{Name: c.title() + ", left in one piece", Text: r.Words(), Formula: "the largest rectangle found, in any direction, that keeps off edge, marks, keep-outs, zones and pieces as a piece would; the exact checker has passed it",
		With:    fmt.Sprintf("%.0f mm × %.0f mm = %.0f cm²", r.Length, r.Width, r.Length*r.Width/100),
		Caution: "There may be a larger one, and what is left among zones is not counted."}
}

// opens is the form that stands open: that of a layout where there is none, or
// one that no longer holds.
func (page layPage) opens() string {
	if page.Layout == nil || len(page.Verdict.Faults)+len(page.Verdict.Missing) > 0 {
		return "ask"
	}
	return ""
}

func (page layPage) anyLocked() bool {
	return page.Layout != nil && slices.ContainsFunc(page.Layout.Placed, func(p build.Placed) bool { return p.Locked })
}

// lots are the dye lots of the material, all picked.
func (page layPage) lots() []field.Option {
	var list []field.Option
	for _, lot := range stage.Lots(page.Build, page.Material) {
		list = append(list, field.Option{Value: lot, Label: "lot " + lot, Picked: true})
	}
	return list
}

// buyRoll puts the metres of a roll that are missing on the list of Stores.
func (p place) buyRoll(r *web.Request) error {
	page, err := p.layOf(r)
	if err != nil {
		return err
	}
	if page.Roll == nil || page.Need.Buy == 0 {
		return fault.New(fault.Invalid, "enough of %s is on the list", page.Material)
	}
	if changes := wantMetres(page.Build, page.Material); len(changes) > 0 {
		return p.desk.Propose(r, page.Base+"/slip", changes...)
	}
	part := build.Part{ID: page.Build.NextPart(), Name: fmt.Sprintf("%s %.2f m wide, by the metre", page.Material, page.Roll.Width.Mm()/1000), Quantity: page.Need.Buy, Price: page.Roll.Price, Lead: leadDays}
	for _, o := range page.cutters("") {
		if o.Picked {
			part.Task = build.TaskID(o.Value)
		}
	}
	changes := []build.Change{&build.AddPart{Part: part}}
	if page.Roll.Part == "" {
		roll := *page.Roll
		roll.Part = part.ID
		changes = append(changes, &build.SetRoll{Roll: roll})
	}
	return p.desk.Propose(r, page.Base+"/slip", changes...)
}

// noneLaid says of so many pieces that they have no place yet.
func noneLaid(n int) string {
	if n == 1 {
		return "The one piece is not laid yet"
	}
	return fmt.Sprintf("None of the %d pieces is laid yet", n)
}
