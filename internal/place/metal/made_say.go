package metal

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fettle/geom"
	"fettle/internal/flatwork"
	"fettle/internal/web/ui/field"
	relief "fettle/internal/web/ui/surface"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/metal"
)

// formedAs is the class of a face by what is done to its sheet.
func formedAs(ratio, near float64) relief.Class {
	switch {
	case near >= 0.9:
		return relief.Past
	case ratio > 1.05:
		return relief.Hard
	case ratio > 1.01:
		return relief.Pulled
	case ratio < 1/1.05:
		return relief.Wrinkles
	case ratio < 1/1.01:
		return relief.Eased
	}
	return relief.Lies
}

// formedWords say what a class asks of a metalworker, and what it means.
var formedWords = [relief.Classes][2]string{
	relief.Lies: {"stays as it is", "within 1 %"}, relief.Pulled: {"stretch: hammer or wheel", "+1 to +5 %"}, relief.Hard: {"stretch much, in passes", "over +5 %"},
	relief.Past: {"at its forming limit: split the panel", "90 % of the limit or more"}, relief.Eased: {"shrink: tuck or shrinker", "−1 to −5 %"}, relief.Wrinkles: {"shrink much: tucks, or cut and weld", "over −5 %"},
}

// formedBand is one line of the legend.
type formedBand struct {
	Class       relief.Class
	Does, Means string
	Share       float64
}

func (page madePage) bands() []formedBand {
	var area [relief.Classes]float64
	var whole float64
	for i, c := range page.Class {
		area[c] += page.Panel.Areas[i]
		whole += page.Panel.Areas[i]
	}
	var list []formedBand
	for _, c := range []relief.Class{relief.Past, relief.Hard, relief.Pulled, relief.Lies, relief.Eased, relief.Wrinkles} {
		list = append(list, formedBand{c, formedWords[c][0], formedWords[c][1], area[c] / whole})
	}
	return list
}

// steels are the steels of EN 10130 by what they are sold for.
func steels(picked string) []field.Option {
	sold := map[string]string{"DC01": "for folding", "DC03": "for drawing", "DC04": "for deep drawing", "DC05": "for special deep drawing", "DC06": "for extra deep drawing"}
	var list []field.Option
	for _, g := range stage.Grades() {
		list = append(list, field.Option{Value: g, Label: strings.TrimSpace(g + " " + sold[g]), Picked: g == picked})
	}
	return list
}

// signed writes a share in per cent with its sign, a true minus.
func signed(share float64) string {
	return strings.Replace(fmt.Sprintf("%+.1f", 100*share), "-", "−", 1)
}

// board is the panel and its sheet as the moving view has them.
func (page madePage) board() relief.Board {
	b := relief.Board{Name: page.Surface.Name, Side: page.Side, Cut: "cut", Path: page.sidePath, Coming: page.Work.Open(),
		On: "The panel. Flags are the places of the table below.", Laid: "The sheet it is made of, net of what is left over. Broken lines are folds."}
	for c, w := range formedWords {
		b.Words[c] = w[0]
	}
	b.Solid = relief.Solid{Points: page.Mesh.Points, Faces: page.Mesh.Faces, Class: page.Class, Marks: relief.Marks(page.Mesh.BoundaryLoops())}
	if page.Panel == nil {
		return b
	}
	for i, at := range page.Places {
		b.Solid.Spots = append(b.Solid.Spots, relief.Spot{Face: at.Face, Label: strconv.Itoa(i + 1)})
	}
	r := page.Panel.Result
	b.Solid.Cuts = r.Cuts
	b.Flat = &relief.Flat{Points: r.Flat.Points, Faces: r.Flat.Faces, Class: page.Class, Spots: b.Solid.Spots}
	for _, bend := range page.Panel.Bends {
		b.Flat.Lines = append(b.Flat.Lines, [2]geom.Point{bend.From, bend.To})
	}
	b.Source = r.Flat.Source
	b.Measures = []relief.Measure{
		relief.Measured("area", len(r.Faces), func(i int) float64 { return page.Panel.Ratio(i) - 1 }),
		relief.Measured("at most one way", len(r.Faces), func(i int) float64 { return r.Faces[i].Stretch[0] }),
		relief.Measured("the other", len(r.Faces), func(i int) float64 { return r.Faces[i].Stretch[1] }),
		relief.Measured("thickness", len(r.Faces), func(i int) float64 { return r.Faces[i].Thick }),
	}
	return b
}

// placeTable is where the panel is worked, in numbers.
func (page madePage) placeTable() table.Table {
	t := table.Table{ID: "places", Caption: "Where to stretch and where to shrink", Empty: "No place changes by more than 1 % of its area.", Columns: []table.Column{{Head: "No.", Number: true}, {Head: "What is done there", Wide: true}, {Head: "Area", Unit: "%", Number: true}, {Head: "Sheet left", Unit: "mm", Number: true}, {Head: "Of its limit", Unit: "%", Number: true}, {Head: "From the edge", Unit: "mm", Number: true}}}
	for i, at := range page.Places {
		figs := at.Figures(*page.Panel)
		figs[0].Text, figs[1].Text, figs[2].Text = signed(at.Ratio-1), fmt.Sprintf("%.2f", at.Gauge), fmt.Sprintf("%.0f", 100*math.Max(0, at.Near))
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(strconv.Itoa(i + 1)), table.Text(at.Says()), table.Figure(fmt.Sprintf("area-%d", i), figs[0]), table.Figure(fmt.Sprintf("left-%d", i), figs[1]), table.Figure(fmt.Sprintf("near-%d", i), figs[2]), table.Text(fmt.Sprintf("%.0f", at.From))}})
	}
	return t
}

// cutTable is every relief cut with both its edges on the sheet.
func (page madePage) cutTable() table.Table {
	t := table.Table{ID: "joints", Caption: "Cuts, brought together and welded", Columns: []table.Column{{Head: "Cut", Wide: true}, {Head: "On the panel", Unit: "mm", Number: true}, {Head: "Left edge", Unit: "mm", Number: true}, {Head: "Right edge", Unit: "mm", Number: true}, {Head: "Gap on the sheet", Unit: "mm", Number: true}}}
	for i, j := range page.Panel.Joints() {
		name := fmt.Sprintf("%d, drawn", i+1)
		if !j.Asked {
			name = fmt.Sprintf("%d, needed so that it lies flat at all", i+1)
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(name), table.Text(fmt.Sprintf("%.0f", j.On)), table.Text(fmt.Sprintf("%.1f", j.Sides[0])), table.Text(fmt.Sprintf("%.1f", j.Sides[1])), table.Text(fmt.Sprintf("%.1f", j.Opens))}})
	}
	return t
}

// bendTable are the places where the sheet is folded rather than stretched.
func (page madePage) bendTable() table.Table {
	t := table.Table{ID: "folds", Caption: "Where it is folded rather than stretched", Empty: "No straight fold is in it.", Columns: []table.Column{{Head: "Fold", Number: true}, {Head: "Length", Unit: "mm", Number: true}, {Head: "Way"}, {Head: "Angle", Unit: "°", Number: true}, {Head: "Radius", Unit: "mm", Number: true}}}
	for i, b := range page.Panel.Bends {
		way := "up"
		if b.Angle > 0 {
			way = "down" // away from the outside
		}
		figs := page.Panel.BendFigures(b)
		figs[0].Text, figs[1].Text = fmt.Sprintf("%.0f", math.Abs(b.Angle)*180/math.Pi), fmt.Sprintf("%.1f", b.Radius)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(fmt.Sprint(i + 1)), table.Text(fmt.Sprintf("%.0f", b.From.Distance(b.To))), table.Text(way), table.Figure(fmt.Sprintf("angle-%d", i), figs[0]), table.Figure(fmt.Sprintf("radius-%d", i), figs[1])}})
	}
	return t
}

// offered is what the search for relief cuts says.
func (page madePage) offered() relief.Offered {
	return page.Search.Offered(flatwork.Words{Title: "Where a cut would help",
		None:  "Laid out for the hand, no place is formed by more than 5 % one way, or no cut brings it lower: form it in one piece.",
		Says:  "Each is taken by a touch, and none by itself. The first lines build on each other from the top. A dart's sides meet and are butt-welded; a slit is filled with a strip. That 5 % is easy by hand is a habit of the bench, an assumption.",
		Stale: "Looked for with other cuts, or for another sheet: these no longer fit what is drawn. Look again.",
		Kinds: [4]string{"dart", "slit", "parting cut", "cut from a hole"},
		Gains: func(outside, _ float64) string {
			return fmt.Sprintf("%.1f %% of the panel is still formed by more than 5 %% one way once it is made.", 100*outside)
		}}, page.withCut)
}
