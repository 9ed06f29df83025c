package loom

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/loom"
	"fettle/unit"
)

func readingKind() partKind {
	return partKind{Key: "reading", One: "a reading", Many: "Readings", Group: ofBench, Letter: "V", Final: true, Says: "What a meter said of a circuit, with who read it and when. A reading is not altered: take it again and enter it anew.",
		Columns: []table.Column{{Head: "Circuit"}, {Head: "What"}, {Head: "Read", Number: true}, {Head: "When"}, {Head: "By"}, {Head: "Note", Wide: true}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Metered, func(x build.Metered) facts.Row {
				return facts.Row{ID: x.ID, Cells: plainCells(x.Circuit, x.Kind, number(x.Value), x.At.String(), string(x.By), x.Note)}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Metered, func(x build.Metered) bool { return x.ID == id }, build.Metered{Kind: "continuity"})
			return []field.Ask{askWord("circuit", "Circuit or wire", "its number", x.Circuit), {Params: field.Params{Name: "kind", Label: "What was read", Hint: "continuity in Ω, isolation in MΩ to everything else, volts at the far end, amps of a first power-up"}, Pick: field.Words(build.MeterKinds(), x.Kind)},
				askNumber("value", "The meter says", "", "Ω, MΩ, V or A", x.Value), askWord("note", "Note", "", x.Note)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.MeterCircuit{Metered: build.Metered{ID: id, Circuit: strings.ToUpper(f.Text("circuit", 1, 12)), Kind: f.Choice("kind", build.MeterKinds()...), Value: facts.Number(f, "value", 4, 0, 1_000_000_000), At: s.Now, By: s.Who, Note: f.Text("note", 0, 200)}}
		}}
}

func crimpKind() partKind {
	return partKind{Key: "crimp-test", One: "a crimp test", Many: "Crimp tests", Group: ofBench, Letter: "K", Final: true, Says: "Pull a few crimps of each terminal and section before the loom is made: until they give, or as far as they must hold. They are told of in the checks when they gave too early.",
		Columns: []table.Column{{Head: "Terminal", Wide: true}, {Head: "Section", Unit: "mm²", Number: true}, {Head: "Held", Unit: "N", Number: true}, {Head: "Day"}, {Head: "By"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Crimps, func(x build.CrimpTest) facts.Row {
				return facts.Row{ID: x.ID, Cells: plainCells(x.Terminal, x.Section, number(x.Newtons), x.Day.String(), string(x.By))}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Crimps, func(x build.CrimpTest) bool { return x.ID == id }, build.CrimpTest{})
			return []field.Ask{askWord("terminal", "Terminal", "its family, as the tool names it", x.Terminal), askWord("section", "Section, mm²", "of the wire in it", x.Section), askNumber("newtons", "It held", "N", "9.81 N is a kilogram that hangs on it", x.Newtons)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.TestCrimp{Crimp: build.CrimpTest{ID: id, Terminal: f.Text("terminal", 1, 60), Section: f.Text("section", 1, 20), Newtons: facts.Number(f, "newtons", 1, 0, 100_000), Day: s.Now.Date(), By: s.Who}}
		}}
}

func settingsKind() partKind {
	return partKind{Key: "settings", One: "the reckoning", Many: "How it is reckoned", Group: ofBench, Named: true, Only: true, Says: "Rules, volts, air and colours that hold for the whole loom. What is left empty is the habit of the trade.",
		Columns: []table.Column{{Head: "Rules"}, {Head: "Cable", Wide: true}, {Head: "Volts", Unit: "V", Number: true}, {Head: "Earth"}, {Head: "Colours"}},
		List: func(b *build.Build) []facts.Row {
			x := b.Loom.Settings
			return []facts.Row{{ID: "the loom", Cells: plainCells(orElse(x.Rules, stage.InFull), orElse(x.Cable, "that of the rules"), number(max(x.Volts, 0)+[]float64{12, 0}[min(1, int(x.Volts))]), earthWord(x.PositiveEarth), orElse(x.Code, build.ColourCodes()[0]))}}
		}, Form: settingsForm, Read: readSettings}
}

func earthWord(positive bool) string {
	if positive {
		return "plus"
	}
	return "minus"
}

func settingsForm(s sheet, _ string) []field.Ask {
	x := s.Build.Loom.Settings
	earth := []field.Option{{Value: "minus", Label: "battery minus is earthed", Picked: !x.PositiveEarth}, {Value: "plus", Label: "battery plus is earthed", Picked: x.PositiveEarth}}
	lengths := []field.Option{{Value: "list", Label: "of the list", Picked: !x.ByRoute}, {Value: "route", Label: "of the route, where it is drawn", Picked: x.ByRoute}}
	list := []field.Ask{
		askPick("rules", "Rules", "in full: heat, drop when hot, short circuit. By list: a circuit list as worked with a pencil", "not said: in full", build.LoomRules(), x.Rules),
		askPick("cable", "Cable", "its table of sizes", "that of the rules", s.cables(), x.Cable),
		askPick("nominal_v", "Nominal volts", "", "not said: 12", voltages, orEmpty(x.Volts)),
		{Params: field.Params{Name: "earth", Label: "Earth side"}, Pick: earth},
		askPick("colour_code", "Colours on labels", "both codes are kept", "not said: "+build.ColourCodes()[0], build.ColourCodes(), x.Code),
		{Params: field.Params{Name: "lengths", Label: "Sections by lengths"}, Pick: lengths},
		askNumber("air", "Warmest air", "°C", "where no other is named; empty: that of the rules", x.Air),
		askLines("airs", "Warmer parts", "a line each, such as engine = 80", airsText(x.Airs), 3),
	}
	list = append(list, askPick("sleeve", "Covered with", "", "not said", build.SleeveKinds(), x.Sleeve))
	list[len(list)-1].Head = "How it is made"
	return append(list, askNumber("wall", "Wall of the sleeve", "mm", "", x.Wall.Mm()), askNumber("slack", "Slack", "%", "on every length", x.Slack), askNumber("loop", "Service loop", "mm", "at each end", x.Loop.Mm()),
		askNumber("width", "Board, wide", "mm", "", x.BoardWidth.Mm()), askNumber("height", "Board, high", "mm", "", x.BoardHeight.Mm()),
		askNumber("hours_for", "Circuits that its hours were planned for", "", "more circuits then ask for more hours; empty: hours stay as planned", float64(x.HoursFor)))
}

var voltages = []string{"6", "12", "24"}

// cables are the tables that are there from the start, and the owner's own.
func (s sheet) cables() []string {
	list := stage.CableNames()
	for _, c := range s.Build.Loom.Cables {
		list = append(list, c.Name)
	}
	return list
}

func airsText(list []build.WarmAir) string {
	var out []string
	for _, a := range list {
		out = append(out, a.Name+" = "+number(a.Celsius))
	}
	return strings.Join(out, "\n")
}

func readSettings(f *web.Form, s sheet, _ string) build.Change {
	volts := readPick(f, "nominal_v", voltages)
	x := build.LoomSettings{Rules: readPick(f, "rules", build.LoomRules()), Cable: readPick(f, "cable", s.cables()), PositiveEarth: f.Choice("earth", "minus", "plus") == "plus",
		Code: readPick(f, "colour_code", build.ColourCodes()), Air: facts.Maybe(f, "air", 0, -60, 300), Sleeve: readPick(f, "sleeve", build.SleeveKinds()),
		Wall: maybeMm(f, "wall", 100), Slack: facts.Maybe(f, "slack", 1, 0, 100), Loop: maybeMm(f, "loop", 10_000), BoardWidth: maybeMm(f, "width", 50_000), BoardHeight: maybeMm(f, "height", 50_000),
		ByRoute: f.Choice("lengths", "list", "route") == "route", HoursFor: int(facts.Maybe(f, "hours_for", 0, 0, 10_000))}
	if i := slices.Index(voltages, volts); i >= 0 {
		x.Volts = []float64{6, 12, 24}[i]
	}
	for i, line := range linesIn(f.Raw("airs")) {
		name, text, ok := strings.Cut(line, "=")
		c, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(text), ",", ".", 1), 64)
		if name = strings.TrimSpace(name); !ok || err != nil || name == "" {
			f.Fail("airs", "line "+strconv.Itoa(i+1)+" is not a name, an equals sign and °C, such as engine = 80")
			continue
		}
		x.Airs = append(x.Airs, build.WarmAir{Name: name, Celsius: c})
	}
	return &build.SetLoom{Settings: x}
}

// maybeMm reads millimetres that may be left empty.
func maybeMm(f *web.Form, name string, most float64) unit.Length {
	return unit.Length(math.Round(1000*facts.Maybe(f, name, 2, 0, most))) * unit.Micrometre
}
