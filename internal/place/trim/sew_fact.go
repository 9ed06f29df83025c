package trim

import (
	"strings"

	"github.com/a-h/templ"

	"fettle/build"
	"fettle/internal/facts"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/unit"
)

// noun is one kind of fact of the sewing.
type noun = facts.Kind[sheet]

// nouns lists them; another one is a line here.
func nouns() []noun {
	return []noun{seamNoun(), threadNoun(), cordNoun(), coverNoun(), foamNoun(), boardNoun(), deadenerNoun(), glueNoun()}
}

// factRoutes are the pages of all of them.
func (p place) factRoutes() []web.Route {
	return facts.Room[sheet]{Desk: p.desk, Place: "trim", Tail: "/trim/sewn", Label: "What the sewing takes", Kinds: nouns, Load: p.load,
		Of: func(s sheet) facts.Base {
			return facts.Base{Build: s.Build, Path: s.Base, Crew: s.Crew, Entry: s.Entry}
		},
		Frame: func(s sheet) templ.Component { return waysOf(s, "/sewn/seam") },
		Drop:  func(key, id string) build.Change { return &build.DropSewn{What: key, ID: id} },
	}.Routes()
}

// maybe reads a length that may be left empty.
func maybe(f *web.Form, name string, low, high int64) unit.Length {
	if strings.TrimSpace(f.Raw(name)) == "" {
		return 0
	}
	return length(f, name, low, high)
}

// maybeNumber reads a number of tenths that may be left empty.
func maybeNumber(f *web.Form, name string, low, high int64) float64 {
	return facts.Maybe(f, name, 1, float64(low), float64(high))
}

// namesIn reads numbers of pieces, panels or seams, parted by blanks or commas.
func namesIn[ID ~string](f *web.Form, name string) []ID {
	var list []ID
	for _, word := range strings.FieldsFunc(strings.ToUpper(f.Raw(name)), func(r rune) bool { return strings.ContainsRune(" ,;\t\r\n", r) }) {
		list = append(list, ID(word))
	}
	return list
}

func joinNames[ID ~string](list []ID) string {
	words := make([]string, len(list))
	for i, id := range list {
		words[i] = string(id)
	}
	return strings.Join(words, " ")
}

// numberText is a number as its field has it; nothing for 0.
func numberText(v float64) string {
	if v == 0 {
		return ""
	}
	return short(v)
}

// partPick are the parts of the list, of which one may cover it.
func (s sheet) partPick(picked build.PartID) []field.Option {
	list := []field.Option{{Label: "none yet", Picked: picked == ""}}
	for _, p := range s.Build.Parts {
		list = append(list, field.Option{Value: string(p.ID), Label: string(p.ID) + " " + p.Name, Picked: p.ID == picked})
	}
	return list
}
