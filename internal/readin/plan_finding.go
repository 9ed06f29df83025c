package readin

import (
	"slices"
	"strings"

	"fettle/build"
	"fettle/unit"
)

func findingSame(x build.Finding) string {
	return fingerprint("finding", x.Panels, fold(x.What), x.X, x.Z, x.Size)
}

// findOut settles when the findings were found where no column says so: as the
// caller says, else a kind of finding that the build knows and that stands in
// the file's name or above the headings.
func (p *planner) findOut(s Sheet) {
	if _, ok := p.cols["found"]; ok || p.o.Found != "" {
		return
	}
	text := " " + fold(s.Name+" "+s.Tab+" "+s.Title) + " "
	for _, known := range p.foundKinds() {
		if strings.Contains(text, " "+fold(known)+" ") {
			p.o.Found = known
			p.notes = append(p.notes, Note{0, "no column says when these were found; \"" + known + "\" is taken from the name of the list"})
			return
		}
	}
	p.notes = append(p.notes, Note{0, "no column says when these were found; it is left empty"})
}

func (p *planner) foundKinds() []string {
	var kinds []string
	for _, r := range p.work.Risk.Reserve {
		kinds = append(kinds, r.Since)
	}
	for _, f := range p.work.Findings {
		kinds = append(kinds, f.Found)
	}
	slices.Sort(kinds)
	kinds = slices.Compact(kinds)
	return slices.DeleteFunc(kinds, func(k string) bool { return fold(k) == "" })
}

// finding turns a row into record-finding, with its part where it names one.
func (p *planner) finding(r *rowReader) (build.Change, func()) {
	x := build.Finding{What: r.need("what"), X: r.length("x"), Z: r.length("z"), Found: r.text("found")}
	if x.Found == "" {
		x.Found = p.o.Found
	}
	x.Panels = r.panels()
	x.Size = r.size()
	x.Remedy, x.How = r.remedy()
	x.State = oneOf(r, "state", build.FindingStates())
	x.Task = r.findingTask(x.Panels)
	x.Work = r.legs()
	if r.text("x") == "" && r.text("z") == "" {
		r.note("no place on the panel is given")
	}
	c := &build.RecordFinding{Decision: r.decided("decision")}
	x.ID = build.FindingID(r.number("finding", "number", findingSame(x)))
	c.Finding = x
	c.Parts = r.rowParts(x)
	return c, func() {
		p.keep(findingSame(x), "finding "+string(x.ID), r.Line)
		for _, part := range c.Parts {
			p.keepPart(part, r.Line)
		}
	}
}

// panels reads the panels of a finding.
func (r *rowReader) panels() []build.PanelID {
	text := r.need("panel")
	if text == "" {
		return nil
	}
	side := ""
	if s := r.text("side"); s != "" {
		if side = sideOf(strings.Trim(s, " .")); side == "" {
			r.fail("side", invalid("%q is not a side", s).WithHint("write L, R or C; nearside and offside differ by country"))
		}
	}
	ids, err := r.p.names.panels(text, side)
	if err != nil {
		r.fail("panel", err)
	}
	return ids
}

// findingTask reads the task, else leaves it to the panel; the option fills in
// for a panel that has none.
func (r *rowReader) findingTask(panels []build.PanelID) build.TaskID {
	if r.text("task") != "" {
		return r.task()
	}
	if len(panels) == 0 {
		return ""
	}
	if p := r.p.work.Panel(panels[0]); p.Task != "" || r.p.o.Task != "" {
		if p.Task != "" {
			return ""
		}
		return r.p.o.Task
	}
	r.fail("task", invalid("panel %s belongs to no task, and no column names one", panels[0]).WithHint("name the task in a column, or for the whole list"))
	return ""
}

// size reads the size from one cell, or from width, height, diameter and count.
func (r *rowReader) size() build.Size {
	var s build.Size
	if text := r.text("size"); text != "" {
		read, doubt, err := r.p.n.parseSize(text, r.unitOf("size"))
		if err != nil {
			r.fail("size", err)
		}
		if doubt {
			r.note("size: the comma in %q is taken as a mark between thousands", text)
		}
		s = read
	} else {
		s = r.sides()
	}
	s.Round = s.Round || r.yes("round")
	if n := r.count("count", 0); n != 0 {
		if s.Count > 1 && s.Count != n {
			r.fail("count", invalid("the size says %d places, the count %d", s.Count, n))
		}
		s.Count = n
	}
	return s
}

// sides reads width and height, or a diameter; a width such as "30 dia" or
// "260x180" is read as a whole size.
func (r *rowReader) sides() build.Size {
	field := "width"
	text := r.text(field)
	if d := r.text("diameter"); text == "" && d != "" {
		field, text = "diameter", d
	}
	if text == "" {
		r.fail("width", invalid("the size is empty"))
		return build.Size{}
	}
	s, doubt, err := r.p.n.parseSize(text, r.unitOf(field))
	if err != nil {
		r.fail(field, err)
	}
	if doubt {
		r.note("%s: the comma in %q is taken as a mark between thousands", field, text)
	}
	s.Round = s.Round || field == "diameter"
	if h := r.text("height"); h != "" && h != "-" && h != "–" {
		height := r.height(h, &s)
		if s.Height != 0 && height != s.Height {
			r.fail("height", invalid("the width holds a height already"))
		}
		s.Height = height
	}
	return s
}

// height reads the height; "dia" there makes the width a diameter.
func (r *rowReader) height(text string, s *build.Size) unit.Length {
	if fold(roundWords.ReplaceAllString(text, "")) == "" {
		s.Round = true
		return s.Height
	}
	return r.length("height")
}

// remedy reads what will be done, and keeps the words where they say more than
// the decision does.
func (r *rowReader) remedy() (build.PanelState, string) {
	remedy, how := r.decided("remedy"), r.text("how")
	text := r.text("remedy")
	if how == "" && remedy != "" && fold(text) != string(remedy) {
		how = text
	}
	return remedy, how
}

// decisionWords says which decision a word of the trade means. A phrase means
// that of its first word that is listed.
var decisionWords = [...]struct {
	decision build.PanelState
	words    string
}{
	{build.Keep, " keep leave ok sound good none fine "},
	{build.Repair, " repair mend patch weld shrink dress straighten braze solder plate fill stop beat repaired "},
	{build.Replace, " replace new renew swap reskin exchange buy replaced "},
	{build.Make, " make fabricate fab fold form made fabricated "},
}

// decided reads keep, repair, replace or make from the trade's words; empty is
// not decided.
func (r *rowReader) decided(field string) build.PanelState {
	text := r.text(field)
	if text == "" || text == "-" || text == "?" || fold(text) == "tbd" || fold(text) == "not decided" {
		return ""
	}
	said := strings.Fields(fold(text))
	if slices.Contains(said, "section") || slices.Contains(said, "sections") { // a new section repairs the panel
		return build.Repair
	}
	for _, word := range said {
		for _, d := range decisionWords {
			if strings.Contains(d.words, " "+word+" ") {
				return d.decision
			}
		}
	}
	f := invalid("%q is none of: keep, repair, replace, make", text)
	if i := nearest(text, []string{"keep", "repair", "replace", "make", "fabricate", "patch"}); i >= 0 {
		f = f.WithHint("did you mean " + []string{"keep", "repair", "replace", "make", "fabricate", "patch"}[i] + "?")
	}
	r.fail(field, f)
	return ""
}

// legs reads hours by trade: from the one cell, and from columns of trades.
func (r *rowReader) legs() []build.Leg {
	var legs []build.Leg
	if text := r.text("hours"); text != "" && text != "-" {
		shares, err := r.p.n.parseShares(text)
		if err != nil {
			r.fail("hours", err)
		}
		for _, s := range shares {
			legs = r.addLeg(legs, s)
		}
	}
	for _, c := range r.p.m.Columns {
		if c.Of == "" || c.At >= len(r.cells) || r.cells[c.At] == "" || r.cells[c.At] == "-" {
			continue
		}
		h, err := r.p.n.parseHours(r.cells[c.At])
		if err != nil {
			r.fail("hours "+c.Of, err)
			return nil
		}
		legs = r.addLeg(legs, share{c.Of, h})
	}
	return legs
}

// addLeg adds hours to the leg of their trade.
func (r *rowReader) addLeg(legs []build.Leg, s share) []build.Leg {
	trade := r.p.o.Trade
	if s.name == "" {
		s.name = r.text("trade")
	}
	switch {
	case s.hours == 0:
		return legs
	case s.name != "":
		id, err := r.p.names.trade(s.name)
		if err != nil {
			r.fail("hours", err)
			return legs
		}
		trade = id
	case trade == "":
		r.fail("hours", invalid("%s of which trade?", s.hours).WithHint("write it like MW 5, LD 2, or name the trade for the whole list"))
		return legs
	}
	if i := slices.IndexFunc(legs, func(l build.Leg) bool { return l.Trade == trade }); i >= 0 {
		legs[i].Hours += s.hours
		return legs
	}
	return append(legs, build.Leg{Trade: trade, Hours: s.hours})
}
