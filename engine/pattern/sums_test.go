package pattern_test

import (
	"strings"
	"testing"

	"fettle/engine/pattern"
	"fettle/fault"
	"fettle/figure"
)

func v(x float64) pattern.Given { return pattern.Given{Value: x, Source: figure.Measured} }

// none is a 0 that is meant.
var none = v(0)

func amount(a pattern.Amount, err error) func() (pattern.Amount, error) {
	return func() (pattern.Amount, error) { return a, err }
}

// TestSums_Worked holds the sums to worked values: trade facts on trim, section
// by section.
func TestSums_Worked(t *testing.T) {
	wheel := pattern.Wheel{Rim: v(17 * 25.4), Grip: v(28), Stretch: none}
	strip, err := wheel.Strip()
	if err != nil {
		t.Fatal(err)
	}
	row := pattern.Row{Length: v(1000), Stack: v(4), Pitch: v(4), Waste: none, Bobbin: v(0.9), Seen: true}
	chain := row
	chain.Chain = true
	thread, err := row.Thread()
	if err != nil {
		t.Fatal(err)
	}
	looped, err := chain.Thread()
	if err != nil {
		t.Fatal(err)
	}
	bias, err := pattern.Piping{Length: v(6000), Corners: v(4), Cord: v(4), Thickness: v(1.1), Allowance: v(12.7), Piece: v(1370), Bias: true}.Strips()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		section, name string
		got           func() (pattern.Amount, error)
		want, within  float64
		text          string
	}{
		{"3.1 stretch", "leather, 3 % on 20 in", amount(pattern.Stretched(v(20*25.4), v(0.03))), 19.4 * 25.4, 1e-9, "492.8 mm"},
		{"3.2 pleat", "half of a half-inch foam, 8 lines", amount(pattern.PleatedWidth(v(600), v(8), v(6.35), v(12))), 600 + 8*6.35 + 24, 1e-9, "674.8 mm"},
		{"3.2 pleat", "1 in in 8: an eighth in 3 in", amount(pattern.PleatLoss(v(8*25.4), v(7*25.4), v(8))), 25.4 / 8, 1e-9, "3.175 mm"},
		{"3.2 piping", "4 mm cord, 1.1 mm, half an inch", amount(bias.Width, nil), 41.42, 0.01, "41 mm"},
		{"3.2 piping", "25 mm a corner", amount(bias.Length, nil), 6100, 1e-9, "6100 mm"},
		{"3.2 piping", "by a quarter", amount(pattern.PipingCord(v(6000), pattern.Given{}, v(0.25))), 7.5, 1e-9, "7.50 m"},
		{"3.2 bias", "width ÷ sin 45°", amount(bias.Each, nil), 1937.5, 0.1, "1937 mm"},
		{"3.2 bias", "four strips, three joins of two allowances", amount(bias.Count, nil), 4, 0, "4"},
		{"3.2 bias", "a metre square in 41 mm", amount(pattern.BiasYield(v(1000), v(1000), v(40))), 25, 1e-9, "25.00 m"},
		{"3.2 thread", "lockstitch, stack 4, pitch 4", amount(row.ThreadRate()), 4, 0, "4.0 m/m"},
		{"3.2 thread", "chain, 4 + 2 T S", amount(chain.ThreadRate()), 6, 0, "6.0 m/m"},
		{"3.2 thread", "a metre of seam", amount(thread.Total, nil), 4, 1e-12, "4.0 m"},
		{"3.2 bobbin", "half of it", func() (pattern.Amount, error) { return *thread.Bobbins, nil }, 3, 0, "3"},
		{"3.3 foam", "a cushion of 22 l at 40 kg/m³", amount(pattern.Foam(v(22), v(40))), 0.88, 1e-9, "0.88 kg"},
		{"3.3 cover", "4 % under a girth of 1500", amount(pattern.Girth(v(1500), pattern.Given{})), 1440, 1e-9, "1440.0 mm"},
		{"3.3 adhesive", "5 m² of joint a litre", amount(pattern.Glue{Area: v(5.15), Waste: none}.Adhesive()), 1, 1e-9, "1.00 l"},
		{"3.3 clips", "round a card of 2.04 m, 150 mm", amount(pattern.ClipCount(v(2040), pattern.Given{}, true)), 14, 0, "14"},
		{"3.3 clips", "along 300 mm at 150", amount(pattern.ClipCount(v(300), v(150), false)), 3, 0, "3"},
		{"3.3 hog rings", "a wire of 450 mm", amount(pattern.HogRings(v(450), pattern.Given{})), 10, 0, "10"},
		{"3.3 listing", "two sleeves, ends bent", amount(pattern.ListingWire([]pattern.Given{v(450), v(380)}, pattern.Given{})), 0.93, 1e-9, "0.93 m"},
		{"3.3 deadener", "6 m², 80 % covered, 3 kg/m²", amount(pattern.Deadener(v(6), v(3), v(0.8))), 14.4, 1e-9, "14.40 kg"},
		{"3.3 board", "a visor of 400 × 160, 20 mm over", amount(pattern.GluedBoard(v(400), v(160), v(20), pattern.Given{})), 0.44 * 0.2, 1e-12, "0.088 m²"},
		{"3.3 wheel", "17 in is 1.36 m round", amount(strip.Length, nil), 1356.5, 0.1, "1357 mm"},
		{"3.3 wheel", "outside and inside of a 28 mm grip", amount(strip.Wrinkle, nil), 88, 0.05, "88 mm"},
		{"3.3 wheel", "which is 6.5 %", amount(strip.Strain, nil), 6.48, 0.01, "6.5 %"},
		{"3.3 wheel", "strip for a butt seam, 3 % stretch", func() (pattern.Amount, error) {
			w, err := pattern.Wheel{Rim: v(400), Grip: v(28)}.Strip()
			return w.Width, err
		}, 85.3, 0.05, "85.3 mm"},
		{"strap", "30 mm of 1.2 mm, folded", amount(pattern.Strap(v(30), v(1.2), none)), 63.77, 0.01, "63.8 mm"},
	} {
		a, err := c.got()
		if err != nil {
			t.Errorf("%s, %s: %v", c.section, c.name, err)
			continue
		}
		if !near(a.Value, c.want, c.within) || a.Working.Text != c.text {
			t.Errorf("%s, %s: %g (%s), want %g (%s)", c.section, c.name, a.Value, a.Working.Text, c.want, c.text)
		}
		if a.Working.Formula == "" || !strings.HasSuffix(a.Working.With, "= "+c.text) || len(a.Working.Inputs) == 0 {
			t.Errorf("%s, %s shows no working: %+v", c.section, c.name, a.Working)
		}
	}
	if !thread.Joins || !near(thread.Needle, 2, 1e-12) || !near(looped.Bobbin, 2, 1e-12) || looped.Bobbins != nil {
		t.Errorf("threads are shared out %+v and %+v", thread, looped)
	}
	if !near(bias.Area.Value, 4*1.93747*0.041422, 1e-4) || bias.Joins != 3 {
		t.Errorf("bias strips: %+v", bias)
	}
}

// TestSums_Refuse shows that a number that cannot be is refused by name.
func TestSums_Refuse(t *testing.T) {
	for _, c := range []struct {
		got  func() (pattern.Amount, error)
		want string
	}{
		{amount(pattern.Stretched(v(500), v(3))), "cut length, stretch: 3"},
		{amount(pattern.Stretched(v(500), pattern.Given{})), "cut length, stretch: it is not given"},
		{amount(pattern.Row{Length: v(1), Stack: v(4), Pitch: v(0)}.ThreadRate()), "thread in a lockstitch, stitch pitch: 0 mm"},
		{amount(pattern.PleatLoss(v(100), v(101), v(1))), "loss a line, sewn: 101 mm"},
		{func() (pattern.Amount, error) {
			s, err := pattern.Piping{Length: v(900), Thickness: v(1), Allowance: v(20), Piece: v(55)}.Strips()
			return s.Count, err
		}, "strips: strips of 55 mm with 20 mm at each join"},
		{amount(pattern.Foam(v(1), v(4000))), "foam, density: 4000 kg/m³"},
	} {
		if _, err := c.got(); err == nil || err.Error()[:len(c.want)] != c.want || fault.KindOf(err) != fault.Invalid || fault.HintOf(err) == "" {
			t.Errorf("got %v, want %s", err, c.want)
		}
	}
}

// TestGiven_Source shows that a default says so and that a 0 can be meant.
func TestGiven_Source(t *testing.T) {
	a, err := pattern.Glue{Area: pattern.Given{Value: 2, Source: figure.Measured, Link: "piece/T3"}, Waste: none}.Adhesive()
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, in := range a.Working.Inputs {
		got += in.Name + " " + in.Value + " " + string(in.Source) + " " + in.Link + "; "
	}
	if want := "joint 2 m² measured piece/T3; coated faces 2 trade default ; yield 10.3 m²/l a face trade default ; waste 0 % measured ; "; got != want {
		t.Errorf("inputs are\n%s, want\n%s", got, want)
	}
	if !strings.Contains(a.Working.Caution, "vapour") {
		t.Error("adhesive has no caution")
	}
}

func TestMotif_Stitches(t *testing.T) {
	m := pattern.Motif{Strokes: []pattern.Line{{{X: 0}, {X: 100}}, {{X: 0}, {X: 50}, {X: 50, Y: 30}}}, Scale: 2, Pitch: 5}
	for _, c := range []struct {
		with func(*pattern.Motif)
		want float64
	}{
		{func(*pattern.Motif) {}, 41 + 33},
		{func(m *pattern.Motif) { m.Cuts = true }, 0},
		{func(m *pattern.Motif) { m.Pitch = 0 }, 51 + 41},
	} {
		one := m
		c.with(&one)
		if a, err := one.Stitches(); err != nil || a.Value != c.want {
			t.Errorf("%g stitches, %v, want %g", a.Value, err, c.want)
		}
	}
}
