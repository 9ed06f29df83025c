package trim

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/trim"
)

func (p place) sewRoutes() []web.Route {
	at := "/b/{build}/trim"
	return []web.Route{
		{Pattern: "GET " + at + "/sew", Who: web.Guest, Handle: p.sew},
		{Pattern: "GET " + at + "/supplies", Who: web.Guest, Handle: p.supplies},
		{Pattern: "POST " + at + "/supplies/want", Who: web.Crew, Handle: p.wantSupply},
	}
}

// sewStep is one step of the sew order with the layer it stands in: all steps of
// a layer can be sewn in any order once those before are done.
type sewStep struct {
	stage.StitchRow
	Layer   int
	Reasons []sewReason
}

type sewReason struct {
	Number int // of the step that comes first
	Name   string
	Why    string
}

// sewPage is the sew order, and the sheet at the machine.
type sewPage struct {
	sheet
	Layers   [][]sewStep
	Troubles []string
	Steps    int
	Table    table.Table
}

func (p place) sew(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page, err := s.sewPage()
	if err != nil {
		return err
	}
	shown := web.Sheet{Place: "trim", Shown: fmt.Sprintf("%d steps of sewing", page.Steps)}
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-stitch-sheet.csv", page.Table.Records())
	case "json":
		return r.JSON(map[string]any{"layers": page.Layers, "troubles": page.Troubles})
	case "paper":
		shown.Shown = "stitch sheet"
		return r.Page(shown, stitchPaper(page))
	}
	return p.desk.Page(r, shown, showSew(page))
}

// sewPage sorts the steps into layers by the longest chain before each.
func (s sheet) sewPage() (sewPage, error) {
	order, err := stage.SewOrder(s.Build)
	if err != nil {
		return sewPage{}, err
	}
	page := sewPage{sheet: s, Troubles: order.Troubles, Steps: len(order.Steps)}
	layer := make([]int, len(order.Steps))
	for i, row := range stage.StitchSheet(s.Build, order) {
		step := sewStep{StitchRow: row}
		for _, b := range row.After {
			layer[i] = max(layer[i], layer[b.Step]+1)
			step.Reasons = append(step.Reasons, sewReason{b.Step + 1, order.Steps[b.Step].Name, b.Why})
		}
		step.Layer = layer[i]
		for len(page.Layers) <= step.Layer {
			page.Layers = append(page.Layers, nil)
		}
		page.Layers[step.Layer] = append(page.Layers[step.Layer], step)
	}
	page.Table = page.stitches()
	return page, nil
}

// stitches is the stitch sheet as a list.
func (page sewPage) stitches() table.Table {
	t := table.Table{ID: "stitches", Caption: "Stitch sheet", Self: page.At() + "/sew", Paper: page.At() + "/sew?as=paper", Empty: "No seam is entered yet.", Columns: []table.Column{
		{Head: "No", Number: true}, {Head: "Step", Wide: true}, {Head: "Times", Number: true}, {Head: "Long", Unit: "mm", Number: true}, {Head: "Stitch", Unit: "mm", Number: true}, {Head: "Row at", Unit: "mm", Number: true}, {Head: "Thread", Wide: true}, {Head: "Needle"}, {Head: "Thread of one", Unit: "m", Number: true}, {Head: "Done"}}}
	for n, layer := range page.Layers {
		for _, s := range layer {
			t.Rows = append(t.Rows, table.Row{Group: layerWords(n), Cells: []table.Cell{table.Text(strconv.Itoa(s.Number)), table.Text(s.words()), table.Text(strconv.Itoa(s.Times)), table.Text(millimetres(s.Length, 0)), table.Text(millimetres(s.Pitch, 1)),
				table.Text(millimetres(s.Top, 0)), table.Text(s.Thread), table.Text(s.Needle), table.Text(s.metres()), table.Text("")}})
		}
	}
	return t
}

func layerWords(n int) string {
	if n == 0 {
		return "First, in any order"
	}
	return fmt.Sprintf("Then, layer %d, in any order", n+1)
}

// words is what is done, in one line.
func (s sewStep) words() string { return fmt.Sprintf("%s: %s", s.Act, s.Name) }

// notes are what to heed at the machine.
func (s sewStep) notes() string {
	var list []string
	if s.Kind != "" {
		list = append(list, string(s.Kind))
	}
	if s.Rows > 1 {
		list = append(list, fmt.Sprintf("%d rows", s.Rows))
	}
	if s.Seen {
		list = append(list, "seen: no joins in the thread")
	}
	if s.Takes != nil && s.Takes.Joins {
		list = append(list, "one bobbin does not reach: wind a full one, and plan the join where it is not seen")
	}
	if s.Note != "" {
		list = append(list, s.Note)
	}
	return strings.Join(list, "; ")
}

func (s sewStep) metres() string {
	if s.Takes == nil {
		return ""
	}
	return fmt.Sprintf("%.1f", s.Takes.Total.Value)
}

func millimetres(v float64, places int) string {
	if v == 0 {
		return ""
	}
	return strconv.FormatFloat(v, 'f', places, 64)
}

// suppliesPage is what the sewing takes beside hides and rolls.
type suppliesPage struct {
	sheet
	Table table.Table
	List  []stage.Supply
}

func (p place) supplies(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := suppliesPage{sheet: s, List: stage.Supplies(s.Build)}
	page.Table = page.list()
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-trim-supplies.csv", page.Table.Records())
	case "json":
		return r.JSON(page.List)
	}
	return p.desk.Page(r, web.Sheet{Place: "trim", Shown: fmt.Sprintf("%d supplies", len(page.List))}, showSupplies(page))
}

func (page suppliesPage) list() table.Table {
	t := table.Table{ID: "supplies", Caption: "What the sewing takes, beside hides and rolls", Self: page.At() + "/supplies", Empty: "No seam, foam, board or glued face is entered yet.", Columns: []table.Column{
		{Head: "What", Wide: true}, {Head: "Takes", Wide: true}, {Head: "Buy", Number: true}, {Head: "In"}, {Head: "On the list of Stores", Wide: true}}}
	for i, one := range page.List {
		fig := one.Amount.Working
		t.Rows = append(t.Rows, table.Row{Group: string(one.Kind), Cells: []table.Cell{table.Text(one.Name), table.Figure("supply-"+strconv.Itoa(i), fig),
			table.Text(strconv.Itoa(one.Buy)), table.Text(one.Unit), page.covered(i, one)}})
	}
	return t
}

// covered says which parts of the list cover a supply, or offers to want it.
func (page suppliesPage) covered(i int, one stage.Supply) table.Cell {
	var parts []string
	for _, id := range one.Parts {
		words := string(id)
		if part := page.Build.Part(id); part != nil {
			words += " " + part.Name
		}
		parts = append(parts, words)
	}
	words := strings.Join(parts, ", ")
	if len(one.Bare) == 0 {
		return table.Text(words)
	}
	words = strings.TrimPrefix(words+"; no part covers "+strings.Join(one.Bare, ", "), "; ")
	if !page.Crew {
		return table.Text(words)
	}
	return table.Show(words, wantForm(page, one.ID(), words))
}

// wantSupply puts what no part covers on the list of Stores, through the slip.
func (p place) wantSupply(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	var task build.TaskID
	for _, o := range s.cutters("") {
		if o.Picked {
			task = build.TaskID(o.Value)
		}
	}
	for _, one := range stage.Supplies(s.Build) {
		if one.ID() != f.Raw("supply") {
			continue
		}
		changes := one.Want(s.Build, task)
		if len(changes) == 0 {
			return fault.New(fault.Conflict, "parts on the list cover %s already", one.Name)
		}
		return p.desk.Propose(r, s.Base+"/slip", changes...)
	}
	return fault.New(fault.NotFound, "the sewing takes no %q", f.Raw("supply"))
}

// timesWords is how often a step is sewn, and how long each is where it is known.
func (s sewStep) timesWords() string {
	if s.Length == 0 {
		return strconv.Itoa(s.Times)
	}
	return fmt.Sprintf("%d × %.0f", s.Times, s.Length)
}
