package loom

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

func connectorKind() partKind {
	return partKind{Key: "connector", One: "a connector", Many: "Connectors", Group: ofJoin, Named: true, Says: "A connector with its cavities: 3< is the plug side of cavity 3, 3> its socket side. Families go by your own words.",
		Columns: []table.Column{{Head: "Family", Wide: true}, {Head: "Cavities", Number: true}, {Head: "Circuits by cavity", Wide: true}, {Head: "At"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Connectors, func(x build.Connector) facts.Row {
				return facts.Row{ID: x.Name, Cells: plainCells(x.Family, strconv.Itoa(x.Cavities), strings.Join(linesIn(contactsText(x.Contacts)), "; "), string(x.At))}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Connectors, func(x build.Connector) bool { return x.Name == id }, build.Connector{})
			return []field.Ask{askWord("family", "Family", "as tool and terminals are called", x.Family), askNumber("cavities", "Cavities", "", "", float64(x.Cavities)),
				askLines("contacts", "Circuits by cavity", "a line each, such as 3 = C17", contactsText(x.Contacts), 6), s.where(x.At)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetConnector{Connector: build.Connector{Name: id, Family: f.Text("family", 0, 60), Cavities: int(f.Int("cavities", 1, 1000)), Contacts: readContacts(f), At: s.readWhere(f)}}
		}}
}

func jointKind() partKind {
	panels := func(s sheet) []field.Option {
		list := []field.Option{{Label: "none"}}
		for _, p := range s.Build.Panels {
			list = append(list, field.Option{Value: string(p.ID), Label: string(p.ID) + " " + p.Name})
		}
		return list
	}
	return partKind{Key: "joint", One: "a splice or earth point", Many: "Splices and earths", Group: ofJoin, Named: true, Says: "Where wires are joined, and where they are earthed to the body. An earth that has no contact sends current back through other lamps.",
		Columns: []table.Column{{Head: "Kind"}, {Head: "Circuits", Wide: true}, {Head: "Panel"}, {Head: "To the body", Unit: "Ω", Number: true}, {Head: "Contact"}, {Head: "At"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Joints, func(x build.Joint) facts.Row {
				contact := ""
				if x.Open {
					contact = "none"
				}
				return facts.Row{ID: x.Name, Cells: plainCells(x.Kind, strings.Join(x.Circuits, " "), string(x.Panel), orEmpty(x.Ohms), contact, string(x.At))}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Joints, func(x build.Joint) bool { return x.Name == id }, build.Joint{Kind: "splice"})
			return []field.Ask{{Params: field.Params{Name: "kind", Label: "Kind"}, Pick: field.Words(build.JointKinds(), x.Kind)}, askWord("circuits", "Circuits", "numbers of those that meet here", strings.Join(x.Circuits, " ")),
				{Params: field.Params{Name: "panel", Label: "Panel", Hint: "that an earth point is on"}, Pick: field.Pick(panels(s), string(x.Panel))},
				askNumber("ohms", "To the body", "Ω", "metered, of an earth point; empty: good", x.Ohms), askBox("open", "Contact", "known to have none", x.Open), s.where(x.At)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetJoint{Joint: build.Joint{Name: id, Kind: f.Choice("kind", build.JointKinds()...), Circuits: circuitsIn(f.Raw("circuits")), Panel: build.PanelID(f.Choice("panel", field.Values(panels(s))...)),
				Ohms: facts.Maybe(f, "ohms", 4, 0, 1_000_000), Open: f.Has("open"), At: s.readWhere(f)}}
		}}
}

func wireKind() partKind {
	return partKind{Key: "wire", One: "a wire", Many: "Wires of a net", Group: ofJoin, Letter: "N", Says: "Where a circuit is drawn wire by wire it is worked out as a net, in every position of its switches. Each end is written part:terminal, or body. A circuit without wires is worked out by the list.",
		Columns: []table.Column{{Head: "Circuit"}, {Head: "From", Wide: true}, {Head: "To", Wide: true}, {Head: "Length", Unit: "m", Number: true}, {Head: "Fitted", Unit: "mm²"}, {Head: "Colour"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Wires, func(x build.Wire) facts.Row {
				return facts.Row{ID: x.ID, Cells: plainCells(x.Circuit, x.From, x.To, number(x.Length.Mm()/1000), x.Section, x.Colour)}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Wires, func(x build.Wire) bool { return x.ID == id }, build.Wire{})
			return []field.Ask{askWord("circuit", "Circuit", "that it is part of; empty: none", x.Circuit), askWord("from", "From", "such as light switch:58", x.From), askWord("to", "To", "such as tail lamp L:+, or body", x.To),
				askNumber("length", "Length", "m", "along its way", x.Length.Mm()/1000), askWord("section", "Section that is fitted, mm²", "empty: worked out", x.Section), askWord("colour", "Colour", "letters of either code: U/R or BURD", x.Colour),
				askWord("pair", "Pair", "left and right of one name get one section", x.Pair), askWord("unfused", "Why no fuse stands before it", "only for a cable such as the starter's", x.Unfused),
				s.air(x.Air), askWord("label", "On its label", "empty: its number", x.Label)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetWire{Wire: build.Wire{ID: id, Circuit: strings.ToUpper(f.Text("circuit", 0, 12)), From: f.Text("from", 1, 80), To: f.Text("to", 1, 80), Length: unit.Length(math.Round(1000*facts.Number(f, "length", 3, 0.001, mostMetres))) * unit.Millimetre,
				Section: f.Text("section", 0, 20), Colour: f.Text("colour", 0, 20), Pair: f.Text("pair", 0, 40), Unfused: f.Text("unfused", 0, 120), Air: s.readAir(f), Label: f.Text("label", 0, 40)}}
		}}
}

// air is the part of the vehicle that is warmer than the rest.
func (s sheet) air(now string) field.Ask {
	return askPick("air", "Air that it meets", "zones are entered with how the loom is reckoned", "as the rest", s.airs(), now)
}

func (s sheet) airs() []string {
	var list []string
	for _, a := range s.Build.Loom.Settings.Airs {
		list = append(list, a.Name)
	}
	return list
}

func (s sheet) readAir(f *web.Form) string { return readPick(f, "air", s.airs()) }

func cableKind() partKind {
	return partKind{Key: "cable", One: "a cable of your own", Many: "Cable tables", Group: ofJoin, Named: true, Says: "Sizes of a cable as its maker's sheet gives them, beside the tables that are here from the start. Pick it where it says how the loom is reckoned.",
		Columns: []table.Column{{Head: "Where from", Wide: true}, {Head: "Sizes", Number: true}, {Head: "Bears", Unit: "°C", Number: true}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Cables, func(x build.Cable) facts.Row {
				return facts.Row{ID: x.Name, Cells: plainCells(x.Says, strconv.Itoa(len(x.Sizes)), number(x.MaxC))}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Cables, func(x build.Cable) bool { return x.Name == id }, build.Cable{MaxC: 105, AirC: 30, K: 115})
			return []field.Ask{askWord("source", "Where its numbers are from", "the maker's sheet and its date", x.Says), askWord("class", "Class", "as the standard calls it; may be empty", x.Class),
				askNumber("max_c", "Its insulation bears for years", "°C", "", x.MaxC), askNumber("air_c", "Its amps hold in air of", "°C", "", x.AirC), askNumber("k", "k in a short circuit", "A√s/mm²", "115 for PVC on copper, 143 for cross-linked", x.K),
				askLines("size", "Sizes, small to large", "a line each: name, mm², mΩ/m at 20 °C, amps of one wire in free air, and mm across where known; such as 1.5 1.5 12.7 21 2.4", sizesText(x.Sizes), 8)}
		},
		Read: func(f *web.Form, _ sheet, id string) build.Change {
			return &build.SetCable{Cable: build.Cable{Name: id, Says: f.Text("source", 1, 120), Class: f.Text("class", 0, 40), MaxC: facts.Number(f, "max_c", 0, 40, 400), AirC: facts.Number(f, "air_c", 0, 0, 400), K: facts.Number(f, "k", 1, 10, 500), Sizes: readSizes(f)}}
		}}
}

// sizesText is the sizes of a cable as they are typed. A name of several words
// is parted from the numbers by a comma.
func sizesText(list []build.CableSize) string {
	var out []string
	for _, x := range list {
		line := fmt.Sprintf("%s, %s %s %s", x.Name, number(x.MM2), number(x.MilliOhm), number(x.Amps))
		if x.OD > 0 {
			line += " " + number(x.OD.Mm())
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

func readSizes(f *web.Form) []build.CableSize {
	var list []build.CableSize
	for i, line := range linesIn(f.Raw("size")) {
		name, rest, ok := strings.Cut(line, ", ")
		if !ok {
			name, rest, _ = strings.Cut(line, " ")
		}
		var n []float64
		for _, w := range strings.Fields(rest) {
			v, err := strconv.ParseFloat(strings.Replace(w, ",", ".", 1), 64)
			if err != nil {
				n = nil
				break
			}
			n = append(n, v)
		}
		if len(n) < 3 || len(n) > 4 {
			f.Fail("size", "line "+strconv.Itoa(i+1)+" is not a name and three or four numbers, such as 1.5 1.5 12.7 21")
			continue
		}
		x := build.CableSize{Name: strings.TrimSpace(name), MM2: n[0], MilliOhm: n[1], Amps: n[2]}
		if len(n) == 4 {
			x.OD = unit.Length(math.Round(n[3]*1000)) * unit.Micrometre
		}
		list = append(list, x)
	}
	return list
}
