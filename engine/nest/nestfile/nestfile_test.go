package nestfile_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"fettle/engine/nest"
	"fettle/engine/nest/nestfile"
	"fettle/fault"
	"fettle/geom"
)

const sets = "../../../../shared/data/nesting"

func hide(t *testing.T) (string, nestfile.File) {
	t.Helper()
	text, err := os.ReadFile("testdata/hide.json")
	if err != nil {
		t.Fatal(err)
	}
	f, err := nestfile.Read(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return string(text), f
}

func TestRead_Own(t *testing.T) {
	_, f := hide(t)
	if f.Problem.Kind != nest.Bins || len(f.Problem.Pieces) != 4 || f.Problem.Containers[0].Margin != 15 || len(f.Problem.Containers[0].Outline.Holes) != 1 {
		t.Errorf("read as %+v", f)
	}
	if at := f.Problem.Pieces[2].Locked[0]; at.Piece != 2 || at.X != 300 || at.Rotation != 12.5 {
		t.Errorf("locked at %+v", at)
	}
	if r, m := f.Problem.Containers[0].Repeat, f.Problem.Pieces[3].Match; r != (nest.Repeat{X: 90, Y: 40, Phase: geom.Point{X: 30}}) || m == nil || *m != (nest.Match{Anchor: geom.Point{Y: 100}, Y: true}) {
		t.Errorf("pattern %+v, kept to %+v", r, m)
	}
	var b bytes.Buffer
	if err := nestfile.Write(&b, f); err != nil {
		t.Fatal(err)
	}
	again, err := nestfile.Read(&b)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(f, again); d != "" {
		t.Errorf("written and read again:\n%s", d)
	}
}

// The example in the docs can be typed as it stands.
func TestRead_Docs(t *testing.T) {
	page, err := os.ReadFile("../../../docs/engine/nest-file.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(page), "```json\n")
	text, _, _ := strings.Cut(rest, "```")
	if f, err := nestfile.Read(strings.NewReader(text)); err != nil || len(f.Problem.Pieces) != 2 {
		t.Errorf("%d pieces, %v", len(f.Problem.Pieces), err)
	}
}

// Each text is changed in one way and refused with the place.
func TestRead_OwnRefuses(t *testing.T) {
	text, _ := hide(t)
	for _, c := range []struct{ old, new, want string }{
		{`"margin"`, `"margn"`, `line 11: there is nothing called "margn" here`},
		{`"fettle nest"`, `"other"`, `form: "other" is not this form`},
		{`"bins"`, `"bin"`, `kind: "bin" is not known`},
		{`"clearance": 2`, `"unit": "ft", "clearance": 2`, `unit: "ft" is no unit of length here`},
		{`"clearance": 2`, `"clearance": -2`, "clearance: -2 is out of range"},
		{`"clearance": 2`, `"clearance": "2"`, "line 5, clearance: a string does not fit here"},
		{`"id": "bolster right"`, `"id": "seat top"`, "pieces[2] seat top: the id is said twice"},
		{`"pair": "bolster left"`, `"pair": "x"`, `pieces[2] bolster right, pair: there is no other piece "x"`},
		{`"free": true, "pair": "bolster right"`, `"free": true, "pair": "seat top"`, `pieces[2] bolster right, pair: bolster left is the mate of seat top already`},
		{`[560, 480]`, `[560]`, "[560] is no point"},
		{`[560, 480]`, `[-100, 480]`, "pieces[0] seat top, outer, point 2: the edge from here meets the edge from point 4"},
		{`[560, 480]`, `[1e9, 480]`, "pieces[0] seat top, outer, point 3: its coordinates"},
		{`[930, 1000]]]`, `[3000, 1000]]]`, "materials[0] hide 1, hole 1: it meets the outer ring"},
		{`[1510, 1260]`, `[1560, 1200]`, "materials[0] hide 1, zones[1], outer: its points lie on one line"},
		{`"quality": 2`, `"quality": -2`, "pieces[3] back flap, zones[0]: a quality of -2"},
		{`"free": true, "pair": "bolster right"`, `"free": true, "rotations_deg": [0]`, "pieces[1] bolster left, rotations_deg: a piece that may lie anyhow"},
		{`"rotations_deg": [0, 180]`, `"rotations_deg": []`, "a list without an angle"},
		{`"tolerance_deg": 95`, `"tolerance_deg": 181`, "pieces[0] seat top, axis, tolerance_deg: 181"},
		{`"x": 90, "y": 40`, `"x": -90`, "materials[0] hide 1, repeat, x: -90 is out of range"},
		{`"x": 90, "y": 40`, `"y": 0`, "materials[0] hide 1, repeat: a pattern that never comes again"},
		{`"anchor": [0, 100], "y": true`, `"anchor": [0, 100]`, "pieces[3] back flap, match: it keeps to no axis"},
		{`"anchor": [0, 100]`, `"anchor": [0, 1e9]`, "pieces[3] back flap, match, anchor, y: 1e+09"},
		{`"material": "hide 1"`, `"material": "hide 9"`, `pieces[2] bolster right, locked[0]: there is no material "hide 9"`},
		{`"count": 2`, `"count": 1000000`, "pieces[0] seat top, count"},
		{`"cost": 180`, `"width": 180`, "materials[0] hide 1: a strip has a width"},
		{`"margin": 15,`, `"margin": 15`, "line 11: this is not JSON"},
	} {
		if !strings.Contains(text, c.old) {
			t.Fatalf("%s does not stand in the file", c.old)
		}
		_, err := nestfile.Read(strings.NewReader(strings.Replace(text, c.old, c.new, 1)))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s for %s: %v, want %q", c.new, c.old, err, c.want)
		}
	}
	for _, text := range []string{"", "{}", "[]", "null", `{"form":"fettle nest"}`, `{"strip_height":5}`, `{"bins":[]}`, `{"bin_types":[]}`, text + "{}"} {
		if _, err := nestfile.Read(strings.NewReader(text)); err == nil {
			t.Errorf("%.30q passes", text)
		}
	}
}

func TestRead_Strip(t *testing.T) {
	f, err := nestfile.Read(strings.NewReader(`{"name":"s","strip_height":10,"items":[
		{"id":7,"demand":3,"allowed_orientations":[0,180],"dxf":"x","shape":{"type":"simple_polygon","data":[[0,0],[4,0],[0,3],[0,0]]}},
		{"demand":1,"shape":{"type":"simple_polygon","data":[[0,0],[4,0],[0,3]]}}]}`))
	if err != nil {
		t.Fatal(err)
	}
	triangle := geom.Polygon{Outer: []geom.Point{{}, {X: 4}, {Y: 3}}}
	want := nestfile.File{Name: "s", Problem: nest.Problem{
		Containers: []nest.Container{{ID: "strip", Height: 10}},
		Pieces:     []nest.Piece{{ID: "7", Shape: triangle, Count: 3, Rotations: []float64{0, 180}}, {ID: "1", Shape: triangle, Count: 1, Free: true}},
	}}
	if d := cmp.Diff(want, f); d != "" {
		t.Error(d)
	}
}

func TestRead_HidesInBothSpellings(t *testing.T) {
	upper, err := nestfile.Read(strings.NewReader(`{"Name":"h","Items":[{"Demand":2,"DemandMax":2,"BaseQuality":1,"Zones":[{"Quality":2,"Shape":{"Type":"SimplePolygon","Data":[[0,0],[1,0],[0,1]]}}],
		"Shape":{"Type":"SimplePolygon","Data":[[0,0],[4,0],[0,3],[0,0]]}}],
		"Objects":[{"Cost":3,"Stock":2,"Zones":[],"Shape":{"Type":"Polygon","Data":{"Outer":[[0,0],[9,0],[0,9]],"Inner":[[[1,1],[2,1],[1,2]]]}}}]}`))
	if err != nil {
		t.Fatal(err)
	}
	lower, err := nestfile.Read(strings.NewReader(`{"name":"h","items":[{"demand":2,"min_quality":1,"zones":[{"quality":2,"shape":{"type":"simple_polygon","data":[[0,0],[1,0],[0,1]]}}],
		"shape":{"type":"simple_polygon","data":[[0,0],[4,0],[0,3]]}}],
		"bins":[{"cost":3,"stock":2,"zones":[],"shape":{"type":"polygon","data":{"outer":[[0,0],[9,0],[0,9]],"inner":[[[1,1],[2,1],[1,2]]]}}}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(upper, lower); d != "" {
		t.Error(d)
	}
	if c, p := upper.Problem.Containers[0], upper.Problem.Pieces[0]; c.Count != 2 || c.Cost != 3 || len(c.Outline.Holes) != 1 || p.Quality != 1 || p.Zones[0].Quality != 2 || !p.Free {
		t.Errorf("read as %+v", upper)
	}
}

// Rings of the sets turn back and slip over themselves here and there.
func TestRead_StripMends(t *testing.T) {
	for _, c := range []struct {
		points string
		area   float64 // 0: refused
	}{
		{"[0,0],[30,0],[30,20],[0,20],[0,15],[0,17]", 600},
		{"[0,0],[30,0],[30,20],[10,20],[9.9,20.1],[10.1,20.1],[9.9,19.9],[0,20]", 600},
		{"[0,0],[30,20],[30,0],[0,20]", 0},
	} {
		f, err := nestfile.Read(strings.NewReader(`{"strip_height":50,"items":[{"shape":{"type":"simple_polygon","data":[` + c.points + `]}}]}`))
		if (err != nil) != (c.area == 0) || err == nil && math.Abs(f.Problem.Pieces[0].Shape.Area()-c.area) > 0.6 {
			t.Errorf("%s: %+v, %v; want %v", c.points, f.Problem.Pieces, err, c.area)
		}
	}
}

func TestRead_Types(t *testing.T) {
	f, err := nestfile.Read(strings.NewReader(`{"objective":"open-dimension-x","bin_types":[{"type":"rectangle","width":40,"height":30,
		"defects":[{"type":"rectangle","x":5,"y":5,"width":2,"height":2,"item_defect_minimum_spacing":1}],
		"fixed_items":[{"item_type_id":0,"angle":90,"bl_corner":{"x":10,"y":10}}]}],
		"item_types":[{"type":"rectangle","width":4,"height":2,"copies":2,"allow_mirroring":true,"allowed_rotations":[{"start":90,"end":90}]},
		{"type":"circle","radius":1,"allowed_rotations":[{"start":0,"end":360}]}]}`))
	if err != nil {
		t.Fatal(err)
	}
	c, p := f.Problem.Containers[0], f.Problem.Pieces
	if c.Height != 30 || c.KeepOut[0].Area() != 16 || !p[0].Mirror || p[0].Count != 2 || !p[1].Free || len(p[1].Shape.Outer) != 64 {
		t.Errorf("read as %+v", f)
	}
	if at := p[0].Locked[0]; at.X != 12 || at.Y != 10 {
		t.Errorf("fixed at %v, %v, want 12, 10", at.X, at.Y)
	}
	for text, want := range map[string]string{
		`"open-dimension-y"`: "objective",
		`"knapsack","x":1`:   "there is nothing called",
	} {
		if _, err := nestfile.Read(strings.NewReader(`{"objective":` + text + `,"bin_types":[],"item_types":[]}`)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// TestRead_Sets reads every file of the public sets, and writes it in our form.
func TestRead_Sets(t *testing.T) {
	files, _ := filepath.Glob(sets + "/*/*.json")
	if len(files) == 0 {
		t.Skip("the public sets are not there: ../shared/data/nesting")
	}
	for _, path := range files {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		f, err := nestfile.Read(bytes.NewReader(text))
		if err != nil {
			t.Errorf("%s: %v", filepath.Base(path), err)
			continue
		}
		var b bytes.Buffer
		if err := nestfile.Write(&b, f); err != nil {
			t.Errorf("%s: %v", path, err)
		}
		again, err := nestfile.Read(&b)
		if err != nil {
			t.Errorf("%s again: %v", path, err)
		} else if d := cmp.Diff(f, again); d != "" {
			t.Errorf("%s: %.500s", path, d)
		}
	}
}

func TestWriteSVG(t *testing.T) {
	_, f := hide(t)
	f.Problem.Pieces[0].ID = "a <b> & c"
	var b bytes.Buffer
	if err := nestfile.WriteSVG(&b, f.Problem, []nest.Placement{{Piece: 0, X: 100, Y: 400}, {Piece: 2, X: 300, Y: 1500, Rotation: 12.5}}, 0); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	paths, d := 0, xml.NewDecoder(strings.NewReader(text))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if s, ok := tok.(xml.StartElement); ok && s.Name.Local == "path" {
			paths++
		}
	}
	if paths != 1+2+1+2 || !strings.Contains(text, "a &lt;b&gt; &amp; c") {
		t.Errorf("%d paths, want a hide, two zones, a keep-out and two pieces\n%s", paths, text)
	}
	if err := nestfile.WriteSVG(io.Discard, f.Problem, []nest.Placement{{Piece: 9}}, 0); err == nil {
		t.Error("a piece that is not there is drawn")
	}
}

// TestPlans draws in millimetres, where the sheets have the pieces, and abreast
// in one drawing.
func TestPlans(t *testing.T) {
	_, f := hide(t)
	at := []nest.Placement{{Piece: 0, X: 100, Y: 400}, {Piece: 2, X: 300, Y: 1500, Rotation: 12.5}}
	f.Unit = ""
	if _, err := nestfile.Plans(f, at, 0); err == nil || !strings.Contains(err.Error(), "unit: the file does not say in which unit") {
		t.Errorf("without a unit: %v", err)
	}
	f.Unit = "cm"
	plans, err := nestfile.Plans(f, at, 0)
	if err != nil {
		t.Fatal(err)
	}
	layers := map[string]int{}
	for _, o := range plans[0].Outlines {
		layers[o.Layer]++
	}
	if want := map[string]int{nestfile.LayerOutline: 2, nestfile.LayerMarks: 3, nestfile.LayerPieces: 2}; len(plans) != 1 || !cmp.Equal(layers, want) || len(plans[0].Labels) != 2 {
		t.Errorf("%d plans, layers %v, want %v", len(plans), layers, want)
	}
	last := plans[0].Outlines[len(plans[0].Outlines)-1].Points
	for i, q := range at[1].Lay(f.Problem.Pieces[2].Shape).Outer {
		if last[i].Distance(q.Scale(10)) > 1e-9 {
			t.Fatalf("point %d of the piece lies at %v, want ten times %v", i, last[i], q)
		}
	}
	both := nestfile.Abreast([]nestfile.SheetPlan{plans[0], plans[0]})
	if box, err := both.Box(); err != nil || box.Min.X != 0 || box.Width() < 2*10*f.Problem.Containers[0].Outline.Bounds().Width() {
		t.Errorf("two sheets abreast take %v, %v", box, err)
	}
}

// TestRead_Large refuses more corners than a layout can be made of, soon.
func TestRead_Large(t *testing.T) {
	var b strings.Builder
	b.WriteString(`{"form":"fettle nest","kind":"strip","materials":[{"id":"roll","width":9}],"pieces":[{"id":"a","outline":[[0,-1]`)
	for i := range 1_000_000 {
		fmt.Fprintf(&b, ",[%d,%d]", i, i%2)
	}
	b.WriteString(`]}]}`)
	_, err := nestfile.Read(strings.NewReader(b.String()))
	if fault.KindOf(err) != fault.TooLarge || !strings.Contains(err.Error(), "pieces[0] a: a shape of 1000001 corners, at most 10000") {
		t.Error(err)
	}
}

func TestWrite_Refuses(t *testing.T) {
	_, f := hide(t)
	f.Problem.Pieces[2].Locked[0].Container = 7
	if err := nestfile.Write(io.Discard, f); err == nil || !strings.Contains(err.Error(), "locked[0]: there is no material 7") {
		t.Errorf("a copy locked nowhere: %v", err)
	}
}

func FuzzRead(f *testing.F) {
	own, err := os.ReadFile("testdata/hide.json")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(own))
	f.Add(`{"strip_height":10,"items":[{"demand":1,"shape":{"type":"simple_polygon","data":[[0,0],[4,0],[0,3]]}}]}`)
	f.Add(`{"Items":[{"Demand":2,"BaseQuality":1,"Shape":{"Type":"SimplePolygon","Data":[[0,0],[4,0],[0,3],[0,0]]}}],"Objects":[{"Stock":2,"Shape":{"Type":"Polygon","Data":{"Outer":[[0,0],[9,0],[0,9]],"Inner":[[[1,1],[2,1],[1,2]]]}}}]}`)
	f.Add(`{"objective":"knapsack","bin_types":[{"type":"circle","radius":9,"fixed_items":[{"item_type_id":0,"bl_corner":{"x":1,"y":1}}]}],"item_types":[{"type":"rectangle","width":4,"height":2}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		file, err := nestfile.Read(strings.NewReader(text))
		if err != nil {
			return
		}
		var b bytes.Buffer
		if err := nestfile.Write(&b, file); err != nil {
			t.Fatal(err)
		}
		written := b.String()
		again, err := nestfile.Read(&b)
		if err != nil {
			t.Fatalf("%s\nis refused: %v", written, err)
		}
		if d := cmp.Diff(file, again); d != "" {
			t.Fatal(d)
		}
	})
}
