package loom

import (
	"math"
	"slices"
	"strings"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
)

// behaviours in words: a lamp's filament takes many times its current when cold.
var behaviours = []field.Option{
	{Value: "", Label: "a resistance: heater, element"}, {Value: "resistance", Label: "a resistance, said outright"}, {Value: "power", Label: "constant power: LED, electronics"},
	{Value: "motor", Label: "a motor"}, {Value: "filament", Label: "a filament: bulb"},
}

func consumerKind() partKind {
	return partKind{Key: "consumer", One: "a consumer", Many: "Consumers", Group: ofLoad, Named: true, Says: "Lamps, motors and whatever else takes current: at which volts it takes it, how it behaves, and how much of the time it is on.",
		Columns: []table.Column{{Head: "Circuits"}, {Head: "Behaves as"}, {Head: "Takes", Number: true}, {Head: "At volts", Unit: "V", Number: true}, {Head: "Share", Unit: "%", Number: true}, {Head: "At"}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Consumers, func(x build.Consumer) facts.Row {
				takes := number(x.Watts) + " W"
				if x.Amps > 0 {
					takes = number(x.Amps) + " A"
				}
				return facts.Row{ID: x.Name, Cells: plainCells(strings.Join(x.Circuits, " "), orElse(x.Behaviour, "resistance"), takes, orEmpty(x.Volts), percentText(x.Share), string(x.At))}
			})
		}, Form: consumerForm, Read: readConsumer}
}

func consumerForm(s sheet, id string) []field.Ask {
	x := factOf(s.Build.Loom.Consumers, func(x build.Consumer) bool { return x.Name == id }, build.Consumer{})
	behaves := field.Pick(slices.Clone(behaviours), x.Behaviour)
	return []field.Ask{
		askWord("circuits", "Circuits", "numbers of those that feed it", strings.Join(x.Circuits, " ")),
		askPick("use", "Use", "headlamp: less may be lost on its way", "other", build.ConsumerUses(), x.Use),
		{Params: field.Params{Name: "behaviour", Label: "It behaves as"}, Pick: behaves},
		askNumber("watts", "Watts", "W", "of its plate; or amps instead", x.Watts), askNumber("amps", "Amps", "A", "metered; or watts instead", x.Amps),
		askNumber("volts", "at", "V", "the volts that watts or amps hold at; empty: the nominal ones", x.Volts),
		askNumber("inrush", "Inrush", "times", "how many times its amps at the start; empty: the habit of its behaviour", x.Inrush), askNumber("inrush_s", "for", "s", "empty: the habit of its behaviour", x.InrushS),
		{Params: field.Params{Name: "share", Label: "On", Unit: "% of the time", Hint: "for the charging balance; empty: as its circuits say", Value: percentText(x.Share), Mode: "decimal", Short: true}},
		{Params: field.Params{Name: "when", Label: "When"}, Tick: []field.Option{
			{Value: "short", Label: "seconds only", Picked: x.Short}, {Value: "night", Label: "on in a wet night at idle", Picked: x.Night}, {Value: "always", Label: "on when all is off", Hint: "clock, memory", Picked: x.Always}}},
		askBox("polarised", "Polarity", "it minds which way round it is", x.Polarised),
		askWord("plus", "Terminal of plus", "empty: +", x.Plus), askWord("minus", "Terminal of minus", "empty: −", x.Minus), s.where(x.At),
	}
}

func readConsumer(f *web.Form, s sheet, id string) build.Change {
	x := build.Consumer{Name: id, Circuits: circuitsIn(f.Raw("circuits")), Use: readPick(f, "use", build.ConsumerUses()), Behaviour: readPick(f, "behaviour", build.Behaviours()),
		Watts: facts.Maybe(f, "watts", 3, 0, 100_000), Amps: facts.Maybe(f, "amps", 4, 0, mostAmps), Volts: facts.Maybe(f, "volts", 2, 0.1, 60),
		Inrush: facts.Maybe(f, "inrush", 2, 0, 100), InrushS: facts.Maybe(f, "inrush_s", 3, 0, 60), Share: facts.Maybe(f, "share", 2, 0, 100) / 100,
		Polarised: f.Has("polarised"), Plus: f.Text("plus", 0, 20), Minus: f.Text("minus", 0, 20), At: s.readWhere(f)}
	when := f.All("when")
	x.Short, x.Night, x.Always = slices.Contains(when, "short"), slices.Contains(when, "night"), slices.Contains(when, "always")
	if f.Err() == nil && (x.Watts > 0) == (x.Amps > 0) {
		f.Fail("watts", "and amps: say one of them")
	}
	return &build.SetConsumer{Consumer: x}
}

func exclusiveKind() partKind {
	return partKind{Key: "never-together", One: "a group never on together", Many: "Never together", Group: ofLoad, Letter: "X", Says: "Left and right indicators, main and dipped beam: of what is never on together only the most counts for a fuse and for charging.",
		Columns: []table.Column{{Head: "Never together", Wide: true}, {Head: "Why", Wide: true}},
		List: func(b *build.Build) []facts.Row {
			return rowsFor(b.Loom.Exclusives, func(x build.Exclusive) facts.Row {
				return facts.Row{ID: x.ID, Cells: plainCells(strings.Join(x.Never, ", "), x.Why)}
			})
		},
		Form: func(s sheet, id string) []field.Ask {
			x := factOf(s.Build.Loom.Exclusives, func(x build.Exclusive) bool { return x.ID == id }, build.Exclusive{})
			return []field.Ask{askLines("never", "Never on together", "a line each: numbers of circuits or names of consumers", strings.Join(x.Never, "\n"), 4), askWord("why", "Why", "such as one lever: left or right", x.Why)}
		},
		Read: func(f *web.Form, _ sheet, id string) build.Change {
			x := build.Exclusive{ID: id, Never: linesIn(f.Raw("never")), Why: f.Text("why", 1, 120)}
			if len(x.Never) < 2 {
				f.Fail("never", "names fewer than two: write a line each")
			}
			return &build.SetExclusive{Exclusive: x}
		}}
}

// percentText is a share as it is typed.
func percentText(share float64) string { return orEmpty(math.Round(10_000*share) / 100) }

// linesIn reads one name a line.
func linesIn(text string) []string {
	var list []string
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" {
			list = append(list, line)
		}
	}
	return list
}
