package loom

import (
	"strings"

	"fettle/internal/web"
	"fettle/internal/web/ui/field"
)

// formed is a form of one thing: its fields as they were typed where something
// in them is wrong, else as the thing stands.
type formed struct {
	Errs field.Errors
	raw  func(string) string
}

// typed is a form to be put right.
func typed(f *web.Form) formed { return formed{Errs: f.Errors, raw: f.Raw} }

// value is what a field holds: as typed, or as it stands.
func (p formed) value(name, now string) string {
	if p.raw != nil {
		return p.raw(name)
	}
	return now
}

func (p formed) field(name, label, now string, more field.Params) field.Params {
	more.Name, more.Label, more.Value, more.Error = name, label, p.value(name, now), p.Errs.Of(name)
	return more
}

// pick is a list of one of which the field holds the value.
func (p formed) pick(name, now string, options []field.Option) []field.Option {
	return field.Pick(options, p.value(name, now))
}

// names parts a typed list such as "C08, C09".
func names(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == ';' || r == '\n' })
}
