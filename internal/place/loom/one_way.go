package loom

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/table"
	"fettle/internal/web/ui/working"
	stage "fettle/stage/loom"
)

// above are the feeds that a circuit hangs on, from the battery on: each ends
// where the next begins, or at the box that its fuse stands in.
func (s sheet) above(c build.Circuit) []build.Circuit {
	var list []build.Circuit
	seen := map[string]bool{c.ID: true}
	for {
		at := c.From
		if f := s.Build.Loom.Fuse(c.Fuse); f != nil && f.Box != "" {
			at = f.Box
		}
		if slices.ContainsFunc(s.Build.Loom.Batteries, func(x build.Battery) bool { return x.Name == at }) {
			slices.Reverse(list)
			return list
		}
		i := slices.IndexFunc(s.Build.Circuits, func(x build.Circuit) bool { return x.To == at && x.Feed && !seen[x.ID] })
		if i < 0 {
			slices.Reverse(list)
			return list
		}
		c = s.Build.Circuits[i]
		seen[c.ID] = true
		list = append(list, c)
	}
}

// wayTable is the way of a circuit from battery to earth, step by step, with
// what is lost on each.
func (s sheet) wayTable(c build.Circuit) table.Table {
	t := table.Table{ID: "way", Caption: "From the battery to earth", Columns: []table.Column{
		{Head: "Step", Wide: true}, {Head: "Section", Unit: "mm²", Number: true}, {Head: "Length", Unit: "m", Number: true}, {Head: "Carries", Unit: "A", Number: true}, {Head: "Lost", Unit: "V", Number: true}}}
	add := func(step string) { t.Rows = append(t.Rows, stepRow(step)) }
	sum := 0.0
	run := func(c build.Circuit) {
		for _, r := range s.of(c.ID) {
			id := "step-" + r.ID
			sum += r.DropV
			t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Link(r.ID+" "+s.ends(c, r.ID), s.onePath(c.ID)), table.Text(r.Section), table.Text(fmt.Sprintf("%.2f", r.StatedMM/1000)), table.Text(amps(r.Amps)),
				table.Show(volts(r.DropV), working.Figure(id, working.Inline, bare(r.Drop)))}})
		}
	}
	if len(s.Build.Loom.Batteries) > 0 {
		add(s.Build.Loom.Batteries[0].Name)
	}
	for _, up := range s.above(c) {
		s.addFuse(&t, up)
		run(up)
	}
	s.addFuse(&t, c)
	run(c)
	for _, name := range s.onWay(c.ID) {
		add(name)
	}
	for _, x := range s.Build.Loom.Consumers {
		if slices.Contains(x.Circuits, c.ID) {
			add(x.Name + ", " + consumerWords(x))
		}
	}
	for _, x := range s.Build.Loom.Joints {
		if x.Kind == "earth" && slices.Contains(x.Circuits, c.ID) {
			add(earthWords(x))
		}
	}
	t.Foot = plainCells("Lost on the way, each feed with all that it feeds", "", "", "", volts(sum))
	return t
}

func (s sheet) addFuse(t *table.Table, c build.Circuit) {
	words := ""
	switch f := s.Build.Loom.Fuse(c.Fuse); {
	case f != nil:
		words = "fuse " + f.Name + ", " + number(f.Amps) + " A"
		if f.Box != "" {
			words += " in " + f.Box
		}
		if f.Empty {
			words += ", its holder empty"
		}
	case c.Fuse != "" && c.Fuse != "none":
		words = "fuse " + fuseText(c) + " A"
	case c.Unfused != "":
		words = "no fuse: " + c.Unfused
	default:
		return
	}
	t.Rows = append(t.Rows, stepRow(words))
}

// stepRow is a step that loses nothing by itself.
func stepRow(says string) table.Row { return table.Row{Cells: plainCells(says, "", "", "", "")} }

// ends is where a run goes: that of the circuit, or of a wire of its net.
func (s sheet) ends(c build.Circuit, run string) string {
	for _, w := range s.Build.Loom.Wires {
		if w.ID == run {
			return w.From + " → " + w.To
		}
	}
	return c.From + " → " + c.To
}

// onWay are connectors and splices that a circuit passes.
func (s sheet) onWay(id string) []string {
	var list []string
	for _, x := range s.Build.Loom.Connectors {
		if cavity := onTerminal(x.Contacts, id); cavity != "" {
			list = append(list, fmt.Sprintf("%s, cavity %s of %d", x.Name, cavity, x.Cavities))
		}
	}
	for _, x := range s.Build.Loom.Joints {
		if x.Kind == "splice" && slices.Contains(x.Circuits, id) {
			list = append(list, "splice "+x.Name)
		}
	}
	return list
}

func consumerWords(x build.Consumer) string {
	text := number(x.Watts) + " W"
	if x.Amps > 0 {
		text = number(x.Amps) + " A"
	}
	if x.Volts > 0 {
		text += " at " + number(x.Volts) + " V"
	}
	return text + ", " + orElse(x.Behaviour, "resistance")
}

func earthWords(x build.Joint) string {
	text := x.Name
	if x.Panel != "" {
		text += " on " + string(x.Panel)
	}
	if x.Open {
		text += ", known to have no contact"
	}
	return text + fmt.Sprintf(", shared by %d", len(x.Circuits))
}

// judged is what a circuit's runs come to when heat and short circuit are
// reckoned too.
func (s sheet) judged(ctx context.Context, circuit string) []stage.Sized {
	all, err := s.Loom.Judged(ctx)
	if err != nil {
		return nil
	}
	var list []stage.Sized
	for _, row := range s.of(circuit) {
		if i := slices.IndexFunc(all, func(x stage.Sized) bool { return x.ID == row.ID }); i >= 0 {
			list = append(list, all[i])
		}
	}
	return list
}

// heat tells how warm a run gets, and what it bears.
func (s sheet) heat(x stage.Sized) told {
	t := told{Mark: mark.Safe, Word: "bears it", Figure: figure.Figure{Name: "heat of " + x.ID, Text: fmt.Sprintf("%.0f °C", x.Celsius), Formula: "air + (bears − air of its rating) × (load ÷ what it bears in its bundle)²; amps ≤ free air × air × bundle",
		With:    fmt.Sprintf("%.1f A of %.1f A that %s mm² bears here", x.Amps, x.UsableA, x.Section),
		Inputs:  []figure.Input{{Name: "load", Value: fmt.Sprintf("%.1f A", x.Amps), Source: figure.Decided}, {Name: "bears here", Value: fmt.Sprintf("%.1f A", x.UsableA), Source: figure.Sheet, Note: "rating × air × bundle"}},
		Caution: "A wire in a fat bundle or beside the exhaust is warmer than one in the air."}}
	if slices.Contains(x.Fails, stage.ByLoad) {
		t.Mark, t.Word, t.Remedy = mark.Slipping, "too warm", "A larger section, less load, or a cooler way."
	}
	return t
}

// short tells what a short circuit at the far end does.
func (s sheet) short(x stage.Sized) told {
	t := told{Figure: figure.Figure{Name: "short circuit of " + x.ID, Formula: "volts ÷ ohms of the loop, hot; fuse opens at I²t ≤ k²S² within 5 s", Inputs: []figure.Input{{Name: "fuse", Value: fmt.Sprintf("%s %g A", x.Fuse, x.FuseA), Source: figure.Decided}}}}
	switch {
	case x.Fuse == "":
		t.Figure.Text, t.Mark, t.Word = "no fuse", mark.Tight, "nothing opens"
		t.Figure.With, t.Remedy = "no fuse stands before it", "Keep it short, alone and sleeved, off every edge; a link at the battery if it can be had."
		return t
	case x.FaultA == 0:
		t.Figure.Text, t.Mark, t.Word = "not told", mark.Tight, "no battery to reckon with"
		t.Figure.With, t.Remedy = "no loop from a battery", "Enter the battery."
		return t
	}
	t.Figure.With = fmt.Sprintf("%.0f A; I²t %.0f A²s against k²S² %.0f A²s of %s mm²", x.FaultA, x.FaultHeat, x.Bears, x.Section)
	t.Figure.Text, t.Mark, t.Word = fmt.Sprintf("%s at %.0f A", secondsText(x.FaultS), x.FaultA), mark.Safe, "the fuse opens in time"
	if slices.Contains(x.Fails, stage.ByFault) {
		t.Mark, t.Word, t.Remedy = mark.Slipping, "the wire burns first", "A smaller or faster fuse, a larger section, or a shorter way."
	}
	if x.FaultS == 0 {
		t.Figure.Text = fmt.Sprintf("never, at %.0f A", x.FaultA)
	}
	return t
}

func secondsText(v float64) string {
	if v < 0.1 {
		return fmt.Sprintf("%.0f ms", 1000*v)
	}
	return fmt.Sprintf("%.1f s", v)
}

// neighbours are the others on the fuse.
func (s sheet) neighbours(c build.Circuit) (fuse *stage.FuseLoad, others []build.Circuit) {
	for i, f := range s.Loom.Fuses {
		if f.Name == c.Fuse {
			fuse = &s.Loom.Fuses[i]
		}
	}
	for _, x := range s.Build.Circuits {
		if x.Fuse == c.Fuse && x.ID != c.ID && fuse != nil {
			others = append(others, x)
		}
	}
	return fuse, others
}

// routedText says how a circuit's length stands to that of the route.
func routedText(r stage.Row) string {
	d := (r.RoutedMM - r.StatedMM) / 1000
	if d < 0.05 && d > -0.05 {
		return fmt.Sprintf("%.2f m by the list, as along the route", r.StatedMM/1000)
	}
	return strings.Replace(fmt.Sprintf("%.2f m by the list, %.2f m along the route: %+.2f m", r.StatedMM/1000, r.RoutedMM/1000, d), "-", "−", 1)
}

func differs(r stage.Row) bool {
	d := r.RoutedMM - r.StatedMM
	return r.RoutedMM > 0 && (d > 50 || d < -50)
}
