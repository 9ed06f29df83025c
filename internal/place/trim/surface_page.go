package trim

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/geom/mesh"
	"fettle/internal/flatwork"
	"fettle/internal/job"
	"fettle/internal/surfacein"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/progress"
	"fettle/internal/web/ui/surface"
	"fettle/internal/web/ui/table"
	stage "fettle/stage/trim"
)

// flatPage is a surface and its flat pattern side by side.
type flatPage struct {
	sheet
	acts
	Surface build.Surface
	Mesh    mesh.Mesh
	Ask     stage.FlatAsk
	Cuts    string // as the field has them
	Flat    *stage.Flattened
	Class   []surface.Class
	Spots   []surface.Spot
	Bands   []surface.Band
	Side    surface.Named
	Places  []stage.Place
	Seams   []stage.SeamSides
	Parts   []stage.FlatPart
	Search  flatwork.Work // for seams
	Trouble string
	Shown   drawnFaces
	Work    *job.Job // that lays it flat, where a page cannot wait
	Coming  progress.Params
	MayAsk  bool   // for such work
	Older   bool   // what is shown was asked for before
	LaidBy  string // the key of the work that laid it flat; empty where none did
	grain   string
	asked   func(name string) string // a field of what is asked as it was typed
}

func (p place) surface(r *web.Request) error {
	page, err := p.flatPage(r, r.Asked())
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(map[string]any{"surface": page.Surface, "flat": page.board().Said(false), "seams": page.Seams})
	}
	if r.Partial() {
		return r.Fragment(flatTold(page), surface.Data(page.board(), false))
	}
	return p.desk.Page(r, page.dressed(), showFlat(page))
}

func (page flatPage) dressed() web.Sheet {
	return web.Sheet{Place: "trim", Shown: "surface " + string(page.Surface.ID) + " laid flat", Shell: lightShell, Scripts: []string{surface.Script}}
}

// flatPage reads what is asked of a surface and lays it flat. What is wrong with
// the form stands on the page; the surface is shown all the same.
func (p place) flatPage(r *web.Request, f *web.Form) (flatPage, error) {
	s, err := p.load(r)
	if err != nil {
		return flatPage{}, err
	}
	page := flatPage{sheet: s, Side: surface.Side(f.Raw("side"))}
	if page.Surface, page.Mesh, err = p.surfaceOf(r, s); err != nil {
		return page, err
	}
	page.Ask, page.Cuts, page.grain = askedFlat(f)
	page.asked = f.Raw
	page.acts = acts{Open: "flat", Wrong: f.Errors, typed: nil}
	if f.Err() == nil {
		page.lay(r.Context(), p.desk.Jobs)
	}
	page.thin()
	page.coming(r)
	return page, p.searched(r, f, &page)
}

// askedFlat reads what is asked of a surface.
func askedFlat(f *web.Form) (a stage.FlatAsk, cuts, grain string) {
	a.Material = "leather"
	if f.Raw("material") != "" {
		a.Material = f.Choice("material", stage.LaidAs()...)
	}
	for i, way := range [2]string{"along", "across"} {
		if strings.TrimSpace(f.Raw("pull-"+way)) != "" {
			a.Pull[i] = float64(f.Decimal("pull-"+way, 1, 1, 1000)) / 1000
		}
		if strings.TrimSpace(f.Raw("push-"+way)) != "" {
			a.Squeeze[i] = float64(f.Decimal("push-"+way, 1, 1, 500)) / 1000
		}
	}
	a.Cuts = surfacein.Cuts(f, "cuts")
	if grain = strings.TrimSpace(f.Raw("grain")); grain != "" {
		list, err := surfacein.Vertices(grain)
		if err != nil || len(list) != 2 {
			f.Fail("grain", "is not two vertices such as 12 340")
		} else {
			a.Grain = [2]int32(list)
		}
	}
	return a, strings.TrimSpace(f.Raw("cuts")), grain
}

// laid takes a flat pattern, and works out all that is said of it.
func (page *flatPage) laid(flat stage.Flattened) {
	page.Flat = &flat
	page.Class = make([]surface.Class, len(flat.Result.Faces))
	for i := range page.Class {
		page.Class[i] = classOf(flat.Use(i))
	}
	page.Places, page.Seams, page.Parts = flat.Places(3), flat.Sides(), flat.Parts()
	for i, at := range page.Places {
		page.Spots = append(page.Spots, surface.Spot{Face: at.Face, Label: strconv.Itoa(i + 1)})
	}
	page.Bands = page.bands()
}

// The shares of what a material bears at which a class begins.
const (
	byHand = 0.25
	hard   = 0.6
)

// classOf is the class of a face by how much of what it bears it is pulled and
// pushed together.
func classOf(pulled, pushed float64) surface.Class {
	switch {
	case pushed > 1 && pushed >= pulled:
		return surface.Wrinkles
	case pulled > 1:
		return surface.Past
	case pushed > pulled && pushed > byHand:
		return surface.Eased
	case pulled > hard:
		return surface.Hard
	case pulled > byHand:
		return surface.Pulled
	}
	return surface.Lies
}

// bands are the legend: what each class stands for, and its share of the area.
func (page *flatPage) bands() []surface.Band {
	var area [surface.Classes]float64
	var whole float64
	for i, c := range page.Class {
		area[c] += page.Flat.Areas[i]
		whole += page.Flat.Areas[i]
	}
	pull, push := page.Flat.Limits()
	between := func(of float64, from, to float64, sign string) string {
		if math.IsInf(to, 1) {
			return "over " + sign + tenths(of*from)
		}
		return sign + tenths(of*from) + " to " + sign + tenths(of*to)
	}
	ends := [surface.Classes]struct {
		from, to float64
		push     bool
	}{surface.Pulled: {byHand, hard, false}, surface.Hard: {hard, 1, false}, surface.Past: {1, math.Inf(1), false}, surface.Eased: {byHand, 1, true}, surface.Wrinkles: {1, math.Inf(1), true}}
	var list []surface.Band
	for _, c := range []surface.Class{surface.Past, surface.Hard, surface.Pulled, surface.Lies, surface.Eased, surface.Wrinkles} {
		b := surface.Band{Class: c, Share: area[c] / whole}
		of, sign := pull, "+"
		if ends[c].push {
			of, sign = push, "−"
		}
		if c == surface.Lies {
			b.Along, b.Cross = "−"+tenths(push[0]*byHand)+" to +"+tenths(pull[0]*byHand), "−"+tenths(push[1]*byHand)+" to +"+tenths(pull[1]*byHand)
		} else {
			b.Along, b.Cross = between(of[0], ends[c].from, ends[c].to, sign), between(of[1], ends[c].from, ends[c].to, sign)
		}
		list = append(list, b)
	}
	return list
}

func tenths(share float64) string { return fmt.Sprintf("%.1f", 100*share) }

// signed writes a strain in per cent with its sign, a true minus.
func signed(share float64) string {
	text := fmt.Sprintf("%+.1f", 100*share)
	if strings.Trim(text, "+-0.") == "" {
		return "0.0"
	}
	return strings.Replace(text, "-", "−", 1)
}

// Sum says in a sentence what came of it.
func (page flatPage) Sum() string {
	switch {
	case page.Older:
		return page.Trouble + " Below is what was laid flat last: " + page.said()
	case page.Trouble != "":
		return page.Trouble
	case page.Flat == nil:
		return "Nothing is laid flat yet."
	}
	return page.said()
}

// said sums up what is laid flat.
func (page flatPage) said() string {
	m := page.Flat.Result.Material
	n := len(page.Parts)
	words := fmt.Sprintf("In %s, %.3f m²: ", piecesWord(n), page.area())
	if m.Outside < 0.0005 {
		return words + "no part of it is outside what the material bears."
	}
	return words + fmt.Sprintf("%.1f %% of it is outside what the material bears.", 100*m.Outside)
}

// area is that of the flat pattern in m².
func (page flatPage) area() float64 {
	var sum float64
	points, faces := page.Flat.Flatten()
	for _, f := range faces {
		sum += points[f[1]].Sub(points[f[0]]).Cross(points[f[2]].Sub(points[f[0]])) / 2
	}
	return sum / 1e6
}

func (page flatPage) solid() surface.Solid {
	s := surface.Solid{Points: page.Mesh.Points, Faces: page.Shown.Solid, Class: page.shownClass(), Spots: page.shownSpots(), Marks: surface.Marks(page.Mesh.BoundaryLoops())}
	if page.Flat != nil {
		s.Cuts = page.Flat.Result.Cuts
	}
	return s
}

// shownClass are the classes of the faces that are drawn.
func (page flatPage) shownClass() []surface.Class {
	if page.Flat == nil {
		return nil
	}
	list := make([]surface.Class, len(page.Shown.Of))
	for i, face := range page.Shown.Of {
		list[i] = page.Class[face]
	}
	return list
}

// shownSpots are the places of the table, each on the drawn face nearest to it.
func (page flatPage) shownSpots() []surface.Spot {
	middle := func(f int32) mesh.Vec {
		t := page.Mesh.Faces[f]
		return page.Mesh.Points[t[0]].Add(page.Mesh.Points[t[1]]).Add(page.Mesh.Points[t[2]])
	}
	var list []surface.Spot
	for _, s := range page.Spots {
		at, best := middle(s.Face), 0
		for i, face := range page.Shown.Of {
			if middle(face).Sub(at).Length() < middle(page.Shown.Of[best]).Sub(at).Length() {
				best = i
			}
		}
		list = append(list, surface.Spot{Face: int32(best), Label: s.Label})
	}
	return list
}

func (page flatPage) flat() surface.Flat {
	return surface.Flat{Points: page.Flat.Result.Flat.Points, Faces: page.Shown.Flat, Class: page.shownClass(), Spots: page.shownSpots()}
}

// numbers is the table of least and most.
func (page flatPage) numbers() table.Table {
	t := table.Table{ID: "strain", Caption: "How far it is pulled when it is put on", Columns: []table.Column{{Head: "Direction", Wide: true}, {Head: "Least", Unit: "%", Number: true}, {Head: "Most", Unit: "%", Number: true}, {Head: "It bears", Unit: "%"}}}
	m := page.Flat.Result.Material
	pull, push := page.Flat.Limits()
	for i, row := range []struct {
		words string
		ends  [2]float64
	}{{"along the backbone or the roll", m.Along}, {"across", m.Across}} {
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(row.words), page.stretched("least-", i, row.words, row.ends[0], i), page.stretched("most-", i, row.words, row.ends[1], i), table.Text("−" + tenths(push[i]) + " to +" + tenths(pull[i]))}})
	}
	return t
}

// stretched is a mounting stretch with its working: along or across, of a line
// of a table.
func (page flatPage) stretched(id string, line int, of string, strain float64, way int) table.Cell {
	fig := page.Flat.Stretch("stretch "+of, strain, way)
	fig.Text = signed(strain)
	return table.Figure(fmt.Sprintf("%s%d", id, line), fig)
}

// places is the table of where to pull by hand and where it wrinkles.
func (page flatPage) placesTable() table.Table {
	t := table.Table{ID: "places", Caption: "Where to pull, and where it wrinkles", Empty: "No place takes more than a quarter of what the material bears.", Columns: []table.Column{{Head: "No", Number: true}, {Head: "What", Wide: true}, {Head: "Along", Unit: "%", Number: true}, {Head: "Across", Unit: "%", Number: true}}}
	for i, at := range page.Places {
		s := page.Flat.Result.Faces[at.Face]
		words := "pull here by hand"
		switch {
		case at.What == "wrinkles":
			words = "wrinkles: a dart or a seam belongs here, or steam and a glued back"
		case at.Share > 1:
			words = "asks for more than it bears: cut here"
		case at.Share > hard:
			words = "pull hard, with warmth"
		}
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(strconv.Itoa(i + 1)), table.Text(words), page.stretched("along-", i, fmt.Sprintf("along, at place %d", i+1), s.Along, 0), page.stretched("across-", i, fmt.Sprintf("across, at place %d", i+1), s.Across, 1)}})
	}
	return t
}

// seamTable is every cut with both its sides.
func (page flatPage) seamTable() table.Table {
	t := table.Table{ID: "seams", Caption: "Seams and darts, as they are sewn shut", Empty: "It is not cut.", Columns: []table.Column{{Head: "Seam", Wide: true}, {Head: "On the surface", Unit: "mm", Number: true}, {Head: "Left side", Unit: "mm", Number: true}, {Head: "Right side", Unit: "mm", Number: true}, {Head: "Ease", Unit: "%", Number: true}, {Head: "Most between notches", Unit: "%", Number: true}}}
	for i, s := range page.Seams {
		name := fmt.Sprintf("%d, drawn", i+1)
		if !s.Asked {
			name = fmt.Sprintf("%d, needed so that it lies flat at all", i+1)
		}
		var most float64
		for _, in := range s.Intervals {
			if math.Abs(in.Ease) > math.Abs(most) {
				most = in.Ease
			}
		}
		ease := stage.EaseOf("ease of seam "+strconv.Itoa(i+1), s.Sides[0], s.Sides[1], s.Ease)
		ease.Text = signed(s.Ease)
		t.Rows = append(t.Rows, table.Row{Cells: []table.Cell{table.Text(name), table.Text(fmt.Sprintf("%.0f", s.On)), table.Text(fmt.Sprintf("%.1f", s.Sides[0])), table.Text(fmt.Sprintf("%.1f", s.Sides[1])), table.Figure(fmt.Sprintf("ease-%d", i), ease), table.Text(signed(most))}})
	}
	return t
}

// materials are the ways to lay it flat.
func (page flatPage) materials() []field.Option {
	return field.Pick([]field.Option{{Value: "leather", Label: "leather"}, {Value: "vinyl", Label: "vinyl"}, {Value: "cloth", Label: "cloth", Hint: "woven: shears freely"}, {Value: "stiff", Label: "as it is", Hint: "nothing gives"}}, page.Ask.Material)
}

// limit is a limit as its field has it: as it was typed where that is wrong.
func (page flatPage) limit(name string, share float64) string {
	switch {
	case page.Wrong.Of(name) != "":
		return page.asked(name)
	case share == 0:
		return ""
	}
	return short(100 * share)
}

// pieceOptions are the pieces that the pattern can be kept for.
func (page flatPage) pieceOptions() []field.Option {
	var list []field.Option
	for _, p := range page.Build.Pieces {
		list = append(list, field.Option{Value: string(p.ID), Label: string(p.ID) + " " + p.Name})
	}
	from := ""
	for _, p := range slices.Backward(page.Build.Pieces) {
		if old := page.Build.Pattern(p.ID); old != nil && old.Source.Surface == page.Surface.ID {
			from = string(p.ID)
		}
	}
	return field.Pick(list, page.value("flat", "piece", from))
}
