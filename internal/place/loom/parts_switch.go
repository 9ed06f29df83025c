package loom

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
)

func switchKind() partKind {
	return partKind{Key: "switch", One: "a switch", Many: "Switches", Group: ofHand, Named: true, Says: "A switch joins terminals in each of its positions; the first is that of rest. Numbers of terminals are those of the standard where it has one.",
		Columns: []table.Column{{Head: "Positions", Wide: true}, {Head: "Terminals", Wide: true}, {Head: "At"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Switches, func(x build.Switch) facts.Row {
				return facts.Row{ID: x.Name, Cells: plainCells(strings.Join(linesIn(positionsText(x.Positions)), "; "), strings.Join(linesIn(contactsText(x.Contacts)), "; "), string(x.At))}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Switches, func(x build.Switch) bool { return x.Name == id }, build.Switch{Positions: []build.SwitchPosition{{Name: "off"}, {Name: "on", Joins: [][]string{{"30", "58"}}}}})
			return []field.Ask{askLines("positions", "Positions", "a line each, rest first: name = terminals it joins; several sets parted by commas, such as head = 30 58 56", positionsText(x.Positions), 5),
				askLines("contacts", "Circuits on its terminals", "a line each, such as 58 = C12 C13", contactsText(x.Contacts), 5), askBox("short", "Held", "for seconds only: horn, starter", x.Short), s.where(x.At)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetSwitch{Switch: build.Switch{Name: id, Positions: readPositions(f), Contacts: readContacts(f), Short: f.Has("short"), At: s.readWhere(f)}}
		}}
}

func relayKind() partKind {
	return partKind{Key: "relay", One: "a relay", Many: "Relays", Group: ofHand, Named: true, Says: "A small current through the coil, 86 to 85, joins 30 to 87. With a diode across the coil plus must be at 86: the other way round it burns.",
		Columns: []table.Column{{Head: "Contact", Unit: "A", Number: true}, {Head: "Diode"}, {Head: "87a"}, {Head: "Terminals", Wide: true}, {Head: "At"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Relays, func(x build.Relay) facts.Row {
				return facts.Row{ID: x.Name, Cells: plainCells(orEmpty(x.Amps), yesNo(x.Diode), yesNo(x.Break), strings.Join(linesIn(contactsText(x.Contacts)), "; "), string(x.At))}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Relays, func(x build.Relay) bool { return x.Name == id }, build.Relay{Amps: 30})
			return []field.Ask{askNumber("amps", "Contact made for", "A", "from its case; empty: not known", x.Amps), askNumber("coil", "Coil", "Ω", "metered from 85 to 86; empty: the usual one", x.CoilOhms),
				{Params: field.Params{Name: "kind", Label: "What it has"}, Tick: []field.Option{{Value: "break", Label: "a terminal 87a", Picked: x.Break}, {Value: "diode", Label: "a diode across its coil", Hint: "plus at 86", Picked: x.Diode}}},
				askLines("contacts", "Circuits on its terminals", "a line each of 30, 85, 86, 87, 87a, such as 87 = C08 C09", contactsText(x.Contacts), 5), s.where(x.At)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			has := f.All("kind")
			return &build.SetRelay{Relay: build.Relay{Name: id, Break: slices.Contains(has, "break"), Diode: slices.Contains(has, "diode"), Amps: facts.Maybe(f, "amps", 1, 0, mostAmps), CoilOhms: facts.Maybe(f, "coil", 1, 0, 1_000_000),
				Contacts: readContacts(f), At: s.readWhere(f)}}
		}}
}

func yesNo(v bool) string {
	if v {
		return "yes"
	}
	return "no"
}

// positionsText is positions of a switch as they are typed, a line each.
func positionsText(list []build.SwitchPosition) string {
	var out []string
	for _, p := range list {
		line := p.Name
		for i, set := range p.Joins {
			line += []string{" = ", ", "}[min(i, 1)] + strings.Join(set, " ")
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

func readPositions(f *web.Form) []build.SwitchPosition {
	var list []build.SwitchPosition
	for i, line := range linesIn(f.Raw("positions")) {
		name, joins, _ := strings.Cut(line, "=")
		p := build.SwitchPosition{Name: strings.TrimSpace(name)}
		for set := range strings.SplitSeq(joins, ",") {
			terminals := namesIn(set)
			if len(terminals) == 1 {
				f.Fail("positions", fmt.Sprintf("line %d joins %s to nothing: name two terminals or more", i+1, terminals[0]))
			}
			if len(terminals) > 0 {
				p.Joins = append(p.Joins, terminals)
			}
		}
		list = append(list, p)
	}
	if len(list) == 0 {
		f.Fail("positions", "is empty: write at least the one of rest, such as off")
	}
	return list
}

// contactsText is terminals with their circuits as they are typed, a line each.
func contactsText(list []build.Contact) string {
	var out []string
	for _, c := range list {
		out = append(out, strings.TrimSpace(c.Terminal+" = "+strings.Join(c.Circuits, " ")))
	}
	return strings.Join(out, "\n")
}

func readContacts(f *web.Form) []build.Contact {
	var list []build.Contact
	for i, line := range linesIn(f.Raw("contacts")) {
		terminal, circuits, ok := strings.Cut(line, "=")
		if terminal = strings.TrimSpace(terminal); !ok || terminal == "" || len(namesIn(terminal)) > 1 {
			f.Fail("contacts", "line "+strconv.Itoa(i+1)+" is not a terminal, an equals sign and circuits, such as 58 = C12 C13")
			continue
		}
		list = append(list, build.Contact{Terminal: terminal, Circuits: circuitsIn(circuits)})
	}
	return list
}
