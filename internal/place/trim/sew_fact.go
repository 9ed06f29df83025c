package trim

import (
	"errors"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

// noun is one kind of fact of the sewing: how it is listed, entered and read.
type noun struct {
	Key       string // as build.DropSewn has it
	One, Many string
	Says      string // what it is for, where there is none yet
	Letter    string // with which a new number begins
	Columns   []table.Column
	list      func(b *build.Build) []nounRow
	form      func(s sheet, id string) []asked // as it stands; empty fields for an id that is not there
	read      func(f *web.Form, s sheet, id string) build.Change
}

// nounRow is a line of the list, the number left out.
type nounRow struct {
	ID    string
	Cells []table.Cell
}

// asked is one field of such a form. Pick makes it a list to pick one from, Tick
// a row of boxes.
type asked struct {
	field.Params
	Pick, Tick []field.Option
	Head       string // stands before it
}

// nouns lists them; another one is a line here.
func nouns() []noun {
	return []noun{seamNoun(), threadNoun(), cordNoun(), coverNoun(), foamNoun(), boardNoun(), deadenerNoun(), glueNoun()}
}

func nounOf(key string) (noun, error) {
	for _, n := range nouns() {
		if n.Key == key {
			return n, nil
		}
	}
	return noun{}, fault.New(fault.NotFound, "nothing of the sewing is called %q", key)
}

// has tells whether one of that number is on the list.
func (n noun) has(b *build.Build, id string) bool {
	return slices.ContainsFunc(n.list(b), func(r nounRow) bool { return r.ID == id })
}

// next is the number that a new one gets.
func (n noun) next(b *build.Build) string {
	return desk.NextID(n.Letter+"%d", len(n.list(b)), func(id string) bool { return n.has(b, id) })
}

// fieldOf is the field that a refusal of the model belongs to: the last word of
// its place that a field is called, else the one that its message begins with.
func fieldOf(list []asked, err error) string {
	var f *fault.Fault
	if !errors.As(err, &f) {
		return "id"
	}
	named := func(word string) string {
		for _, in := range list {
			if in.Name == word || in.Name == word+"-1" {
				return in.Name
			}
		}
		return ""
	}
	places := strings.Split(f.Where, ", ")
	for _, word := range slices.Backward(places) {
		if name := named(word); name != "" {
			return name
		}
	}
	for _, in := range list {
		if strings.HasPrefix(strings.ToLower(f.Msg), strings.ToLower(in.Label)) {
			return in.Name
		}
	}
	return "id"
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
	if strings.TrimSpace(f.Raw(name)) == "" {
		return 0
	}
	return float64(f.Decimal(name, 1, 10*low, 10*high)) / 10
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

// yes is one box to tick.
func yes(label string, on bool) []field.Option {
	return []field.Option{{Value: "yes", Label: label, Picked: on}}
}

// Title is the noun as a heading has it, without its article.
func (n noun) Title() string {
	_, words, _ := strings.Cut(n.One, " ")
	return strings.ToUpper(words[:1]) + words[1:]
}

// shown is what a field says to those who may not change it.
func (in asked) shown() string {
	for _, o := range append(slices.Clone(in.Pick), in.Tick...) {
		if o.Picked && o.Value != "" {
			return o.Label
		}
	}
	return in.Value
}
