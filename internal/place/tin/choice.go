package tin

import (
	"fettle/build"
	"fettle/internal/web/ui/field"
)

// purposes lists what a payment can be for: lines, loads, then parts that are
// not paid yet.
func (s sheet) purposes(picked string) []field.Option {
	list := []field.Option{{Value: "", Label: "choose what for"}}
	add := func(value, label string) {
		list = append(list, field.Option{Value: value, Label: label, Picked: value == picked})
	}
	for _, c := range s.Build.Costs {
		add("line/"+c.ID, c.Name)
	}
	for _, o := range s.Build.Outwork {
		add("outwork/"+string(o.ID), string(o.ID)+" "+o.What)
	}
	for _, p := range s.Build.Parts {
		if !p.Donated && !s.paid("parts", string(p.ID)) {
			add("parts/"+string(p.ID), string(p.ID)+" "+p.Name)
		}
	}
	add("other/", "something no line foresaw")
	return list
}

func (s sheet) paid(purpose, ref string) bool {
	for _, y := range s.Build.Spent {
		if y.For == purpose && y.Ref == ref {
			return true
		}
	}
	return false
}

// promised lists the gifts that were promised and have not come.
func (s sheet) promised() []field.Option {
	list := []field.Option{{Value: "", Label: "a new gift"}}
	for _, g := range s.Build.Gifts {
		if !g.Received {
			list = append(list, field.Option{Value: g.ID, Label: g.From + ", " + s.Build.Currency.Format(g.Amount)})
		}
	}
	return list
}

// payment returns the payment of that ID, or nil.
func (s sheet) payment(id string) *build.Payment {
	for i := range s.Build.Spent {
		if s.Build.Spent[i].ID == id {
			return &s.Build.Spent[i]
		}
	}
	return nil
}
