package takeoff

import (
	"fmt"
	"math"
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/unit"
)

// SpareForRepairs is the part of the paint kept for repairs: a habit of the
// trade.
const SpareForRepairs = 0.10

// Tins is what there is to buy of one part, for all products whose mix has it.
type Tins struct {
	Name   string            `json:"name"`
	For    []build.ProductID `json:"for"`
	Part   int               `json:"part"` // in the mix of the first of them
	Task   build.TaskID      `json:"needed_for"`
	Need   unit.Volume       `json:"need_l"`
	Spare  unit.Volume       `json:"spare_l"`
	Have   unit.Volume       `json:"have_l"` // tins that came in, what was poured from them included
	Short  unit.Volume       `json:"short_l"`
	Size   unit.Volume       `json:"tin_l"` // 0 where nobody knows how it is sold
	Count  int               `json:"tins"`
	Cost   unit.Money        `json:"cost"`
	Figure figure.Figure     `json:"working"`
}

// TinsOf returns every part of every product with what is needed, the spare,
// what came in and what is to buy. Parts of one name are one line.
func TinsOf(b *build.Build, r rates.Rates, spare float64) []Tins {
	var list []Tins
	for _, p := range b.Products {
		if len(p.Zones) == 0 {
			continue
		}
		volume, _ := Litres(b, p, r)
		for _, part := range partsOf(p, volume) {
			i := slices.IndexFunc(list, func(t Tins) bool { return t.Name == part.Name })
			if i < 0 {
				i = len(list)
				list = append(list, Tins{Name: part.Name, Part: part.Part, Task: p.Task})
			}
			list[i].add(p, part)
		}
	}
	for i := range list {
		list[i].settle(b, spare)
	}
	return list
}

func (t *Tins) add(p build.Product, part PartNeed) {
	t.For = append(t.For, p.ID)
	t.Need += part.Volume
	if part.Part < len(p.Parts) && t.Size == 0 {
		t.Size = p.Parts[part.Part].TinSize
	}
	t.Figure.Inputs = append(t.Figure.Inputs, figure.Input{Name: p.Name, Value: part.Volume.String(), Source: figure.Worked, Note: "its part of what is ready to spray"})
}

// settle reckons what is short and how many tins hold it.
func (t *Tins) settle(b *build.Build, spare float64) {
	t.Spare = unit.Volume(math.Round(float64(t.Need) * spare))
	var price unit.Money
	for _, tin := range b.Tins {
		p := b.Product(tin.Product)
		if p != nil && PartName(*p, tin.Part) == t.Name {
			t.Have += tin.Left + pouredFrom(b, tin.ID)
		}
	}
	if p := b.Product(t.For[0]); t.Part < len(p.Parts) {
		price = p.Parts[t.Part].TinPrice
	}
	t.Short = max(t.Need+t.Spare-t.Have, 0)
	if t.Size > 0 {
		t.Count = int((t.Short + t.Size - 1) / t.Size)
	}
	t.Cost = unit.Money(t.Count) * price
	text := t.Short.String()
	if t.Size > 0 {
		text = fmt.Sprintf("%d × %s", t.Count, t.Size)
	}
	t.Figure.Name, t.Figure.Text = t.Name, text
	t.Figure.Formula = "needed + spare for repairs − tins that came in, in whole tins"
	t.Figure.With = fmt.Sprintf("%s + %s − %s = %s short: %s", t.Need, t.Spare, t.Have, t.Short, text)
	t.Figure.Inputs = append(t.Figure.Inputs,
		figure.Input{Name: "spare for repairs", Value: fmt.Sprintf("%.0f %%", 100*spare), Source: figure.TradeDefault},
		figure.Input{Name: "came in", Value: t.Have.String(), Source: figure.Measured})
	t.Figure.Caution = Spraying
}

func pouredFrom(b *build.Build, id build.TinID) unit.Volume {
	var sum unit.Volume
	for _, m := range b.Pours {
		for _, q := range m.Parts {
			if q.Tin == id {
				sum += q.Volume
			}
		}
	}
	return sum
}
