package pattern_test

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
	"fettle/geom"
)

func layer(d pattern.Drawn, l pattern.Layer) (out []pattern.Line) {
	for _, s := range d.Strokes {
		if s.Layer == l {
			out = append(out, s.Points)
		}
	}
	return out
}

// TestSet_Draw: the demo's cushion is cut 470 × 480 with a seam of 12 mm; both
// sides of each seam carry their notches at one way along it.
func TestSet_Draw(t *testing.T) {
	drawn, fits, err := cushion().Draw()
	if err != nil || len(drawn) != 3 || len(fits) != 3 {
		t.Fatal(err)
	}
	slits := 0
	for _, n := range fits[0].Notches {
		slits++
		if n.Double {
			slits++
		}
	}
	if got := len(layer(drawn[2], pattern.NotchLayer)); got != slits {
		t.Errorf("%d slits on the boxing, want %d", got, slits)
	}
	for i, d := range drawn {
		cut, sewn := layer(d, pattern.CutLayer), layer(d, pattern.SewLayer)
		if len(cut) != 1 || len(sewn) != 1 || d.Strokes[0].Layer != pattern.CutLayer || len(d.Remarks) > 0 {
			t.Fatalf("piece %d: %+v", i, d)
		}
		for _, n := range layer(d, pattern.NotchLayer) {
			if a, b := geom.Ring(cut[0]).Distance(n[0]), geom.Ring(sewn[0]).Distance(n[1]); a > 1e-9 || !near(b, 6, 1e-9) {
				t.Errorf("a slit from %g mm off the cut to %g mm off the seam", a, b)
			}
		}
		for _, w := range d.Words {
			if !geom.Ring(sewn[0]).Contains(geom.Point{X: w.At[0], Y: w.At[1]}) {
				t.Errorf("%q lies outside", w.Text)
			}
		}
	}
	if !near(drawn[2].Area, 1.924*0.130, 1e-9) || !near(drawn[0].Sewn, 0.47*0.3, 1e-9) {
		t.Errorf("areas %g, %g", drawn[2].Area, drawn[0].Sewn)
	}
}

// TestPiece_Flat: a channelled panel spreads to finished + lines × loss, and its
// seam lines up with what it was.
func TestPiece_Flat(t *testing.T) {
	oval := pattern.Piece{ID: "oval", Edges: []pattern.Edge{{Name: "round", Kind: pattern.Plain}}}
	for i := range 120 {
		s, c := math.Sincos(float64(i) * math.Pi / 60)
		oval.Line = append(oval.Line, geom.Point{X: 200 * c, Y: 120 * s})
	}
	for _, c := range []struct {
		name   string
		p      pattern.Piece
		pleats pattern.Pleats
		w, h   float64
	}{
		{"across a rectangle", piece(rect(600, 400), 12, 12, 12, 12), pattern.Pleats{Angle: 90, At: []float64{-150, -300, -450}, Loss: 6}, 618, 400},
		{"along it", piece(rect(600, 400), 12, 12, 12, 12), pattern.Pleats{At: []float64{100, 200, 300}, Loss: 3.175}, 600, 409.525},
		{"an oval", oval, pattern.Pleats{Angle: 90, At: []float64{-100, -50, 0, 50, 100}, Loss: 5}, 425, 240},
	} {
		c.p.Pleats = &c.pleats
		q, err := c.p.Flat()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		box := geom.Polygon{Outer: q.Line}.Bounds()
		if !near(box.Width(), c.w, 1e-9) || !near(box.Height(), c.h, 1e-9) || len(q.Edges) != len(c.p.Edges) {
			t.Errorf("%s: %g × %g mm, want %g × %g", c.name, box.Width(), box.Height(), c.w, c.h)
		}
		drawn, _, err := pattern.Set{Pieces: []pattern.Piece{c.p}}.Draw()
		if err != nil || len(layer(drawn[0], pattern.PleatLayer)) != len(c.pleats.At) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	bad := piece(rect(600, 400), 12, 12, 12, 12)
	bad.Pleats = &pattern.Pleats{At: []float64{500}, Loss: 5}
	if _, err := bad.Flat(); fault.KindOf(err) != fault.Invalid {
		t.Error(err)
	}
}

// dressed has one of everything.
func dressed() pattern.Piece {
	p := piece(pattern.Line{{X: 0, Y: 0}, {X: 760, Y: 0}, {X: 760, Y: 260}, {X: 200, Y: 260}, {X: 0, Y: 150}}, 12, 25, 12, 12, 12)
	p.ID, p.Hand, p.Name = "T14-L", "L", "door card upper"
	p.Arrow = pattern.Arrow{Kind: "grain", Angle: 20}
	p.Pleats = &pattern.Pleats{Angle: 90, At: []float64{-700, -740}, Loss: 4}
	wave := pattern.Line{{X: 0, Y: 0}, {X: 60, Y: 20}, {X: 120, Y: 0}}
	p.Motifs = []pattern.Motif{{Name: "wave", Strokes: []pattern.Line{wave}, At: [2]float64{300, 100}, Turn: 10, Clearance: 20}, {Name: "letters", Strokes: []pattern.Line{wave}, At: [2]float64{500, 100}, Reads: true, Clearance: 20}}
	p.Clips = &pattern.Clips{Edges: []string{"a", "b"}, Inset: 15}
	return p
}

// TestPiece_Mirror: mirrored twice a piece is itself, mirrored once its cut line
// is the mirror image, and lettering still reads.
func TestPiece_Mirror(t *testing.T) {
	p := dressed()
	q := p.Mirror("T14-R")
	if back := q.Mirror(p.ID); !reflect.DeepEqual(back, p) {
		t.Errorf("twice mirrored it is\n%+v, want\n%+v", back, p)
	}
	if q.Hand != "R" || q.Check() != nil || !reflect.DeepEqual(q.Motifs[1].Strokes, p.Motifs[1].Strokes) || reflect.DeepEqual(q.Motifs[0].Strokes, p.Motifs[0].Strokes) {
		t.Errorf("mirrored: %+v, %v", q, q.Check())
	}
	both, _, err := pattern.Set{Pieces: []pattern.Piece{p, q}}.Draw()
	if err != nil || len(both[0].Strokes) != len(both[1].Strokes) || !near(both[0].Area, both[1].Area, 1e-12) {
		t.Fatal(err)
	}
	// the wave is turned about, the letters are not
	if l, r := layer(both[0], pattern.StitchLayer), layer(both[1], pattern.StitchLayer); !near(l[1][1].X-l[1][0].X, r[1][1].X-r[1][0].X, 1e-9) || !near(l[0][1].X-l[0][0].X, -(r[0][1].X-r[0][0].X), 1e-9) {
		t.Errorf("motifs left %v, right %v", l, r)
	}
}

// TestSeam_Mirror: the seams of the other side fit as well as those of this one.
func TestSeam_Mirror(t *testing.T) {
	s := cushion()
	twin := func(id string) string { return id + "'" }
	s.Seams[0].Match = []pattern.Match{{A: 0.25, B: 0.252}}
	m := pattern.Set{}
	for _, p := range s.Pieces {
		m.Pieces = append(m.Pieces, p.Mirror(twin(p.ID)))
	}
	for _, one := range s.Seams {
		m.Seams = append(m.Seams, one.Mirror(twin))
		f, err := s.Fit(one)
		g, err2 := m.Fit(m.Seams[len(m.Seams)-1])
		if err != nil || err2 != nil || !near(f.A, g.A, 1e-9) || !near(f.B, g.B, 1e-9) || len(f.Notches) != len(g.Notches) {
			t.Fatalf("%s: %v %v, %d and %d notches", one.ID, err, err2, len(f.Notches), len(g.Notches))
		}
		for i, n := range f.Notches {
			o := g.Notches[len(f.Notches)-1-i]
			if !near(n.A, 1-o.A, 1e-9) || !near(n.B, 1-o.B, 1e-9) || n.Double != o.Double {
				t.Errorf("%s: notch %+v, mirrored %+v", one.ID, n, o)
			}
		}
	}
}

// TestSet_Draw_Words: label and arrow lie inside the piece and clear of one
// another, the arrow along its angle.
func TestSet_Draw_Words(t *testing.T) {
	for _, angle := range []float64{0, 20, 90, 180} {
		p := dressed()
		p.Arrow.Angle = angle
		drawn, _, err := pattern.Set{Pieces: []pattern.Piece{p}}.Draw()
		if err != nil {
			t.Fatal(err)
		}
		d := drawn[0]
		sewn, shaft := layer(d, pattern.SewLayer)[0], layer(d, pattern.ArrowLayer)[0]
		way := shaft[1].Sub(shaft[0])
		if got := math.Atan2(way.Y, way.X) * 180 / math.Pi; !near(got, angle, 1e-9) {
			t.Errorf("an arrow at %g°, want %g", got, angle)
		}
		lowest := math.Inf(1)
		for _, w := range d.Words {
			half := 0.35 * w.Height * float64(len([]rune(w.Text)))
			lowest = min(lowest, w.At[1]-w.Height/2)
			for _, x := range []float64{-half, half} {
				if !geom.Ring(sewn).Contains(geom.Point{X: w.At[0] + x, Y: w.At[1]}) {
					t.Errorf("%q runs over the edge", w.Text)
				}
			}
		}
		for _, q := range shaft {
			if q.Y > lowest || !geom.Ring(sewn).Contains(q) {
				t.Errorf("the arrow's end %v lies in the label or outside", q)
			}
		}
	}
}

func TestPiece_Remarks(t *testing.T) {
	p := dressed()
	p.Motifs[0].At, p.Motifs[1].At = [2]float64{300, -5}, [2]float64{500, 10}
	p.Clips.Inset = 140
	drawn, _, err := pattern.Set{Pieces: []pattern.Piece{p}}.Draw()
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(drawn[0].Remarks, " ")
	for _, want := range []string{"Motif wave runs 5.0 mm over", "Motif letters comes within 10.0 mm of the sewn line; 20 mm", "clip holes have no room"} {
		if !strings.Contains(all, want) {
			t.Errorf("remarks %q lack %q", all, want)
		}
	}
}

// TestPiece_Holes: the upper door card of 760 × 260, clips along its foot.
func TestPiece_Holes(t *testing.T) {
	p := piece(rect(760, 260), 0, 0, 0, 0)
	p.Clips = &pattern.Clips{Edges: []string{"a", "b"}, Inset: 15}
	at, left, err := p.Holes()
	if err != nil || left != 0 || len(at) != 6+3 {
		t.Fatal(len(at), left, err)
	}
	for i, q := range at[:6] {
		if want := (geom.Point{X: 40 + 136*float64(i), Y: 15}); q.Distance(want) > 1e-9 {
			t.Errorf("hole %d at %v, want %v", i, q, want)
		}
	}
	for _, bad := range []pattern.Clips{{Edges: []string{"z"}, Inset: 15}, {Inset: 2}, {Inset: math.NaN()}} {
		p.Clips = &bad
		if _, _, err := p.Holes(); fault.KindOf(err) != fault.Invalid {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}

func TestPole(t *testing.T) {
	ell := pattern.Line{{X: 0, Y: 0}, {X: 300, Y: 0}, {X: 300, Y: 40}, {X: 100, Y: 40}, {X: 100, Y: 300}, {X: 0, Y: 300}}
	for _, c := range []struct {
		line pattern.Line
		deep float64
	}{
		{rect(400, 100), 50}, {pattern.Line{{X: 0, Y: 0}, {X: 300, Y: 0}, {X: 0, Y: 400}}, 100}, {ell, 50}, {nil, 0},
	} {
		at, deep := pattern.Pole(c.line)
		if !near(deep, c.deep, 0.5) || deep > 0 && !near(geom.Polygon{Outer: c.line}.Depth(at), deep, 1e-9) {
			t.Errorf("%v: %g mm deep at %v, want %g", c.line, deep, at, c.deep)
		}
	}
}

// TestLine_JSON holds the form that other rooms read and write.
func TestLine_JSON(t *testing.T) {
	p := dressed()
	text, err := json.Marshal(p)
	if err != nil || !strings.Contains(string(text), `"line":[[0,0],[760,0],`) {
		t.Fatal(string(text), err)
	}
	var q pattern.Piece
	if err := json.Unmarshal(text, &q); err != nil || !reflect.DeepEqual(p, q) {
		t.Errorf("read back\n%+v, %v, want\n%+v", q, err, p)
	}
	if err := json.Unmarshal([]byte(`{"line":[[1]]}`), &q); err != nil {
		t.Error(err) // a missing number is 0, as everywhere in encoding/json
	}
}
