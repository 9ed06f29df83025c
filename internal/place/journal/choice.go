package journal

import (
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/mark"
	"fettle/unit"
)

func (s sheet) people() []field.Option {
	list := []field.Option{{Label: "everybody"}}
	for _, code := range s.People {
		list = append(list, field.Option{Value: code, Label: s.name(code), Picked: code == s.Filter.Person})
	}
	return list
}

func (s sheet) kinds() []field.Option {
	list := []field.Option{{Label: "every kind"}}
	for _, k := range s.Kinds {
		list = append(list, field.Option{Value: k, Label: k, Picked: k == s.Filter.Kind})
	}
	return list
}

// back is a day before today, but none before the first entry.
func (s sheet) back(days unit.Date) unit.Date {
	first := unit.DateOf(s.Rows[len(s.Rows)-1].At)
	return max(s.Today-days, first+1)
}

// meaning marks a move: earlier or none is safe.
func (t story) meaning() mark.Meaning {
	if t.Days > 0 {
		return mark.Slipping
	}
	return mark.Safe
}
