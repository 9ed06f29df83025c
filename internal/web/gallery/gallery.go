// Package gallery shows every shared part with sample data on one page, for
// looking at the design, and for the tests of accessibility and of the look.
package gallery

import (
	"math"

	"fettle/figure"
	"fettle/internal/web"
	"fettle/internal/web/ui/chart"
	"fettle/internal/web/ui/mark"
	"fettle/internal/web/ui/slip"
	"fettle/internal/web/ui/table"
	"fettle/unit"
)

// Place returns the gallery; it has no plate.
func Place() web.Place {
	return web.Place{Key: "gallery", Routes: []web.Route{
		{Pattern: "GET /gallery", Who: web.Guest, Handle: show},
		{Pattern: "GET /gallery/slip", Who: web.Guest, Handle: showSlip},
		{Pattern: "GET /b/{build}/gallery", Who: web.Guest, Handle: show},
	}}
}

func show(r *web.Request) error {
	return r.Page(sheetOf("every shared part"), parts())
}

func showSlip(r *web.Request) error {
	return r.Page(sheetOf("a knock-on"), slipOnly())
}

func sheetOf(shown string) web.Sheet {
	return web.Sheet{Place: "Gallery", Shown: shown, Vehicle: "1959 panel van", Day: sampleDay, Units: "mm · m² · litres · h · £"}
}

var sampleDay = unit.Day(2026, 10, 6)

var odds = figure.Figure{
	Name: "Ready by 19 Feb", Text: "28 %",
	Formula: "runs that end by the promised day ÷ all runs",
	With:    "561 ÷ 2,000 = 28 %, give or take 2 points",
	Inputs: []figure.Input{
		{Name: "Metal hours", Value: "310 h", Source: figure.Worked, Note: "45 findings, each with three estimates", Link: "/gallery#table"},
		{Name: "Plater's days", Value: "32 d", Source: figure.Sheet, Note: "quote of 2 Oct"},
		{Name: "Pace of metal", Value: "× 1.06", Source: figure.OwnPast, Note: "17 finished findings"},
		{Name: "Absence", Value: "2 % a day", Source: figure.TradeDefault, Note: "change it under Rates"},
	},
	Caution: "A chance is not a promise. It knows nothing of what has not been entered.",
}

var metal = figure.Figure{
	Name: "Metal hours", Text: "310 h", Formula: "sum of the hours of all findings", With: "224 + 86 = 310 h",
	Inputs: []figure.Input{
		{Name: "Found before", Value: "224 h", Source: figure.Measured, Note: "31 findings"},
		{Name: "Found after blast", Value: "86 h", Source: figure.Measured, Note: "14 findings"},
	},
}

var net = figure.Figure{
	Name: "To the cause", Text: "£41,760", Formula: "gifts + sale − fee − cash", With: "38,650 + 58,000 − 2,320 − 52,570 = 41,760",
	Inputs: []figure.Input{{Name: "Sale", Value: "£58,000", Source: figure.Decided, Note: "expected bid; low 46,000, high 71,000"}},
}

func sampleSlip() slip.Slip {
	return slip.Slip{
		Title: "Record 14 findings", Keep: "/gallery", PutBack: "/gallery",
		Note: "Chances from 2,000 runs each, the same luck before and after; give or take 2 points.",
		Lines: []slip.Line{
			{What: "Cash", Before: "£49,860", After: "£52,570", Change: "+£2,710", Weight: 3},
			{What: "Ready by 19 Feb", Before: "94 %", After: "28 %", Change: "slipping", Mark: mark.Slipping, Weight: 9, Figure: &odds, ID: "slip-odds"},
			{What: "Metal hours", Before: "224 h", After: "310 h", Change: "+86 h", Weight: 5, Figure: &metal, ID: "slip-metal"},
			{What: "Even chance by", Before: "15 Feb 2027", After: "23 Feb 2027", Change: "+8 days", Weight: 8},
			{What: "Hides", Before: "3", After: "3", Weight: 1},
			{What: "Order today", Before: "none", After: "Q11, Q12, Q13", Change: "3 more", Weight: 2},
		},
	}
}

func sampleTable() table.Table {
	row := func(id, what, where, size, hours, cost string, m mark.Meaning, word string) table.Row {
		return table.Row{ID: id, Group: where, Cells: []table.Cell{
			table.Link(id, "/gallery#"+id), table.Text(what), table.Text(size), table.Text(hours), table.Text(cost),
			table.Show(word, mark.Show(m, word)),
		}}
	}
	return table.Table{
		ID: "table", Caption: "Findings", Self: "/gallery",
		Columns: []table.Column{
			{Head: "No."}, {Head: "What was found", Wide: true}, {Head: "Size", Unit: "mm", Number: true},
			{Head: "Work", Unit: "h", Number: true}, {Head: "Parts", Unit: "£", Number: true}, {Head: "Date"},
		},
		Rows: []table.Row{
			row("F32", "filler over an old patch", "Roof", "500 × 350", "10.0", "64.00", mark.Tight, "no room left"),
			row("F33", "gutter perforated", "Roof", "640 × 25", "6.0", "0.00", mark.Safe, "6 days of room"),
			row("F35", "foot of the hinge post laced", "Pillars", "140 × 90", "9.0", "38.50", mark.Slipping, "2 days late"),
			row("F36", "foot of the lock post laced", "Pillars", "160 × 110", "8.0", "1,111.75", mark.Lost, "cannot be had"),
		},
		Foot: []table.Cell{table.Text("4"), table.Text("in all"), {}, table.Text("33.0"), table.Text("1,214.25"), {}},
	}
}

// curve is a smooth sample distribution, not a result.
func curve(mid unit.Date, spread float64) []chart.Chance {
	var out []chart.Chance
	for d := mid - 24; d <= mid+30; d++ {
		share := 1 / (1 + math.Exp(-float64(d-mid)/spread))
		out = append(out, chart.Chance{Day: d, Share: share})
	}
	return out
}

func sampleOdds() chart.Odds {
	return chart.Odds{
		Title: "When the van will be ready", Promised: unit.Day(2027, 2, 19),
		Points: curve(unit.Day(2027, 2, 23), 3.4), Before: curve(unit.Day(2027, 2, 14), 2.8),
	}
}

func sampleBars() chart.Bars {
	b := chart.Bars{Title: "Cash out by week", Unit: "£ hundreds", Line: 45, Says: "45 a week is in the tin"}
	for i, v := range []float64{18, 22, 51, 48, 39, 26, 24, 21, 20, 30, 12, 0, 28} {
		b.All = append(b.All, chart.Bar{Label: "wk " + itoa(i+1), Value: v, Text: itoa(int(v)), Over: v > b.Line})
	}
	return b
}
