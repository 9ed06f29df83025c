package loom

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/working"
	stage "fettle/stage/loom"
)

func (p place) fuseRoutes() []web.Route {
	at := "/b/{build}/loom/fuses"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.fuses},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.setFuse},
	}
}

// fusePage is the boxes and what each fuse carries.
type fusePage struct {
	sheet
	Table table.Table
	Wrong field.Errors
	raw   func(string) string
}

func (p place) fuses(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := s.fusePage()
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-fuses.csv", page.Table.Records())
	case "json":
		return r.JSON(map[string]any{"fuses": s.Loom.Fuses, "boxes": s.Loom.Boxes})
	}
	return p.desk.Page(r, page.web(), showFuses(page))
}

func (page fusePage) web() web.Sheet {
	return web.Sheet{Place: "loom", Shown: plural(len(page.Loom.Fuses), "fuse")}
}

func (s sheet) fusePage() fusePage {
	page := fusePage{sheet: s}
	t := table.Table{ID: "fuses", Caption: "What each fuse carries for long", Self: s.At() + "/fuses", Empty: "No fuse is named by any circuit yet.", Columns: []table.Column{
		{Head: "Fuse"}, {Head: "Rating", Unit: "A", Number: true}, {Head: "For long", Unit: "A", Number: true}, {Head: "With seconds", Unit: "A", Number: true},
		{Head: "Asks for", Unit: "A", Number: true}, {Head: "So", Wide: true}, {Head: "Feeds", Wide: true}}}
	for _, f := range s.Loom.Fuses {
		long := longText(f)
		says, meaning := verdict(f.Flag, f.NeedA, f.Amps, f.Inrush)
		t.Rows = append(t.Rows, table.Row{ID: "fuse-" + f.Name, Cells: []table.Cell{
			table.Text(f.Name), table.Text(number(f.Amps)), table.Show(long, working.Figure("fuse-"+f.Name+"-sum", working.Inline, retext(f.Working, long))),
			table.Text(amps(f.ShortA)), table.Text(amps(f.NeedA)), table.Show(says, mark.Show(meaning, says)), table.Text(strings.Join(f.Feeds, ", "))}})
	}
	page.Table = t
	return page
}

func amps(v float64) string { return fmt.Sprintf("%.1f", v) }

func retext(f figure.Figure, text string) figure.Figure {
	f.Text = text
	return f
}

// verdict says whether a fuse does, and what that means.
func verdict(flag bool, need, rating float64, inrush string) (string, mark.Meaning) {
	switch {
	case flag:
		return fmt.Sprintf("%.1f A asked of %g A: split it, or less load", need, rating), mark.Slipping
	case need > rating:
		return fmt.Sprintf("%.1f A asked of %g A for its seconds: it may open", need, rating), mark.Tight
	case inrush == "opens":
		return "it opens when what it feeds starts", mark.Slipping
	case inrush == "may open":
		return "it may open when what it feeds starts", mark.Tight
	}
	return "holds", mark.Safe
}

// setFuse changes the rating of a fuse.
func (p place) setFuse(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.load(r)
	if err != nil {
		return err
	}
	name := f.Text("fuse", 1, 40)
	rating := float64(f.Decimal("amps", 1, 5, mostAmps*10)) / 10
	changes := s.rate(name, rating)
	if len(changes) == 0 && f.Err() == nil {
		f.Fail("fuse", "is not there: name one of the list")
	}
	desk.Holds(f, s.Build, "amps", changes...)
	if f.Err() != nil {
		page := s.fusePage()
		page.Wrong, page.raw = f.Errors, f.Raw
		return r.Invalid(page.web(), showFuses(page))
	}
	return p.desk.Propose(r, s.Base+"/slip", changes...)
}

// rate gives a fuse another rating, where it stands on the list of fuses or
// only in the circuits.
func (s sheet) rate(name string, rating float64) []build.Change {
	if kept := s.Build.Loom.Fuse(name); kept != nil {
		anew := *kept
		anew.Amps = rating
		return []build.Change{&build.SetFuse{Fuse: anew}}
	}
	var changes []build.Change
	for _, c := range s.Build.Circuits {
		if c.Fuse == name {
			c.FuseA = rating
			changes = append(changes, &build.SetCircuit{Circuit: c})
		}
	}
	return changes
}

func (page fusePage) field(name, label string, more field.Params) field.Params {
	more.Name, more.Label, more.Error = name, label, page.Wrong.Of(name)
	if page.raw != nil {
		more.Value = page.raw(name)
	}
	return more
}

// longText is what a fuse carries for long; a fuse of short loads carries none.
func longText(f stage.FuseLoad) string {
	if f.LongA == 0 && f.ShortA > 0 {
		return "seconds only"
	}
	return amps(f.LongA)
}

// boxText is the ways of a box that are taken, and those that it takes once the
// fuses that carry too much are split.
func boxText(x stage.BoxUse) string {
	text := fmt.Sprintf("%d of %d ways taken", x.Used, x.Ways)
	if x.AfterSplit > x.Ways {
		text += fmt.Sprintf(", %d needed", x.AfterSplit)
	}
	return text
}

// boxed gives figures of ways left the words of their box: a bare 0 says little.
func boxed(f figure.Figure, boxes []stage.BoxUse) figure.Figure {
	for _, x := range boxes {
		if f.Name == x.Working.Name && f.Name != "" {
			f.Name, f.Text = "ways of "+x.Name, boxText(x)
			return f
		}
	}
	return f
}

func leftText(left int) string {
	switch {
	case left < 0:
		return fmt.Sprintf("%d too many", -left)
	case left == 0:
		return "none left"
	}
	return plural(left, "way") + " left"
}
