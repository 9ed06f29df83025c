package loom

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/working"
	stage "fettle/stage/loom"
)

func (p place) cutRoutes() []web.Route {
	at := "/b/{build}/loom"
	return []web.Route{
		{Pattern: "GET " + at + "/cut", Who: web.Guest, Handle: p.cut},
		{Pattern: "GET " + at + "/takes", Who: web.Guest, Handle: p.takes},
		{Pattern: "POST " + at + "/takes/{kind}", Who: web.Crew, Handle: p.want},
		{Pattern: "GET " + at + "/ends", Who: web.Guest, Handle: p.ends},
	}
}

// listOf is a page of one list.
type listOf struct {
	sheet
	Here, Title, Text string
	Table             table.Table
	More              *table.Table // below it, where there is one
	Missing           []string     // kinds of things that no part covers
}

// answer shows a list as a page, a file or JSON.
func (p place) answer(r *web.Request, page listOf, name string, doc any) error {
	switch r.As() {
	case "csv":
		return r.CSV(r.Build()+"-"+name+".csv", page.Table.Records())
	case "json":
		return r.JSON(doc)
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: plural(len(page.Table.Rows), "row") + " of " + page.Title}, showList(page))
}

// cut is the cut list, by section and colour, the longest first.
func (p place) cut(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := listOf{sheet: s, Here: "/cut", Title: "Cut list", Text: "By section and colour, the longest first: cut the long ones while the reel is full. Lengths are along the route where it is drawn, with slack, loops and strip; by the list where not. Tick each when it is cut and labelled."}
	t := table.Table{ID: "cut", Caption: "Cut list", Self: s.At() + "/cut", Empty: "Nothing is to be cut yet.", Columns: []table.Column{
		{Head: "Wire"}, {Head: "Colour", Wide: true}, {Head: "BS-AU7"}, {Head: "IEC"}, {Head: "Cut at", Unit: "mm", Number: true}, {Head: "In the list", Unit: "mm", Number: true}, {Head: "From", Wide: true}, {Head: "To", Wide: true}, {Head: "Cut"}}}
	for _, c := range s.Loom.Cuts {
		by := ""
		if c.StatedMM > 0 {
			by = fmt.Sprintf("%.0f", c.StatedMM)
		}
		t.Rows = append(t.Rows, table.Row{ID: "cut-" + c.ID, Group: c.Section + " mm²", Cells: []table.Cell{table.Link(c.ID, s.onePath(c.Circuit)), table.Text(c.Words), table.Text(c.AU7), table.Text(c.IEC),
			mmCell("cut-by-"+c.ID, c), table.Text(by), table.Text(c.From), table.Text(c.To), table.Show("", tick())}})
	}
	page.Table, page.More = t, s.reels()
	return p.answer(r, page, "cut-list", s.Loom.Cuts)
}

// mmCell is the length to cut with its working; the head of the column says mm.
func mmCell(id string, c stage.Cut) table.Cell {
	text := fmt.Sprintf("%.0f", c.CutMM)
	return table.Show(text, working.Figure(id, working.Inline, retext(c.Working, text)))
}

// reels is what the cut list takes off each reel.
func (s sheet) reels() *table.Table {
	t := table.Table{ID: "reels", Caption: "Off the reels", Self: s.At() + "/takes", Empty: "Nothing is to be cut yet.", Columns: []table.Column{
		{Head: "Cable", Wide: true}, {Head: "Wires", Number: true}, {Head: "Longest", Unit: "mm", Number: true}, {Head: "Takes, with spare", Number: true}, {Head: "Buy", Number: true}}}
	for i, n := range s.Loom.Needs {
		if n.Kind != "cable" {
			continue
		}
		wires, longest := 0, 0.0
		for _, c := range s.Loom.Cuts {
			if c.Section+" mm² "+c.Words == n.Name {
				wires, longest = wires+1, max(longest, c.CutMM)
			}
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(n.Name), table.Text(strconv.Itoa(wires)), table.Text(fmt.Sprintf("%.0f", longest)),
			table.Show(n.Working.Text, working.Figure("reel-"+strconv.Itoa(i), working.Inline, n.Working)), table.Text(strings.TrimSpace(strconv.Itoa(n.Buy) + " " + n.Unit))}})
	}
	return &t
}

// takes is what the loom takes from Stores.
func (p place) takes(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := listOf{sheet: s, Here: "/takes", Title: "What it takes", Text: "All that the loom takes from Stores, worked out from the lists. What no part covers can be put on the list of Stores from here."}
	t := table.Table{ID: "takes", Caption: "What it takes", Self: s.At() + "/takes", Empty: "The loom takes nothing yet.", Columns: []table.Column{
		{Head: "Thing", Wide: true}, {Head: "Takes", Number: true}, {Head: "Buy", Number: true}, {Head: "Part in Stores", Wide: true}}}
	missing := map[string]bool{}
	for i, n := range s.Loom.Needs {
		part := table.Text("none covers it")
		if b := s.Build.Part(n.Part); b != nil {
			part = table.Link(string(b.ID)+" "+b.Name, s.Base+"/stores/part/"+string(b.ID))
		} else if !missing[n.Kind] {
			missing[n.Kind] = true
			page.Missing = append(page.Missing, n.Kind)
		}
		t.Rows = append(t.Rows, table.Row{Group: upper(n.Kind), Cells: []table.Cell{table.Text(n.Name),
			table.Show(n.Working.Text, working.Figure("need-"+strconv.Itoa(i), working.Inline, n.Working)), table.Text(strings.TrimSpace(strconv.Itoa(n.Buy) + " " + n.Unit)), part}})
	}
	page.Table = t
	return p.answer(r, page, "takes", s.Loom.Needs)
}

func upper(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// want puts on the list of Stores what no part covers.
func (p place) want(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	var task build.TaskID
	for _, t := range s.Build.Tasks {
		if t.Stage == "loom" && (task == "" || t.State != build.Finished) {
			task = t.ID
			if t.State != build.Finished {
				break
			}
		}
	}
	changes := stage.Want(s.Build, r.Path("kind"), task)
	if len(changes) == 0 {
		return fault.New(fault.Conflict, "%s of the loom is on the list already", r.Path("kind"))
	}
	return p.desk.Propose(r, s.Base+"/slip", changes...)
}

// ends is what lands on every terminal, cavity, splice and earth point.
func (p place) ends(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := listOf{sheet: s, Here: "/ends", Title: "Terminals", Text: "What lands where, cavity by cavity. Numbers of terminals are those of DIN 72552 where it has one."}
	t := table.Table{ID: "ends", Caption: "Terminals, cavities, splices and earth points", Self: s.At() + "/ends", Empty: "No relay, switch, connector, splice or earth point is entered yet.", Columns: []table.Column{
		{Head: "Terminal"}, {Head: "What it is", Wide: true}, {Head: "Wires", Wide: true}, {Head: "Done"}}}
	for _, c := range s.Loom.Cavities {
		t.Rows = append(t.Rows, table.Row{Group: upper(c.Part) + ", " + c.Kind, Cells: []table.Cell{
			table.Text(c.Terminal), table.Text(terminalWords(c)), table.Text(strings.Join(c.Says, ", ")), table.Show("", tick())}})
	}
	page.Table, page.More = t, s.splices()
	if r.Query("list") == "splices" && r.As() == "csv" && page.More != nil {
		return r.CSV(r.Build()+"-splices.csv", page.More.Records())
	}
	return p.answer(r, page, "terminals", map[string]any{"terminals": s.Loom.Cavities, "splices": s.Loom.Splices})
}

// splices is where the route puts the splices: how far along their stretch, and
// how far from the nearest breakout and the next one. Nothing without any.
func (s sheet) splices() *table.Table {
	if len(s.Loom.Splices) == 0 {
		return nil
	}
	t := table.Table{ID: "splices", Caption: "Splices along the loom", Self: s.At() + "/ends?list=splices", Columns: []table.Column{
		{Head: "Splice"}, {Head: "On"}, {Head: "Measured from", Wide: true}, {Head: "At", Unit: "mm", Number: true}, {Head: "To a breakout", Unit: "mm", Number: true}, {Head: "To the next", Unit: "mm", Number: true}, {Head: "Joins", Wide: true}, {Head: "Done"}}}
	for _, x := range s.Loom.Splices {
		from, next := "", "–"
		if run := s.stretch(x.Stretch); run != nil {
			from = s.placeName(string(run.From))
		}
		if x.Next > 0 {
			next = fmt.Sprintf("%.0f", x.Next)
		}
		t.Rows = append(t.Rows, table.Row{ID: "splice-" + x.ID, Cells: []table.Cell{table.Text(strings.TrimPrefix(x.ID, "splice of ")), table.Link(x.Stretch, s.stretchPath(x.Stretch)), table.Text(from),
			table.Text(fmt.Sprintf("%.0f", x.At)), table.Text(fmt.Sprintf("%.0f", x.Breakout)), table.Text(next), table.Text(strings.Join(x.Wires, ", ")), table.Show("", tick())}})
	}
	return &t
}

// terminalWords is what a number of DIN 72552 stands for, empty where it has none.
func terminalWords(c stage.Cavity) string {
	if c.Kind == "connector" {
		return "cavity"
	}
	all := stage.Terminals()
	if i := slices.IndexFunc(all, func(t stage.Terminal) bool { return t.Number == c.Terminal }); i >= 0 {
		return all[i].Says
	}
	return ""
}
