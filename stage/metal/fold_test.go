package metal_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fettle/build"
	"fettle/figure"
	"fettle/rates"
	"fettle/stage/metal"
	"fettle/unit"
)

// folded is a blank of 300 mm with flanges and the bends between them.
func folded(gauge unit.Length, flanges []float64, bends ...build.Bend) build.Blank {
	p := build.Blank{ID: "B1", Name: "channel", Gauge: gauge, Width: 300 * mm, Height: mm, Quantity: 1}
	for i, l := range flanges {
		f := build.Flange{Length: unit.Length(math.Round(l * 1000))}
		if i < len(bends) {
			f.Bend = bends[i]
		}
		p.Profile.Flanges = append(p.Profile.Flanges, f)
	}
	return p
}

func square(radius unit.Length) build.Bend { return build.Bend{Angle: 90, Radius: radius} }

func down(b build.Bend) build.Bend { b.Down = true; return b }

// TestUnfold_Worked: the worked values of the trade, by K as stated there.
func TestUnfold_Worked(t *testing.T) {
	quarter := folded(3175, []float64{50, 50}, square(3175))
	strip := build.Strip{ID: "K1", Gauge: 3175, Bend: square(3175), Flat: 100 * mm}
	both := 100 - 0.2827*25.4 + 4*3.175 // what a bend of 0.2827 in leaves of both flanges
	strip.First = unit.Length(math.Round(both / 2 * 1000))
	strip.Second = strip.First
	for _, tt := range []struct {
		name        string
		b           build.Build
		blank       build.Blank
		size, takes float64
	}{
		{"40 + 40 mm, gauge and radius 1 mm", build.Build{}, folded(mm, []float64{40, 40}, square(mm)), 78.23, 2.2305},
		{"an eighth of an inch by a strip of K 0.44", build.Build{Strips: []build.Strip{strip}}, quarter, 100 - 4*3.175 + 0.2827*25.4, 0.2827 * 25.4},
		{"a hem pressed flat loses 0.43 of the gauge", build.Build{}, folded(mm, []float64{60, 12}, build.Bend{Angle: 180}), 72 - 0.4292, math.Pi / 2},
		{"a channel loses as much at each bend", build.Build{}, folded(mm, []float64{40, 60, 40}, square(mm), square(mm)), 140 - 2*1.7695, 2.2305},
		{"up or down is the same length", build.Build{}, folded(mm, []float64{40, 60, 40}, square(mm), down(square(mm))), 140 - 2*1.7695, 2.2305},
	} {
		u := metal.Unfold(&tt.b, tt.blank)
		l := u.Lines[0]
		if math.Abs(u.Size-tt.size) > 0.01 || math.Abs(l.To-l.From-tt.takes) > 0.005 {
			t.Errorf("%s: %.3f mm with %.4f mm in the bend, want %.3f and %.4f", tt.name, u.Size, l.To-l.From, tt.size, tt.takes)
		}
		if u.Figure.With == "" || l.Figure.With == "" || u.Figure.Caution == "" {
			t.Errorf("%s: a number without its working", tt.name)
		}
	}
}

// TestUnfold_TheStripTakesOver: the trade default is told as one, and a strip
// of the gauge replaces it and narrows what is not known.
func TestUnfold_TheStripTakesOver(t *testing.T) {
	blank := folded(mm, []float64{40, 40}, square(mm))
	u := metal.Unfold(&build.Build{}, blank)
	k := u.Lines[0].Figure.Inputs[3]
	if k.Source != figure.TradeDefault || k.Value != "0.420" || u.Give < 0.05 {
		t.Errorf("by default %+v, give %.3f", k, u.Give)
	}
	b := build.Build{Strips: []build.Strip{
		{ID: "K1", Gauge: mm, Bend: square(mm), Flat: 100 * mm, First: 51 * mm, Second: 50_800},
		{ID: "K2", Gauge: 2 * mm, Bend: square(mm), Flat: 100 * mm, First: 52 * mm, Second: 52 * mm},
		{ID: "K3", Gauge: mm, Bend: square(4 * mm), Flat: 100 * mm, First: 52 * mm, Second: 52 * mm},
	}}
	u = metal.Unfold(&b, blank)
	if k := u.Lines[0].Figure.Inputs[3]; k.Source != figure.OwnPast || !strings.Contains(k.Note, "K1") || math.Abs(u.Size-(80-4+2.2)) > 1e-9 {
		t.Errorf("by the strip %+v, %.3f mm", k, u.Size)
	}
}

// TestSection: the drawn section has the outside lengths that were typed.
func TestSection(t *testing.T) {
	for _, tt := range []struct {
		blank         build.Blank
		width, height float64
	}{
		{folded(mm, []float64{40, 40}, square(mm)), 40, 40},
		{folded(mm, []float64{40, 60, 40}, square(2*mm), square(2*mm)), 40, 60},
		{folded(mm, []float64{40, 60, 30}, square(mm), down(square(mm))), 69, 60},
	} {
		s := metal.SectionOf(tt.blank, metal.Unfold(&build.Build{}, tt.blank))
		low, high := [2]float64{1e9, 1e9}, [2]float64{-1e9, -1e9}
		for _, p := range s.Outline() {
			low[0], low[1] = min(low[0], p.X), min(low[1], p.Y)
			high[0], high[1] = max(high[0], p.X), max(high[1], p.Y)
		}
		if math.Abs(high[0]-low[0]-tt.width) > 0.02 || math.Abs(high[1]-low[1]-tt.height) > 0.02 {
			t.Errorf("%v: drawn %.3f × %.3f mm, want %g × %g", tt.blank.Profile, high[0]-low[0], high[1]-low[1], tt.width, tt.height)
		}
		if l := s.Level(); math.Abs(l.Flanges[1].To.Y-l.Flanges[1].From.Y) > 1e-9 && len(l.Flanges) == 3 || len(l.Outline()) != len(s.Outline()) {
			t.Errorf("%v: its longest flange is not level: %v", tt.blank.Profile, l.Flanges)
		}
		if s.Crosses() {
			t.Errorf("%v runs into itself", tt.blank.Profile)
		}
	}
	curl := folded(mm, []float64{40, 40, 30, 60}, square(mm), square(mm), square(mm))
	if !metal.SectionOf(curl, metal.Unfold(&build.Build{}, curl)).Crosses() {
		t.Error("a curl that meets itself is not told")
	}
}

func TestFoldOrder(t *testing.T) {
	box := []build.Bend{square(mm), square(mm), square(mm), square(mm)}
	for _, tt := range []struct {
		name  string
		blank build.Blank
		want  string // bends in order, o where the sheet is turned over
		hits  int
	}{
		{"one bend", folded(mm, []float64{40, 40}, square(mm)), "1", 0},
		{"a top hat bends its brims last or first, turned over once", folded(mm, []float64{20, 60, 90, 60, 20}, down(square(mm)), square(mm), square(mm), down(square(mm))), "2 3 o1 4", 0},
		{"a channel with lips: lips first", folded(mm, []float64{12, 60, 90, 60, 12}, box...), "1 4 2 3", 0},
		{"a deep and narrow channel meets the nose", folded(mm, []float64{60, 20, 60}, square(mm), square(mm)), "1 2", 1},
		{"a flange that is too short", folded(mm, []float64{4, 60}, square(mm)), "1", 1},
		{"a bend down alone is a bend up of the sheet turned over", folded(mm, []float64{40, 40}, down(square(mm))), "1", 0},
	} {
		b := build.Build{}
		var said []string
		hits := 0
		for _, s := range metal.FoldOrder(&b, tt.blank) {
			word := fmt.Sprint(s.Bend + 1)
			if s.Over {
				word = "o" + word
			}
			said, hits = append(said, word), hits+len(s.Troubles)
		}
		if got := strings.Join(said, " "); got != tt.want || hits != tt.hits {
			t.Errorf("%s: %q with %d in the way %v, want %q with %d", tt.name, got, hits, metal.Unfoldable(&b, tt.blank), tt.want, tt.hits)
		}
	}
}

func TestFoldedBlank_AndWhenItIsStale(t *testing.T) {
	b := build.Build{}
	blank := metal.FoldedBlank(&b, folded(mm, []float64{40, 40}, square(mm)), 250*mm)
	if blank.Width != 250*mm || blank.Height != 78_200 || !blank.Fold.Known() {
		t.Fatalf("laid flat %s × %s", blank.Width, blank.Height)
	}
	b.Blanks = []build.Blank{blank}
	if list := (metal.Stage{}).TakeOff(&b, rates.Default()).Checks; len(list) != 0 {
		t.Errorf("told of a blank that is right: %+v", list)
	}
	b.Strips = []build.Strip{{ID: "K1", Gauge: mm, Bend: square(mm), Flat: 100 * mm, First: 51 * mm, Second: 51_200}}
	b.Brake = build.Brake{Name: "small folder", Width: 200 * mm}
	var ids []string
	for _, c := range (metal.Stage{}).TakeOff(&b, rates.Default()).Checks {
		ids = append(ids, c.ID)
	}
	if fmt.Sprint(ids) != "[flat-size/B1 brake/B1]" {
		t.Errorf("checks %v", ids)
	}
}

// TestStepAt: the section of a joggle steps aside by what was asked.
func TestStepAt(t *testing.T) {
	for _, tt := range []struct{ step, angle float64 }{{3, 45}, {2, 30}, {20, 90}} {
		long, ok := metal.StepAt(tt.step, tt.angle, mm, mm)
		if !ok {
			t.Fatalf("%+v has no room", tt)
		}
		bend := build.Bend{Angle: tt.angle, Radius: mm}
		blank := folded(mm, []float64{40, long, 40}, bend, down(bend))
		s := metal.SectionOf(blank, metal.Unfold(&build.Build{}, blank))
		first, last := s.Flanges[0], s.Flanges[2]
		if got := last.To.Y - first.From.Y; math.Abs(got-tt.step) > 0.005 {
			t.Errorf("a step of %g mm at %g° is drawn %.3f mm", tt.step, tt.angle, got)
		}
	}
	if _, ok := metal.StepAt(0.5, 90, mm, mm); ok {
		t.Error("a step less than its bends take is given")
	}
}
