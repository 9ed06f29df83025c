package paint

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/paint"
	"fettle/takeoff"
	"fettle/unit"
)

// nan is a reading that nobody has taken.
var nan = math.NaN()

// when says when the plan lays what goes on next.
func (n coming) when() string {
	if n.Start == 0 {
		return "not planned"
	}
	return "planned " + n.Start.Date().Time().Format("Mon 2 Jan")
}

func square(a unit.Area) string { return strings.TrimSuffix(a.String(), " m²") }

func litre(v unit.Volume) string { return strings.TrimSuffix(v.String(), " l") }

// litres is every product with what it takes.
func (f front) litres() table.Table {
	t := table.Table{ID: "litres", Caption: "Products", Self: f.Base + "/paint", Paper: f.Base + "/paint?as=paper", Empty: "No paint is on the list.", Columns: []table.Column{
		{Head: "Product", Wide: true}, {Head: "Mix by volume"}, {Head: "Coats × dry film"}, {Head: "Surface", Unit: "m²", Number: true},
		{Head: "Ready to spray", Unit: "l", Number: true}, {Head: "Needed for", Wide: true}, {Head: "Recoat, as the sheet says", Wide: true}}}
	for i, p := range f.Build.Products {
		volume, fig := takeoff.Litres(f.Build, p, f.Rates)
		var area unit.Area
		for _, z := range p.Zones {
			area += f.Build.ZoneArea(z)
		}
		fig.Text = litre(volume)
		need := string(p.Task)
		if task := f.Build.Task(p.Task); task != nil {
			need += " " + task.Name
		}
		t.Rows = append(t.Rows, table.Row{ID: "row-" + string(p.ID), Cells: []table.Cell{table.Link(p.Name, f.productPath(p.ID)), table.Text(ratio(p)),
			table.Text(fmt.Sprintf("%d × %s µm", p.Coats*max(p.Rounds, 1), plainNumber(p.Film))), table.Text(square(area)),
			table.Figure("litres-"+strconv.Itoa(i), fig), table.Text(need), table.Text(p.Recoat)}})
	}
	return t
}

// toBuy is every part of every mix with what there is to buy.
func (f front) toBuy() table.Table {
	t := table.Table{ID: "to-buy", Self: f.Base + "/paint?list=to-buy", Caption: "Tins, with a tenth to spare for repairs", Empty: "Nothing is mixed here.", Columns: []table.Column{
		{Head: "Part", Wide: true}, {Head: "Needed", Unit: "l", Number: true}, {Head: "Spare", Unit: "l", Number: true}, {Head: "Came in", Unit: "l", Number: true},
		{Head: "To buy", Number: true}, {Head: "Cost", Unit: f.Build.Currency.Symbol, Number: true}, {Head: "Needed for"}}}
	for i, n := range f.Tins {
		buy := table.Text("–")
		if n.Short > 0 {
			buy = table.Figure("buy-"+strconv.Itoa(i), n.Figure)
		}
		t.Rows = append(t.Rows, table.Row{Quiet: n.Short <= 0, Cells: []table.Cell{table.Text(n.Name), table.Text(litre(n.Need)), table.Text(litre(n.Spare)), table.Text(litre(n.Have)),
			buy, table.Text(strings.TrimPrefix(f.Build.Currency.Format(n.Cost), f.Build.Currency.Symbol)), table.Text(string(n.Task))}})
	}
	return t
}

// zones is every zone with its stack and the sum of its panels.
func (f front) zones() table.Table {
	t := table.Table{ID: "zones", Self: f.Base + "/paint?list=zones", Caption: "Zones and what goes on them, from the metal out", Columns: []table.Column{
		{Head: "Zone", Wide: true}, {Head: "Surface", Unit: "m²", Number: true}, {Head: "Panels", Number: true}, {Head: "Stack", Wide: true}}}
	for i, z := range f.Build.Zones {
		fig, count := f.zoneArea(z)
		stack := stage.Stack(f.Build, z.ID)
		var words []string
		for _, p := range stack {
			words = append(words, p.Name)
		}
		t.Rows = append(t.Rows, table.Row{ID: "zone-" + string(z.ID), Cells: []table.Cell{table.Text(z.Name),
			table.Figure("zone-area-"+strconv.Itoa(i), fig), table.Text(strconv.Itoa(count)),
			table.Show(strings.Join(words, " > "), stackOf(f.sheet, stack))}})
	}
	return t
}

// zoneArea is the sum of a zone's panels and of its surface on no panel.
func (f front) zoneArea(z build.Zone) (figure.Figure, int) {
	fig := figure.Figure{Name: z.Name, Text: square(f.Build.ZoneArea(z.ID)), Formula: "sum of the panels, and of what is on no panel"}
	for _, p := range f.Build.Panels {
		for _, a := range p.Areas {
			if a.Zone == z.ID {
				fig.Inputs = append(fig.Inputs, figure.Input{Name: string(p.ID) + " " + p.FullName(), Value: a.Area.String(), Source: figure.Measured})
			}
		}
	}
	count := len(fig.Inputs)
	if z.Extra > 0 {
		fig.Inputs = append(fig.Inputs, figure.Input{Name: "on no panel", Value: z.Extra.String(), Source: figure.Measured})
	}
	return fig, count
}

// tins is every tin with what is left.
func (s sheet) tins() table.Table {
	t := table.Table{ID: "tins", Caption: "Tins on hand", Self: s.Base + "/paint/tins", Empty: "No tin has come in yet.", Columns: []table.Column{
		{Head: "Tin"}, {Head: "Holds", Wide: true}, {Head: "Batch"}, {Head: "Grade"}, {Head: "Left", Unit: "l", Number: true}, {Head: "Of", Unit: "l", Number: true},
		{Head: "Boxed with"}, {Head: "Came in"}}}
	for _, tin := range s.Build.Tins {
		p := s.Build.Product(tin.Product)
		from := tin.Arrived.Short()
		if tin.Given {
			from = strings.TrimSpace(from + " given")
		}
		t.Rows = append(t.Rows, table.Row{ID: "row-" + string(tin.ID), Quiet: tin.Left == 0, Cells: []table.Cell{table.Link(string(tin.ID), s.tinPath(tin.ID)),
			table.Text(takeoff.PartName(*p, tin.Part)), table.Text(tin.Batch), table.Text(tin.Grade), table.Text(litre(tin.Left)), table.Text(litre(tin.Size)),
			table.Text(string(tin.Boxed)), table.Text(from)}})
	}
	return t
}

func (s sheet) tinPath(id build.TinID) string { return s.Base + "/paint/tin/" + string(id) }

func (s sheet) productPath(id build.ProductID) string { return s.Base + "/paint/product/" + string(id) }

// pours is every mix that was made.
func (s sheet) pours() table.Table {
	t := table.Table{ID: "mixes", Self: s.Base + "/paint?list=mixes", Caption: "Mixes made", Empty: "Nothing was mixed yet.", Columns: []table.Column{
		{Head: "Mix"}, {Head: "Of", Wide: true}, {Head: "At"}, {Head: "For", Wide: true}, {Head: "Mixed", Unit: "l", Number: true}, {Head: "Left over", Unit: "l", Number: true}}}
	for i := len(s.Build.Pours) - 1; i >= 0; i-- {
		m := s.Build.Pours[i]
		left := "not weighed back"
		if m.Weighed != 0 {
			left = litre(m.Left)
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Link(string(m.ID), s.Base+"/paint/pour/"+string(m.ID)), table.Text(s.Build.Product(m.Product).Name),
			table.Text(m.At.Date().Short() + " " + m.At.Clock()), table.Text(panelNames(s.Build, m.Panels, m.Zones)), table.Text(litre(m.Mixed())), table.Text(left)}})
	}
	return t
}
