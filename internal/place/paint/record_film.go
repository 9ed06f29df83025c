package paint

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/paint"
)

// filmRow is one set of gauge readings with what it says.
type filmRow struct {
	stage.Thickness
	Panel *build.Panel
	Err   string
}

// filmRows are the readings of a panel, or of all, newest first.
func (s sheet) filmRows(panel *build.Panel) []filmRow {
	var list []filmRow
	for _, f := range s.Build.Films {
		if panel != nil && f.Panel != panel.ID {
			continue
		}
		row := filmRow{Panel: s.Build.Panel(f.Panel)}
		var err error
		if row.Thickness, err = stage.ThicknessOf(s.Build, f); err != nil {
			row.Err = err.Error()
		}
		list = append(list, row)
	}
	slices.Reverse(list)
	return list
}

func (p place) measureFilm(r *web.Request) error {
	return p.act(r, "film", func(s sheet, f *web.Form) []build.Change {
		film := build.Film{ID: build.FilmID(next("D", s.Build.Films, func(f build.Film) string { return string(f.ID) })), Panel: build.PanelID(f.Raw("panel")),
			Zone: build.ZoneID(f.Raw("film-zone")), Product: build.ProductID(f.Raw("film-product")), Dry: micrometres(f, "um"), Under: optional(f, "under"),
			At: s.past(f, "read"), By: desk.By(r, s.Build)}
		if s.Build.Panel(film.Panel) == nil {
			f.Fail("panel", "is not chosen")
		}
		if s.Build.Product(film.Product) == nil {
			f.Fail("film-product", "is not chosen")
		}
		if len(f.Errors) == 0 {
			if _, err := stage.ThicknessOf(s.Build, film); err != nil {
				f.Fail("um", "cannot be: "+err.Error()+". "+fault.HintOf(err))
			}
		}
		return []build.Change{&build.MeasureFilm{Film: film}}
	})
}

// micrometres reads µm such as "52 55 49".
func micrometres(f *web.Form, name string) []float64 {
	var list []float64
	for _, word := range strings.FieldsFunc(f.Raw(name), func(c rune) bool { return strings.ContainsRune(" ;/\r\n\t", c) }) {
		v, err := strconv.ParseFloat(pointed(word), 64)
		if err != nil || v < 0 || v > 5000 {
			f.Fail(name, fmt.Sprintf("holds %q, which is no reading in µm such as 52", word))
			return nil
		}
		list = append(list, v)
	}
	if len(list) == 0 {
		f.Fail(name, "is empty: read five places, edges too, such as 52 55 49 50 47")
	}
	return list
}

// coatTable is what was laid, newest first, with the batches it came from.
func (s sheet) coatTable(panel *build.Panel) table.Table {
	t := table.Table{ID: "paint-coats", Caption: "Coats on record", Self: s.Base + "/paint/records", Empty: "No coat is on yet.",
		Columns: []table.Column{{Head: "On at"}, {Head: "Coat", Wide: true}, {Head: "Surface", Wide: true}, {Head: "Panels", Wide: true}, {Head: "Metal", Unit: "°C", Number: true},
			{Head: "Air", Unit: "°C", Number: true}, {Head: "RH", Unit: "%", Number: true}, {Head: "Mix"}, {Head: "Batches", Wide: true}, {Head: "By"}}}
	if panel != nil {
		t.Self = s.Base + "/paint/panel/" + string(panel.ID)
	}
	for _, c := range s.coatsOf(panel) {
		name := string(c.Product)
		if p := s.Build.Product(c.Product); p != nil {
			name = fmt.Sprintf("%s, %d of %d", p.Name, c.Number, p.Coats)
		}
		var zones []string
		for _, z := range c.Zones {
			if panel == nil || c.Covers(*panel, z) && panel.Has(z) {
				zones = append(zones, s.Build.ZoneName(z))
			}
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(c.At.Date().Short() + " " + c.At.Clock()), table.Text(name), table.Text(strings.Join(zones, ", ")),
			table.Text(panelNames(s.Build, c.Panels, c.Zones)), table.Text(plainNumber(c.Metal)), table.Text(plainNumber(c.Air)), table.Text(plainNumber(c.RH)),
			table.Text(string(c.Pour)), table.Text(s.batches(c.Pour)), table.Text(string(c.By))}})
	}
	return t
}

// coatsOf are the coats on a panel, or all, newest first.
func (s sheet) coatsOf(panel *build.Panel) []build.Coat {
	list := slices.Clone(s.Build.Coats)
	if panel != nil {
		list = slices.DeleteFunc(list, func(c build.Coat) bool { return !slices.Contains(c.Panels, panel.ID) })
	}
	slices.SortStableFunc(list, func(a, b build.Coat) int { return int(b.At - a.At) })
	return list
}

// batches are those that a mix was poured from.
func (s sheet) batches(id build.PourID) string {
	m := s.Build.Pour(id)
	if m == nil {
		return ""
	}
	var list []string
	for _, q := range m.Parts {
		if t := s.Build.Tin(q.Tin); t != nil && t.Batch != "" && !slices.Contains(list, t.Batch) {
			list = append(list, t.Batch)
		}
	}
	return strings.Join(list, ", ")
}

// coatJSON is a coat with what can be told of it.
type coatJSON struct {
	build.Coat
	Batches string `json:"batches,omitempty"`
}

func (s sheet) coatsJSON(panel *build.Panel) any {
	coats := []coatJSON{}
	for _, c := range s.coatsOf(panel) {
		coats = append(coats, coatJSON{c, s.batches(c.Pour)})
	}
	films := []build.Film{}
	for _, f := range s.filmRows(panel) {
		films = append(films, f.Reading)
	}
	return map[string]any{"coats": coats, "films": films}
}

// pourOptions are the mixes of the last two days.
func (s sheet) pourOptions(picked string) []field.Option {
	list := []field.Option{{Label: "not said", Picked: picked == ""}}
	for _, m := range s.Build.Pours {
		if p := s.Build.Product(m.Product); p != nil && s.Now-m.At < 48*60 {
			list = append(list, field.Option{Value: string(m.ID), Label: fmt.Sprintf("%s, %s at %s", m.ID, p.Name, m.At.Clock()), Picked: string(m.ID) == picked})
		}
	}
	return list
}

func (s sheet) bayOptions(picked string) []field.Option {
	if picked == "" && len(s.Build.Products) > 0 {
		picked = stage.Booth(s.Build, s.Build.Products[0]).ID
	}
	var list []field.Option
	for _, y := range s.Build.Bays {
		hint := ""
		if y.Clearance > 0 {
			hint = "clears in " + strconv.Itoa(y.Clearance) + " min"
		}
		list = append(list, field.Option{Value: y.ID, Label: y.Name, Hint: hint, Picked: y.ID == picked})
	}
	return list
}

// zonesPicked lists the surfaces, of a panel where the page is about one.
func (p recordPage) zonesPicked() []field.Option {
	var list []field.Option
	for _, z := range p.Build.Zones {
		if p.Panel == nil || p.Panel.Has(z.ID) {
			list = append(list, field.Option{Value: string(z.ID), Label: z.Name, Picked: p.value("film", "film-zone", "") == string(z.ID)})
		}
	}
	return append([]field.Option{{Label: "its face"}}, list...)
}
