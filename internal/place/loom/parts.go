package loom

import (
	"slices"
	"strings"

	"github.com/a-h/templ"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
)

// partKind is one kind of part of the loom.
type partKind = facts.Kind[sheet]

// kinds lists them, group by group; another one is a line here.
func kinds() []partKind {
	return []partKind{
		batteryKind(), alternatorKind(), boxKind(), fuseKind(),
		consumerKind(), exclusiveKind(),
		switchKind(), relayKind(),
		connectorKind(), jointKind(), wireKind(), cableKind(),
		readingKind(), crimpKind(), settingsKind(),
	}
}

// Groups of kinds.
const (
	ofSupply = "What feeds it"
	ofLoad   = "What takes current"
	ofHand   = "What switches"
	ofJoin   = "What joins"
	ofBench  = "What was tried, and how it is reckoned"
)

func (p place) partRoutes() []web.Route {
	return append(facts.Room[sheet]{Desk: p.desk, Place: "loom", Tail: "/loom/parts", Label: "Parts of the loom", Kinds: kinds, Load: p.load,
		Of: func(s sheet) facts.Base {
			return facts.Base{Build: s.Build, Path: s.Base, Crew: s.Crew, Entry: s.Entry}
		},
		Frame: func(s sheet) templ.Component { return waysOf(s, "/parts") },
		Help:  partHelp,
		Drop: func(key, id string) build.Change {
			return &build.DropWired{What: strings.ReplaceAll(key, "-", " "), ID: id}
		},
	}.Routes(), web.Route{Pattern: "GET /b/{build}/loom/parts", Who: web.Guest, Handle: p.parts})
}

// partsPage is all kinds with what there is of each.
type partsPage struct {
	sheet
	Groups []partGroup
}

type partGroup struct {
	Name  string
	Kinds []partLine
}

// partLine is one kind: the names of what is entered.
type partLine struct {
	partKind
	Names []string
}

func (p place) parts(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(s.Build.Loom)
	}
	page := partsPage{sheet: s}
	for _, k := range kinds() {
		l := partLine{partKind: k}
		for _, row := range k.List(s.Build) {
			l.Names = append(l.Names, row.ID)
		}
		if n := len(page.Groups); n == 0 || page.Groups[n-1].Name != k.Group {
			page.Groups = append(page.Groups, partGroup{Name: k.Group})
		}
		g := &page.Groups[len(page.Groups)-1]
		g.Kinds = append(g.Kinds, l)
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: "parts"}, showParts(page))
}

// Some names the first few.
func (l partLine) Some() string {
	const most = 6
	if len(l.Names) <= most {
		return strings.Join(l.Names, ", ")
	}
	return strings.Join(l.Names[:most], ", ") + " …"
}

// askWord is a field of words, askNumber one of digits with its unit.
func askWord(name, label, hint, value string) field.Ask {
	return field.Ask{Params: field.Params{Name: name, Label: label, Hint: hint, Value: value}}
}

func askNumber(name, label, unit, hint string, value float64) field.Ask {
	return field.Ask{Params: field.Params{Name: name, Label: label, Unit: unit, Hint: hint, Value: orEmpty(value), Mode: "decimal", Short: true}}
}

func askLines(name, label, hint, value string, rows int) field.Ask {
	return field.Ask{Params: field.Params{Name: name, Label: label, Hint: hint, Value: value, Rows: rows}}
}

func askBox(name, label, says string, on bool) field.Ask {
	return field.Ask{Params: field.Params{Name: name, Label: label}, Tick: field.Yes(says, on)}
}

// askPick is a list to pick one of; said is what stands for nothing picked.
func askPick(name, label, hint, said string, words []string, picked string) field.Ask {
	return field.Ask{Params: field.Params{Name: name, Label: label, Hint: hint}, Pick: askOptions(said, words, picked)}
}

func askOptions(said string, words []string, picked string) []field.Option {
	list := []field.Option{{Label: said, Picked: picked == ""}}
	for _, w := range words {
		if w != "" {
			list = append(list, field.Option{Value: w, Label: w, Picked: w == picked})
		}
	}
	return list
}

// readPick reads such a list.
func readPick(f *web.Form, name string, words []string) string {
	return f.Choice(name, append(slices.Clone(words), "")...)
}

// where is where a part sits on the body.
func (s sheet) where(at build.WaypointID) field.Ask {
	list := []field.Option{{Label: "not said", Picked: at == ""}}
	for _, w := range s.Build.Loom.Waypoints {
		label := string(w.ID)
		if w.Name != "" {
			label += " " + w.Name
		}
		list = append(list, field.Option{Value: string(w.ID), Label: label, Picked: w.ID == at})
	}
	return field.Ask{Params: field.Params{Name: "at", Label: "Sits at", Hint: "a waypoint of the route"}, Pick: list}
}

func (s sheet) readWhere(f *web.Form) build.WaypointID {
	return build.WaypointID(f.Choice("at", field.Values(s.where("").Pick)...))
}

// namesIn reads words parted by blanks, commas or new lines.
func namesIn(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;\t\r\n", r) })
}

// circuitsIn reads numbers of circuits.
func circuitsIn(text string) []string { return namesIn(strings.ToUpper(text)) }
