package loom

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/table"
)

// places lists all waypoints and all stretches, those that nothing takes too.
func (p place) places(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	points, ways := s.pointTable(), s.stretchTable()
	switch r.As() {
	case "csv":
		if r.Query("list") == "ways" {
			return r.CSV(r.Build()+"-stretches.csv", ways.Records())
		}
		return r.CSV(r.Build()+"-waypoints.csv", points.Records())
	case "json":
		return r.JSON(map[string]any{"waypoints": s.Build.Loom.Waypoints, "stretches": s.Build.Loom.Stretches})
	}
	return p.desk.Page(r, web.Sheet{Place: "loom", Shown: plural(len(points.Rows), "waypoint") + ", " + strconv.Itoa(len(ways.Rows)) + " stretches"}, showPlaces(s, points, ways))
}

func (s sheet) pointTable() table.Table {
	t := table.Table{ID: "waypoints", Caption: "Waypoints", Self: s.At() + "/route/places?list=points", Empty: "No waypoint yet: touch one in on the drawn vehicle.", Columns: []table.Column{
		{Head: "No."}, {Head: "Where", Wide: true}, {Head: "What"}, {Head: "x", Unit: "mm", Number: true}, {Head: "y", Unit: "mm", Number: true}, {Head: "z", Unit: "mm", Number: true}, {Head: "Circuits", Wide: true}}}
	for _, w := range s.Build.Loom.Waypoints {
		begins, reaches := s.circuitsAt(w.ID)
		t.Rows = append(t.Rows, table.Row{ID: "waypoint-" + string(w.ID), Cells: []table.Cell{table.Link(string(w.ID), s.pointPath(w.ID)), table.Text(w.Name), table.Text(w.What), table.Text(mmOf(w.At[0])), table.Text(mmOf(w.At[1])), table.Text(mmOf(w.At[2])),
			table.Text(strings.TrimSpace(begins + " " + reaches))}})
	}
	return t
}

func (s sheet) stretchTable() table.Table {
	t := table.Table{ID: "stretches", Caption: "Stretches", Self: s.At() + "/route/places?list=ways", Empty: "No stretch yet: join two waypoints.", Columns: []table.Column{
		{Head: "No."}, {Head: "From", Wide: true}, {Head: "To", Wide: true}, {Head: "Length", Unit: "mm", Number: true}, {Head: "Length is"}, {Head: "Wires", Number: true}, {Head: "Sleeve"}, {Head: "Remark", Wide: true}}}
	for _, x := range s.Build.Loom.Stretches {
		how, wires := "straight", ""
		if x.Length > 0 {
			how = "measured"
		}
		if b := s.Loom.Bundle(x.ID); b != nil {
			wires = strconv.Itoa(len(b.Wires))
		}
		t.Rows = append(t.Rows, table.Row{ID: "stretch-" + x.ID, Quiet: x.Forbidden != "", Cells: []table.Cell{table.Link(x.ID, s.stretchPath(x.ID)), table.Text(s.placeName(string(x.From))), table.Text(s.placeName(string(x.To))),
			table.Text(fmt.Sprintf("%.0f", s.Build.Loom.Long(x).Mm())), table.Text(how), table.Text(wires), table.Text(x.Sleeve), table.Text(remark(x))}})
	}
	return t
}

func remark(x build.Stretch) string {
	var words []string
	if x.Forbidden != "" {
		words = append(words, "no wire: "+x.Forbidden)
	}
	if x.Moves {
		words = append(words, "moves")
	}
	if x.Air != "" {
		words = append(words, "air of "+x.Air)
	}
	return strings.Join(words, ", ")
}
