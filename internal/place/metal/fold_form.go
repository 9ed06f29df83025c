package metal

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/internal/desk"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/metal"
	"fettle/unit"
)

// mostRows is how many flanges the form has lines for.
const mostRows = 9

// foldActs are the forms of a page: which was sent, and what was wrong.
type foldActs struct {
	Open  string
	Wrong field.Errors
	typed func(string) string
}

// was is what a field had when its form was sent, or what it begins with.
func (a foldActs) was(form, name, begin string) string {
	if a.typed != nil && a.Open == form {
		return a.typed(name)
	}
	return begin
}

func (a foldActs) of(form, name string) string {
	if a.Open != form {
		return ""
	}
	return a.Wrong.Of(name)
}

// foldRow is one flange as it is typed, with the bend behind it.
type foldRow struct{ Length, Way, Angle, Radius string }

// foldForm is a folded blank as it is typed.
type foldForm struct {
	foldActs
	ID, Name, Quantity, Gauge, Along, Over string
	Rows                                   []foldRow
	Known                                  bool // the blank is on the list
}

// formOfBlank fills the form from a blank.
func formOfBlank(s scene, b build.Blank) foldForm {
	f := foldForm{ID: string(b.ID), Name: b.Name, Quantity: fmt.Sprint(b.Quantity), Gauge: mm(b.Gauge), Along: mm(b.Width), Over: mm(b.Over), Known: s.Build.Blank(b.ID) != nil}
	for i, one := range b.Profile.Flanges {
		row := foldRow{Length: mm(one.Length)}
		if i+1 < len(b.Profile.Flanges) {
			row.Way, row.Angle, row.Radius = wayOf(one.Bend), fmt.Sprintf("%g", one.Bend.Angle), mm(one.Bend.Radius)
		}
		f.Rows = append(f.Rows, row)
	}
	for len(f.Rows) < min(len(b.Profile.Flanges)+2, mostRows) {
		f.Rows = append(f.Rows, foldRow{})
	}
	return f
}

// plain shapes that a new fold begins as, each with sizes to type over.
var plain = []struct {
	Key, Word string
	Lengths   []float64
	Bends     []build.Bend
}{
	{"angle", "Angle", []float64{40, 40}, []build.Bend{{Angle: 90}}},
	{"channel", "Channel", []float64{30, 60, 30}, []build.Bend{{Angle: 90}, {Angle: 90}}},
	{"hat", "Top hat", []float64{20, 25, 50, 25, 20}, []build.Bend{{Angle: 90, Down: true}, {Angle: 90}, {Angle: 90}, {Angle: 90, Down: true}}},
	{"zed", "Offset flange", []float64{40, 25, 40}, []build.Bend{{Angle: 90}, {Angle: 90, Down: true}}},
	{"lipped", "Channel with lips", []float64{12, 40, 70, 40, 12}, []build.Bend{{Angle: 90}, {Angle: 90}, {Angle: 90}, {Angle: 90}}},
	{"hem", "Hemmed edge", []float64{11, 60}, []build.Bend{{Angle: 180}}},
	{"joggle", "Joggled edge", []float64{15, 0, 80}, []build.Bend{{Angle: 45}, {Angle: 45, Down: true}}},
}

// plainBlank is a plain shape of a gauge, its inside radii as the gauge is. The
// joggle steps aside by two gauges: by one, its bends alone would take more.
func plainBlank(s scene, key string) build.Blank {
	b := build.Blank{ID: build.BlankID(sheetsPage{scene: s}.nextBlank()), Gauge: 1 * unit.Millimetre, Width: 300 * unit.Millimetre, Quantity: 1}
	for n, shape := range plain {
		if shape.Key != key && (key != "" || n > 0) {
			continue
		}
		for i, l := range shape.Lengths {
			f := build.Flange{Length: unit.Length(l * 1000)}
			if i < len(shape.Bends) {
				f.Bend = shape.Bends[i]
				if f.Bend.Angle < 180 {
					f.Bend.Radius = b.Gauge
				}
			}
			if l == 0 {
				long, _ := stage.StepAt(2*b.Gauge.Mm(), f.Bend.Angle, b.Gauge, b.Gauge)
				f.Length = unit.Length(long*10+0.5) * 100
			}
			b.Profile.Flanges = append(b.Profile.Flanges, f)
		}
	}
	return b
}

func (p place) newFold(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, web.Sheet{Place: "metal", Shown: "a folded blank"}, showNewFold(s, formOfBlank(s, plainBlank(s, r.Query("shape")))))
}

// setFold lays a folded blank on the slip, with the flat size that its bends
// give.
func (p place) setFold(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	one := build.Blank{ID: build.BlankID(strings.ToUpper(f.Text("fold-id", 1, 12))), Name: f.Text("fold-name", 1, 80), Quantity: int(f.Int("fold-quantity", 1, 1000)),
		Gauge: unit.Length(f.Decimal("fold-gauge", 3, 100, mostGauge)), Width: unit.Length(f.Decimal("fold-along", 3, 1000, mostSheet)), Over: unit.Length(f.Decimal("fold-over", 3, 0, 100_000))}
	if old := s.Build.Blank(one.ID); old != nil {
		one.Finding, one.Done, one.Fold = old.Finding, old.Done, old.Fold
	}
	var rows []foldRow
	one.Profile, rows = readProfile(f)
	if f.Err() == nil {
		one = stage.FoldedBlank(s.Build, one, one.Width)
	}
	change := &build.SetBlanks{Blanks: []build.Blank{one}}
	if f.Err() == nil {
		desk.Holds(f, s.Build, "length-1", change)
	}
	if f.Err() == nil {
		return p.desk.Propose(r, s.foldPath(one.ID), change)
	}
	page := foldForm{foldActs: foldActs{Open: "fold", Wrong: f.Errors, typed: f.Raw}, Rows: rows, Known: s.Build.Blank(one.ID) != nil}
	return r.Invalid(web.Sheet{Place: "metal", Shown: "a folded blank"}, showNewFold(s, page))
}

// readProfile reads flange after flange, up to the one behind which the sheet
// ends.
func readProfile(f *web.Form) (build.Profile, []foldRow) {
	var p build.Profile
	var rows []foldRow
	ended := false
	for i := 1; i <= mostRows; i++ {
		key := fmt.Sprint(i)
		row := foldRow{Length: f.Raw("length-" + key), Way: f.Raw("way-" + key), Angle: f.Raw("angle-" + key), Radius: f.Raw("radius-" + key)}
		if !f.Has("length-"+key) || ended && row.Length == "" {
			rows = append(rows, row)
			continue
		}
		if ended {
			f.Fail("way-"+fmt.Sprint(i-1), "ends the sheet, and a flange follows")
			ended = false
		}
		rows = append(rows, row)
		one := build.Flange{Length: unit.Length(f.Decimal("length-"+key, 3, 1, mostSheet))}
		switch f.Choice("way-"+key, "", "up", "down") {
		case "":
			ended = true
		case "down":
			one.Bend.Down = true
			fallthrough
		case "up":
			one.Bend.Angle = float64(f.Decimal("angle-"+key, 1, 10, 1800)) / 10
			one.Bend.Radius = unit.Length(f.Decimal("radius-"+key, 3, 0, 500_000))
		}
		p.Flanges = append(p.Flanges, one)
	}
	for len(rows) > len(p.Flanges)+2 {
		rows = rows[:len(rows)-1]
	}
	if len(p.Flanges) < 2 && f.Err() == nil {
		f.Fail("way-1", "says that the sheet ends behind the first flange: choose up or down")
	}
	return p, rows
}

func (p place) foldStrip(r *web.Request) error {
	return p.foldsForm(r, "strip", "strip-first", func(_ scene, f *web.Form) build.Change {
		return &build.FoldStrip{Strip: build.Strip{ID: build.StripID(strings.ToUpper(f.Text("strip-id", 1, 12))), Gauge: unit.Length(f.Decimal("strip-gauge", 3, 100, mostGauge)),
			Bend: build.Bend{Angle: float64(f.Decimal("strip-angle", 1, 10, 1800)) / 10, Radius: unit.Length(f.Decimal("strip-radius", 3, 0, 500_000))},
			Flat: unit.Length(f.Decimal("strip-flat", 3, 1, mostSheet)), First: unit.Length(f.Decimal("strip-first", 3, 1, mostSheet)), Second: unit.Length(f.Decimal("strip-second", 3, 1, mostSheet)), Springs: springs(f), Note: f.Text("strip-note", 0, 200)}}
	})
}

// springs is how far a strip opened; empty was not read.
func springs(f *web.Form) float64 {
	if strings.TrimSpace(f.Raw("strip-springs")) == "" {
		return 0
	}
	return float64(f.Decimal("strip-springs", 1, 0, 450)) / 10
}

func (p place) dropStrip(r *web.Request) error {
	s, f, err := p.formOf(r)
	if err != nil {
		return err
	}
	return p.desk.Propose(r, s.At()+"/folds", &build.DropStrip{Strip: build.StripID(f.Raw("strip"))})
}

func (p place) setBrake(r *web.Request) error {
	return p.foldsForm(r, "brake", "brake-name", func(_ scene, f *web.Form) build.Change {
		return &build.SetBrake{Brake: build.Brake{Name: f.Text("brake-name", 1, 80), Width: unit.Length(f.Decimal("brake-width", 3, 100_000, mostSheet)), Gauge: unit.Length(f.Decimal("brake-gauge", 3, 100, mostGauge)),
			Least: unit.Length(f.Decimal("brake-least", 3, 1000, 200_000)), Nose: unit.Length(f.Decimal("brake-nose", 3, 1000, 500_000)), Slope: float64(f.Decimal("brake-slope", 1, 50, 900)) / 10}}
	})
}

func (s scene) nextStrip() string {
	return desk.NextID("K%02d", len(s.Build.Strips), func(id string) bool { return s.Build.Strip(build.StripID(id)) != nil })
}

// ways are what can come behind a flange.
func ways(picked string) []field.Option {
	return field.Pick([]field.Option{{Value: "", Label: "the sheet ends"}, {Value: "up", Label: "bend up"}, {Value: "down", Label: "bend down"}}, picked)
}
