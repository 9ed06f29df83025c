// Package facts lists, enters and takes off facts of many kinds by one set of
// pages. A kind is described once: how it is listed, what its form asks, how
// that is read. What the model refuses is told at the field that it belongs to.
package facts

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
)

// Kind is one kind of fact: how it is listed, entered and read. S is what the
// place works out for its pages.
type Kind[S any] struct {
	Key       string // stands in the address
	One, Many string // "a thread", "Threads"
	Says      string // what it is for
	Letter    string // with which a new number begins
	Named     bool   // it goes by a name as typed, not by a number
	Only      bool   // there is one, always
	Final     bool   // once entered it is not altered, only taken off
	Group     string // under which it stands, where kinds are many
	Columns   []table.Column
	List      func(b *build.Build) []Row
	Form      func(s S, id string) []field.Ask // as it stands; empty fields for an id that is not there
	Read      func(f *web.Form, s S, id string) build.Change
}

// Row is a line of the list, the number left out.
type Row struct {
	ID    string
	Cells []table.Cell
}

// Has tells whether one of that number is on the list.
func (k Kind[S]) Has(b *build.Build, id string) bool {
	return slices.ContainsFunc(k.List(b), func(r Row) bool { return r.ID == id })
}

// Next is the number that a new one gets; a name is left to the person.
func (k Kind[S]) Next(b *build.Build) string {
	if k.Named {
		return ""
	}
	return desk.NextID(k.Letter+"%d", len(k.List(b)), func(id string) bool { return k.Has(b, id) })
}

// Word is the kind in a sentence, without its article.
func (k Kind[S]) Word() string {
	_, words, _ := strings.Cut(k.One, " ")
	return words
}

// Title is the kind as a heading has it, without its article.
func (k Kind[S]) Title() string {
	w := k.Word()
	return strings.ToUpper(w[:1]) + w[1:]
}

// read is the number or name that a form gives.
func (k Kind[S]) read(f *web.Form) string {
	if k.Named {
		return f.Text("id", 1, 60)
	}
	return strings.ToUpper(f.Text("id", 1, 12))
}

// Maybe reads a number of so many decimals that may be left empty.
func Maybe(f *web.Form, name string, places int, low, high float64) float64 {
	if strings.TrimSpace(f.Raw(name)) == "" {
		return 0
	}
	return Number(f, name, places, low, high)
}

// Number reads a number of so many decimals.
func Number(f *web.Form, name string, places int, low, high float64) float64 {
	scale := 1.0
	for range places {
		scale *= 10
	}
	return float64(f.Decimal(name, places, int64(low*scale), int64(high*scale))) / scale
}

// fieldOf is the field that a refusal of the model belongs to: the last word of
// its place that a field is called, else the one that its message begins with.
func fieldOf(list []field.Ask, err error) string {
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
	for _, word := range slices.Backward(strings.Split(f.Where, ", ")) {
		if name := named(word); name != "" {
			return name
		}
		if first, _, ok := strings.Cut(word, " "); ok && named(first+"s") != "" {
			return named(first + "s")
		}
	}
	for _, in := range list {
		if strings.HasPrefix(strings.ToLower(f.Msg), strings.ToLower(in.Label)) {
			return in.Name
		}
	}
	return "id"
}
