package loom

import (
	"fmt"
	"math"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/qr"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/loom"
)

func (p place) labelRoutes() []web.Route {
	at := "/b/{build}/loom/labels"
	return []web.Route{
		{Pattern: "GET " + at, Who: web.Guest, Handle: p.labels},
		{Pattern: "POST " + at, Who: web.Crew, Handle: p.labelsPrinted},
	}
}

// labelPage is the label sheets: a pair of flags for each wire.
type labelPage struct {
	sheet
	Pairs []pair
	Stale int  // printed once with another text
	New   int  // not on paper as they are now
	Only  bool // shows these alone
}

// pair is the two labels of a wire; Printed says that they are on paper as they are.
type pair struct {
	Cut     stage.Cut
	Flags   [2]flag
	Printed bool
}

// flag is a label that is folded about the wire and stuck back to back: the text
// of the cut list before the wire, its mark and code behind it.
type flag struct {
	End, At string
	Wrap    string // what of it lies about the wire, in em of flagLetters
	Code    qr.Code
}

// flagLetters is the height of a flag's letters in mm, as label.css has it.
const flagLetters = 2.5

// spareWrap is what the middle of a flag is longer than the way about its wire,
// in mm: it need not be folded to the hair.
const spareWrap = 2

// pairOf draws the labels of a wire. A code says what the label says, then the
// build and the end it is on.
func (s sheet) pairOf(c stage.Cut) (pair, error) {
	one := pair{Cut: c, Flags: [2]flag{{End: "from", At: c.From}, {End: "to", At: c.To}}}
	for i := range one.Flags {
		f := &one.Flags[i]
		f.Wrap = fmt.Sprintf("%.3fem", (math.Pi*c.Outside+spareWrap)/flagLetters)
		var err error
		if f.Code, err = qr.Of(fmt.Sprintf("%s\n%s · %s %s", c.Label, s.Build.Name, f.End, f.At)); err != nil {
			return one, err
		}
	}
	if l := printed(s.Build, c.Circuit); l != nil {
		for _, text := range l.Text {
			one.Printed = one.Printed || text == c.Label
		}
	}
	return one, nil
}

func (p place) labels(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := labelPage{sheet: s, Only: r.Query("only") == "new"}
	for _, c := range s.Loom.Cuts {
		one, err := s.pairOf(c)
		if err != nil {
			return err
		}
		if !one.Printed {
			page.New++
			if printed(s.Build, c.Circuit) != nil {
				page.Stale++
			}
		}
		if !page.Only || !one.Printed {
			page.Pairs = append(page.Pairs, one)
		}
	}
	switch r.As() {
	case "csv":
		t := table.Table{Columns: []table.Column{{Head: "Wire"}, {Head: "End"}, {Head: "At"}, {Head: "Text"}}}
		for _, l := range s.Loom.Labels {
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(l.Cut), table.Text(l.End), table.Text(l.At), table.Text(l.Text)}})
		}
		return r.CSV(r.Build()+"-labels.csv", t.Records())
	case "json":
		return r.JSON(s.Loom.Labels)
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: plural(2*len(page.Pairs), "label")}, showLabels(page))
}

func printed(b *build.Build, circuit string) *build.PrintedWire {
	for i := range b.Loom.Labels {
		if b.Loom.Labels[i].Circuit == circuit {
			return &b.Loom.Labels[i]
		}
	}
	return nil
}

// labelsPrinted notes that the labels are printed as they stand.
func (p place) labelsPrinted(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	view, err := p.desk.View(r)
	if err != nil {
		return err
	}
	kept, err := stage.Work(r.Context(), &view.Build)
	if err != nil {
		return err
	}
	act := &build.PrintLabels{}
	for _, c := range kept.Cuts {
		i := len(act.Labels) - 1
		for i >= 0 && act.Labels[i].Circuit != c.Circuit {
			i--
		}
		if i < 0 {
			act.Labels = append(act.Labels, build.PrintedWire{Circuit: c.Circuit, Day: view.Now.Date()})
			i = len(act.Labels) - 1
		}
		act.Labels[i].Text = append(act.Labels[i].Text, c.Label)
	}
	return p.desk.Keep(r, f.Raw("entry"), act.Say(&view.Build), "/b/"+r.Build()+"/loom/labels", act)
}
