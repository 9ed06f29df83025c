package paint

import (
	"slices"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/takeoff"
)

// labelsPage is a sheet of labels to cut and stick on tins. What is typed back
// in, or scanned where a shop prints codes of its own, is the tin's number.
type labelsPage struct {
	sheet
	Tins   []build.Tin
	Picked map[string]bool
	Wrong  field.Errors
}

// showLabels answers with the labels of the tins asked for, or of all that are
// not empty.
func (p place) showLabels(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	f := r.Asked()
	page := labelsPage{sheet: s, Picked: ticked(f, "tin")}
	for id := range page.Picked {
		if s.Build.Tin(build.TinID(id)) == nil {
			f.Fail("tin", "is not on record: "+id)
		}
	}
	for _, t := range s.Build.Tins {
		if page.Picked[string(t.ID)] || len(page.Picked) == 0 && t.Left > 0 {
			page.Tins = append(page.Tins, t)
		}
	}
	shown := web.Sheet{Place: "paint", Shown: "labels of tins"}
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		return r.Invalid(shown, labelsSheet(page))
	}
	return p.desk.Page(r, shown, labelsSheet(page))
}

// options are the tins to print labels for.
func (p labelsPage) options() []field.Option {
	var list []field.Option
	for _, t := range p.Build.Tins {
		picked := slices.ContainsFunc(p.Tins, func(x build.Tin) bool { return x.ID == t.ID })
		list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID), Hint: p.partOf(t), Picked: picked})
	}
	return list
}

func (p labelsPage) partOf(t build.Tin) string {
	return takeoff.PartName(*p.Build.Product(t.Product), t.Part)
}

// labelled is one line of a label.
type labelled struct{ Name, Text string }

// lines are what a label says below the number and the part.
func (p labelsPage) lines(t build.Tin) []labelled {
	product := p.Build.Product(t.Product)
	list := []labelled{{"Part of", product.Name}}
	if product.Name == p.partOf(t) {
		list = nil
	}
	list = append(list, []labelled{{"Batch", t.Batch}, {"Grade", t.Grade}, {"Size", t.Size.String()}}...)
	if t.Arrived != 0 {
		list = append(list, labelled{"Came in", t.Arrived.Long()})
	}
	if end := p.keepsUntil(t); end != 0 {
		list = append(list, labelled{"Keeps until", end.Long()})
	}
	list = append(list, labelled{"Sheet", product.Sheet})
	return slices.DeleteFunc(list, func(l labelled) bool { return l.Text == "" })
}
