package loom

import (
	"slices"
	"strconv"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
)

// plainCells are cells of plain text.
func plainCells(words ...string) []table.Cell {
	list := make([]table.Cell, len(words))
	for i, w := range words {
		list[i] = table.Text(w)
	}
	return list
}

// rowsFor makes a line of each.
func rowsFor[T any](list []T, row func(T) facts.Row) []facts.Row {
	var rows []facts.Row
	for _, x := range list {
		rows = append(rows, row(x))
	}
	return rows
}

// factOf returns the one of that name, or what a new one begins with.
func factOf[T any](list []T, is func(T) bool, fresh T) T {
	if i := slices.IndexFunc(list, is); i >= 0 {
		return list[i]
	}
	return fresh
}

func batteryKind() partKind {
	return partKind{Key: "battery", One: "a battery", Many: "Batteries", Group: ofSupply, Named: true, Says: "Everything begins at the battery: what it holds decides how long the vehicle may stand, what it can give decides a short circuit. Its terminals are + and −.",
		Columns: []table.Column{{Head: "Holds", Unit: "Ah", Number: true}, {Head: "Cranks", Unit: "A", Number: true}, {Head: "Drain", Unit: "mA", Number: true}, {Head: "At"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Batteries, func(x build.Battery) facts.Row {
				return facts.Row{ID: x.Name, Cells: plainCells(number(x.AmpHours), orEmpty(x.Cranking), orEmpty(x.Drain), string(x.At))}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Batteries, func(x build.Battery) bool { return x.Name == id }, build.Battery{})
			return []field.Ask{askNumber("ah", "Holds", "Ah", "20 hour rate, from its label", x.AmpHours), askNumber("cranking", "Cranking current", "A", "from its label; empty: 500 A", x.Cranking),
				askNumber("volts", "At rest", "V", "empty: 12.6 V, or as the nominal volts ask", x.Volts), askNumber("reserve", "Reserve", "min", "at 25 A, where the label says it", x.Reserve),
				askNumber("drain", "Drain with everything off", "mA", "metered in the earth lead; empty: not known", x.Drain), s.where(x.At)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetBattery{Battery: build.Battery{Name: id, AmpHours: facts.Number(f, "ah", 1, 0.1, 10_000), Cranking: facts.Maybe(f, "cranking", 0, 1, 10_000), Volts: facts.Maybe(f, "volts", 2, 1, 60),
				Reserve: facts.Maybe(f, "reserve", 0, 1, 10_000), Drain: facts.Maybe(f, "drain", 1, 0, 1_000_000), At: s.readWhere(f)}}
		}}
}

func alternatorKind() partKind {
	return partKind{Key: "alternator", One: "an alternator or dynamo", Many: "Charging", Group: ofSupply, Named: true, Says: "What charges: its rating against what is on for long, and what it gives at idle on a wet night. Its terminals are B+ and B−.",
		Columns: []table.Column{{Head: "Rated", Unit: "A", Number: true}, {Head: "At idle", Unit: "A", Number: true}, {Head: "At"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Alternators, func(x build.Alternator) facts.Row {
				return facts.Row{ID: x.Name, Cells: plainCells(number(x.Rated), orEmpty(x.Idle), string(x.At))}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Alternators, func(x build.Alternator) bool { return x.Name == id }, build.Alternator{})
			return []field.Ask{askNumber("rated", "Rated", "A", "from its plate", x.Rated), askNumber("idle", "At idle", "A", "from its sheet; empty: 0.7 of the rating, which a dynamo does not reach: type 0.1 for one that gives nothing", x.Idle),
				askNumber("volts", "Charges at", "V", "empty: 14.2 V, or as the nominal volts ask", x.Volts), s.where(x.At)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetAlternator{Alternator: build.Alternator{Name: id, Rated: facts.Number(f, "rated", 1, 0.1, mostAmps), Idle: facts.Maybe(f, "idle", 1, 0, mostAmps), Volts: facts.Maybe(f, "volts", 2, 1, 60), At: s.readWhere(f)}}
		}}
}

func boxKind() partKind {
	return partKind{Key: "fuse-box", One: "a fuse box", Many: "Fuse boxes", Group: ofSupply, Named: true, Says: "A box has so many ways. When a fuse must be split, a way must be free for it.",
		Columns: []table.Column{{Head: "Ways", Number: true}, {Head: "At"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Boxes, func(x build.FuseBox) facts.Row {
				return facts.Row{ID: x.Name, Cells: plainCells(strconv.Itoa(x.Ways), string(x.At))}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Boxes, func(x build.FuseBox) bool { return x.Name == id }, build.FuseBox{})
			return []field.Ask{askNumber("ways", "Ways", "", "holders for fuses in it", float64(x.Ways)), s.where(x.At)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetFuseBox{FuseBox: build.FuseBox{Name: id, Ways: int(f.Int("ways", 1, 1000)), At: s.readWhere(f)}}
		}}
}

func fuseKind() partKind {
	boxes := func(s sheet) []string {
		var list []string
		for _, x := range s.Build.Loom.Boxes {
			list = append(list, x.Name)
		}
		return list
	}
	return partKind{Key: "fuse", One: "a fuse", Many: "Fuses", Group: ofSupply, Named: true, Says: "A fuse protects the wire behind it, not the lamp. It feeds the circuits that name it; they take its rating over. Terminal 1 is towards the battery, 2 towards the loads.",
		Columns: []table.Column{{Head: "Rating", Unit: "A", Number: true}, {Head: "Type"}, {Head: "Box", Wide: true}, {Head: "Holder"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Fuses, func(x build.Fuse) facts.Row {
				holder := "filled"
				if x.Empty {
					holder = "empty"
				}
				return facts.Row{ID: x.Name, Cells: plainCells(number(x.Amps), orElse(x.Type, "blade"), x.Box, holder)}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			fresh := build.Fuse{}
			if list := boxes(s); len(list) == 1 {
				fresh.Box = list[0]
			}
			x := factOf(s.Build.Loom.Fuses, func(x build.Fuse) bool { return x.Name == id }, fresh)
			return []field.Ask{askNumber("amps", "Rating", "A", "never more than the thinnest wire behind it bears", x.Amps), askPick("type", "Type", "how fast it opens depends on it", "not said: blade", build.FuseTypes(), x.Type),
				askPick("box", "Box", "", "in a holder of its own", boxes(s), x.Box), askBox("empty", "Holder", "nothing stands in it", x.Empty)}
		},
		Read: func(f *web.Form, s sheet, id string) build.Change {
			return &build.SetFuse{Fuse: build.Fuse{Name: id, Amps: facts.Number(f, "amps", 1, 0.1, mostAmps), Type: readPick(f, "type", build.FuseTypes()), Box: readPick(f, "box", boxes(s)), Empty: f.Has("empty")}}
		}}
}

// orElse is a word, or what stands for none.
func orElse(word, none string) string {
	if word == "" {
		return none
	}
	return word
}
