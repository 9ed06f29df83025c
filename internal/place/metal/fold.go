package metal

import (
	"fmt"
	"net/url"
	"slices"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/metal"
)

func (p place) foldRoutes() []web.Route {
	at := "/b/{build}/metal/fold"
	return []web.Route{
		{Pattern: "GET " + at + "s", Who: web.Guest, Handle: p.folds},
		{Pattern: "POST " + at + "s/strip", Who: web.Crew, Handle: p.foldStrip},
		{Pattern: "POST " + at + "s/drop", Who: web.Crew, Handle: p.dropStrip},
		{Pattern: "POST " + at + "s/brake", Who: web.Crew, Handle: p.setBrake},
		{Pattern: "GET " + at, Who: web.Crew, Handle: p.newFold},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.setFold},
		{Pattern: "GET " + at + "/{blank}", Who: web.Guest, Handle: p.showFold},
		{Pattern: "GET " + at + "/{blank}/file", Who: web.Guest, Handle: p.foldFile},
		{Pattern: "POST " + at + "/{blank}/anew", Who: web.Crew, Handle: p.foldAnew},
	}
}

func (s scene) foldPath(id build.BlankID) string {
	return s.At() + "/fold/" + url.PathEscape(string(id))
}

// sketchPage is the fabrication sketch of a folded blank.
type sketchPage struct {
	scene
	Blank   build.Blank
	Flat    stage.Unfolded
	Steps   []stage.FoldStep
	Brake   build.Brake
	From    []figure.Input // of the brake
	Against []string       // what is in the way
	By      float64        // how much longer it is kept than its bends give, mm
	Stale   bool
	Form    foldForm
}

func (p place) sketchOf(r *web.Request) (sketchPage, error) {
	s, err := p.scene(r)
	if err != nil {
		return sketchPage{}, err
	}
	b := s.Build.Blank(build.BlankID(r.Path("blank")))
	if b == nil || !b.Profile.Folded() {
		return sketchPage{}, fault.New(fault.NotFound, "there is no folded blank %q", r.Path("blank"))
	}
	page := sketchPage{scene: s, Blank: *b, Flat: stage.Unfold(s.Build, *b), Steps: stage.FoldOrder(s.Build, *b), Against: stage.Unfoldable(s.Build, *b)}
	page.Brake, page.From = stage.BrakeOf(s.Build)
	page.By, page.Stale = stage.Stale(s.Build, *b)
	page.Form = formOfBlank(s, *b)
	return page, nil
}

func (p place) showFold(r *web.Request) error {
	page, err := p.sketchOf(r)
	if err != nil {
		return err
	}
	shown := web.Sheet{Place: "metal", Shown: "sketch of blank " + string(page.Blank.ID)}
	switch r.As() {
	case "json":
		return r.JSON(map[string]any{"blank": page.Blank, "flat_mm": page.Flat.Size, "give_mm": page.Flat.Give, "lines": page.Flat.Lines, "order": page.Steps, "in_the_way": page.Against})
	case "csv":
		return r.CSV(string(page.Blank.ID)+"-bends.csv", page.bendTable().Records())
	case "paper":
		return r.Page(shown, foldPaper(page))
	}
	return p.desk.Page(r, shown, showFold(page))
}

// foldAnew takes the flat size that the bends give by the K known today.
func (p place) foldAnew(r *web.Request) error {
	page, err := p.sketchOf(r)
	if err != nil {
		return err
	}
	return p.desk.Propose(r, page.foldPath(page.Blank.ID), &build.SetBlanks{Blanks: []build.Blank{stage.FoldedBlank(page.Build, page.Blank, page.Blank.Width)}})
}

// bendTable are the bends as they are marked out on the flat sheet.
func (page sketchPage) bendTable() table.Table {
	t := table.Table{ID: "bends", Caption: "Bend lines, from the edge of flange A", Self: page.foldPath(page.Blank.ID), Columns: []table.Column{
		{Head: "Bend"}, {Head: "Between"}, {Head: "Way"}, {Head: "Angle", Unit: "°", Number: true}, {Head: "Inside radius", Unit: "mm", Number: true},
		{Head: "Begins", Unit: "mm", Number: true}, {Head: "Scribe at", Unit: "mm", Number: true}, {Head: "Ends", Unit: "mm", Number: true}, {Head: "Sheet in it", Unit: "mm", Number: true}}}
	for i, l := range page.Flat.Lines {
		t.Rows = append(t.Rows, table.Row{ID: fmt.Sprintf("bend-%d", i+1), Cells: []table.Cell{table.Text(fmt.Sprint(i + 1)), table.Text(stage.Letter(i) + " and " + stage.Letter(i+1)), table.Text(wayOf(l.Bend)),
			table.Text(fmt.Sprintf("%g", l.Bend.Angle)), table.Text(mm(l.Bend.Radius)), table.Text(tenth(l.From)), table.Text(tenth(l.Middle)), table.Text(tenth(l.To)),
			table.Show(fmt.Sprintf("%.2f", l.To-l.From), takesCell(i, l))}})
	}
	return t
}

func wayOf(b build.Bend) string {
	if b.Down {
		return "down"
	}
	return "up"
}

func tenth(v float64) string { return fmt.Sprintf("%.1f", v) }

// stepWords is a step of the order of folding, in a sentence.
func (page sketchPage) stepWords(s stage.FoldStep) string {
	l := page.Flat.Lines[s.Bend]
	text := ""
	if s.Over {
		text = "Turn the sheet over. "
	}
	held, stop := "A", l.Middle
	if s.Last {
		held, stop = stage.Letter(len(page.Flat.Lines)), page.Flat.Size-l.Middle
	}
	text += fmt.Sprintf("Bend %d, %g° %s: clamp the side of flange %s, scribed line %.1f mm from its edge", s.Bend+1, l.Bend.Angle, wayOf(l.Bend), held, stop)
	if s.Press {
		text += fmt.Sprintf("; turn it to %g°, then press it to %g°", 180-page.Brake.Slope, l.Bend.Angle)
	}
	says, _ := stage.Spring(page.Build, page.Blank.Gauge, l.Bend)
	return text + "; it " + says + "."
}

// untold says that no strip tells how far one of the bends springs back.
func (page sketchPage) untold() bool {
	return slices.ContainsFunc(page.Flat.Lines, func(l stage.BendLine) bool {
		_, told := stage.Spring(page.Build, page.Blank.Gauge, l.Bend)
		return !told
	})
}

// foldsPage are all folded blanks, the test strips and the brake.
type foldsPage struct {
	scene
	foldActs
	Table  table.Table
	Strips table.Table
	Brake  build.Brake
	From   []figure.Input
}

func (s scene) foldsPage() foldsPage {
	page := foldsPage{scene: s}
	page.Brake, page.From = stage.BrakeOf(s.Build)
	page.Table = table.Table{ID: "folds", Caption: "Folded blanks", Self: s.At() + "/folds", Empty: "No blank is folded yet: draw an angle, a channel or a hemmed edge by its finished sizes, and its flat size and bend lines follow.", Columns: []table.Column{
		{Head: "No."}, {Head: "Blank", Wide: true}, {Head: "Gauge", Unit: "mm", Number: true}, {Head: "Bends", Number: true}, {Head: "Along", Unit: "mm", Number: true}, {Head: "Flat, kept", Unit: "mm", Number: true}, {Head: "By its bends", Unit: "mm", Number: true}, {Head: "In the way", Wide: true}}}
	for _, b := range s.Build.Blanks {
		if !b.Profile.Folded() {
			continue
		}
		u := stage.Unfold(s.Build, b)
		page.Table.Rows = append(page.Table.Rows, table.Row{ID: string(b.ID), Cells: []table.Cell{table.Link(string(b.ID), s.foldPath(b.ID)), table.Text(b.Name), table.Text(mm(b.Gauge)), table.Text(fmt.Sprint(len(u.Lines))),
			table.Text(mm(b.Width)), table.Text(mm(b.Height)), table.Show(tenth(u.Size), flatCell(b.ID, u)), table.Text(listed(stage.Unfoldable(s.Build, b)))}})
	}
	page.Strips = table.Table{ID: "strips", Caption: "Test strips", Empty: "No strip is folded yet: bends go by a trade default of K.", Columns: []table.Column{
		{Head: "No."}, {Head: "Gauge", Unit: "mm", Number: true}, {Head: "Angle", Unit: "°", Number: true}, {Head: "Radius", Unit: "mm", Number: true}, {Head: "Flat", Unit: "mm", Number: true}, {Head: "Came", Unit: "mm"}, {Head: "K", Number: true}, {Head: "Sprang back", Unit: "°", Number: true}, {Head: "Note", Wide: true}}}
	for _, one := range s.Build.Strips {
		sprang := ""
		if one.Springs > 0 {
			sprang = fmt.Sprintf("%.1f", one.Springs)
		}
		page.Strips.Rows = append(page.Strips.Rows, table.Row{ID: "strip-" + string(one.ID), Cells: []table.Cell{table.Text(string(one.ID)), table.Text(mm(one.Gauge)), table.Text(fmt.Sprintf("%g", one.Bend.Angle)), table.Text(mm(one.Bend.Radius)),
			table.Text(mm(one.Flat)), table.Text(mm(one.First) + " + " + mm(one.Second)), table.Text(fmt.Sprintf("%.3f", one.K())), table.Text(sprang), table.Text(one.Note)}})
	}
	return page
}

func (p place) folds(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page := s.foldsPage()
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-folds.csv", page.Table.Records())
	case "json":
		return r.JSON(map[string]any{"strips": s.Build.Strips, "brake": page.Brake, "brake_from": page.From})
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: "folded blanks"}, showFolds(page))
}

// foldsForm reads a form of the page of folds and lays the change on the slip,
// or shows the page again with what is wrong.
func (p place) foldsForm(r *web.Request, open, beside string, read func(scene, *web.Form) build.Change) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	change := read(s, f)
	desk.Holds(f, s.Build, beside, change)
	if f.Err() == nil {
		return p.desk.Propose(r, s.At()+"/folds", change)
	}
	page := s.foldsPage()
	page.foldActs = foldActs{Open: open, Wrong: f.Errors, typed: f.Raw}
	return r.Invalid(web.Sheet{Place: "metal", Shown: "folded blanks"}, showFolds(page))
}

func staleWords(page sketchPage) string {
	if page.Blank.Shape.Drawn() {
		return "it has a drawn shape that its bends know nothing of."
	}
	return fmt.Sprintf("it is kept %s mm across its bends, and by what is known today they give %.1f mm.", mm(page.Blank.Height), page.Flat.Size)
}

// giveWords says how well the flat size is known.
func giveWords(page sketchPage) string {
	text := fmt.Sprintf("Flat across the bends, known to ± %.1f mm.", page.Flat.Give)
	if o := page.Blank.Over; o > 0 {
		text += fmt.Sprintf(" %s mm are left over on every side, to be scribed in place and trimmed.", mm(o))
	}
	return text
}

func flatCaption(page sketchPage) string {
	text := "Laid flat, inner face of bends up towards you. Whole line: bend up; broken line: bend down; scribe at the places from the edge of flange A. Arrow: rolling direction, square to the bends."
	if page.shortened() {
		text += " Along the bends it is drawn shorter than it is."
	}
	return text
}
