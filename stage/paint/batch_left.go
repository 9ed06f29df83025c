package paint

import (
	"fmt"
	"slices"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/figure"
	"fettle/takeoff"
	"fettle/unit"
)

// Batch is what is left of a batch of a product's paint, beside what the job
// still needs once a mix is made. Tins boxed together are one batch.
type Batch struct {
	Name   string
	Tins   []build.Tin
	Left   unit.Volume // now
	After  unit.Volume // once the mix is poured from it
	Enough bool        // After does the rest of the job
	Figure figure.Figure
}

func batchesFor(b *build.Build, p build.Product, mix, still unit.Volume) []Batch {
	var heads []string
	var list []Batch
	for _, t := range b.Tins {
		if t.Product != p.ID || t.Part != 0 || t.Left <= 0 {
			continue
		}
		i := slices.Index(heads, batchOf(t))
		if i < 0 {
			i = len(list)
			heads, list = append(heads, batchOf(t)), append(list, Batch{Name: t.Batch})
		}
		own := &list[i]
		if own.Tins = append(own.Tins, t); t.Batch != "" && !strings.Contains(own.Name, t.Batch) {
			own.Name = strings.TrimPrefix(own.Name+" + "+t.Batch, " + ")
		}
		own.Left += t.Left
	}
	for i := range list {
		list[i].settle(mix, still)
	}
	return list
}

func (a *Batch) settle(mix, still unit.Volume) {
	a.After = max(a.Left-mix, 0)
	a.Enough = a.Left >= mix && a.After >= still
	a.Figure = figure.Figure{Name: "left of batch " + a.Name, Text: a.After.String(), Formula: "in its tins − this mix, beside what the job still needs",
		With: fmt.Sprintf("%s − %s = %s; the rest of the job needs %s", a.Left, mix, a.After, still), Caution: takeoff.Spraying}
	for _, t := range a.Tins {
		a.Figure.Inputs = append(a.Figure.Inputs, figure.Input{Name: "tin " + string(t.ID), Value: t.Left.String(), Source: figure.Measured, Link: "paint/tin/" + string(t.ID)})
	}
}

// pouredOf returns how much of a product's paint, as it comes in the tin, went
// into mixes so far.
func pouredOf(b *build.Build, id build.ProductID) unit.Volume {
	var sum unit.Volume
	for _, m := range b.Pours {
		for _, q := range m.Parts {
			if m.Product == id && q.Part == 0 {
				sum += q.Volume
			}
		}
	}
	return sum
}

// TinsFor returns the tins that hold a part of a product's mix and are not
// empty, those of its own first.
func TinsFor(b *build.Build, p build.Product, part int) []build.Tin {
	var own, other []build.Tin
	for _, t := range b.Tins {
		of := b.Product(t.Product)
		switch {
		case t.Left <= 0 || of == nil:
		case t.Product == p.ID && t.Part == part:
			own = append(own, t)
		case t.Product != p.ID && takeoff.PartName(*of, t.Part) == takeoff.PartName(p, part):
			other = append(other, t)
		}
	}
	return append(own, other...)
}

// Draw divides what was poured of a part among tins: the one named as far as it
// goes, then those of its batch. No tin named is poured from none on record.
// Fault: Invalid where they hold less.
func Draw(b *build.Build, p build.Product, q build.Poured) ([]build.Poured, error) {
	if q.Tin == "" || q.Volume <= 0 {
		return []build.Poured{q}, nil
	}
	from := TinsFor(b, p, q.Part)
	i := slices.IndexFunc(from, func(t build.Tin) bool { return t.ID == q.Tin })
	if i < 0 {
		return nil, fault.New(fault.Invalid, "tin %s holds none of it", q.Tin)
	}
	named := from[i]
	from = append([]build.Tin{named}, slices.Delete(from, i, i+1)...)
	var list []build.Poured
	left, all := q.Volume, q
	for _, t := range from {
		if t.ID != named.ID && (batchOf(t) != batchOf(named) || batchOf(t) == "") {
			continue
		}
		if take := min(left, t.Left); take > 0 {
			list = append(list, build.Poured{Part: q.Part, Tin: t.ID, Volume: take, Mass: unit.Mass(unit.MulDiv(int64(all.Mass), int64(take), int64(all.Volume)))})
			left -= take
		}
	}
	if left > 0 {
		return nil, fault.New(fault.Invalid, "tin %s and those of its batch hold %s", named.ID, q.Volume-left).WithHint("say first what is really in the tin")
	}
	return list, nil
}
