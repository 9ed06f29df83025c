package loom

import (
	"math"
	"strings"
	"testing"
)

// The worked numbers of the trade that the tables and formulas come to.

// TestTrade_Conductors: IEC 60228 class 5 and the thin-wall sheet, ISO 6722 type B,
// size for size.
func TestTrade_Conductors(t *testing.T) {
	ohms := map[string]float64{"0.5": 39, "0.75": 26, "1.0": 19.5, "1.5": 13.3, "2.5": 7.98, "4.0": 4.95, "6.0": 3.3, "10": 1.91, "16": 1.21, "25": 0.78, "35": 0.554, "50": 0.386, "70": 0.272}
	amps := map[string][2]float64{"0.5": {1.7, 11}, "0.75": {1.9, 14}, "1.0": {2.1, 16.5}, "1.5": {2.4, 21}, "2.0": {2.8, 25}, "2.5": {3, 29}, "3.0": {3.4, 33}, "4.0": {3.7, 39}, "6.0": {4.3, 50}, "10": {6, 70}}
	for _, c := range thinWall().Sizes {
		if want, ok := ohms[c.Name]; ok && c.MilliOhmPerM != want {
			t.Errorf("%s mm²: %g mΩ/m, want %g", c.Name, c.MilliOhmPerM, want)
		}
		if want, ok := amps[c.Name]; ok && (c.OD != want[0] || c.Amps != want[1]) {
			t.Errorf("%s mm²: %g mm, %g A, want %v", c.Name, c.OD, c.Amps, want)
		}
		delete(ohms, c.Name)
		delete(amps, c.Name)
	}
	if len(ohms)+len(amps) > 0 {
		t.Errorf("not in the table: %v %v", ohms, amps)
	}
	for mm2, want := range map[float64]float64{0.5: 10, 4: 10, 6: 6, 16: 6, 25: 4, 50: 4, 70: 3, 95: 3} {
		if got := density(mm2); got != want {
			t.Errorf("handbook density of %g mm²: %g A/mm², want %g", mm2, got, want)
		}
	}
}

// TestTrade_StarterCable: 0.5 V at 150 A allow 3.3 mΩ, which is 4.3 m of 25 mm²,
// 6.0 m of 35 mm² and 8.6 m of 50 mm², there and back.
func TestTrade_StarterCable(t *testing.T) {
	for name, metres := range map[string]float64{"25": 4.3, "35": 6.0, "50": 8.6} {
		c := (&Problem{}).sizes(thinWall())[name]
		near(t, name+" mm²", 0.5/150/c.Ohms(1, 20), metres, 0.01)
	}
}

// TestTrade_Ambient: cable for 105 °C, told at 30 °C, carries √(25 ÷ 75) = 0.577 of
// its amps in a bay of 80 °C; the flat bundle factor comes on top.
func TestTrade_Ambient(t *testing.T) {
	p := Problem{AmbientC: 80, FlatBundle: 1, Circuits: []Circuit{{Run: Run{ID: "C1", LengthM: 1, Section: "1.0"}, Amps: 1, Fuse: "F"}}, Fuses: []Fuse{{Name: "F", Amps: 5}}}
	near(t, "usable in the bay", solved1(t, p).Runs[0].UsableA, 16.5*math.Sqrt(25.0/75), 1e-9)
	p.AmbientC = 20
	near(t, "usable in the cold, never more than printed", solved1(t, p).Runs[0].UsableA, 16.5, 1e-9)
}

// TestTrade_Drops: the handbook's limits at 12 V, half of them at 6 V.
func TestTrade_Drops(t *testing.T) {
	for _, c := range []struct {
		use   Use
		watts float64
		want  float64
	}{{Lamp, 10, 0.1}, {Lamp, 21, 0.5}, {Headlamp, 55, 0.3}, {Starter, 1500, 0.5}, {Control, 50, 0.5}, {Solenoid, 200, 1.4}, {Regulate, 40, 0.1}, {Other, 50, 0.5}} {
		for volts, scale := range map[float64]float64{12: 1, 6: 0.5} {
			p := Problem{NominalV: volts}
			got, says := p.dropLimit(&Consumer{Use: c.use, Watts: c.watts})
			near(t, says, got, c.want*scale, 1e-12)
		}
	}
}

// TestTrade_Windows: ISO 8820-3, blade and type E, shortest and longest seconds.
func TestTrade_Windows(t *testing.T) {
	for _, c := range []struct {
		kind               string
		multiple, from, to float64
	}{{Blade, 1.35, 0.75, 1800}, {Blade, 1.6, 0.25, 50}, {Blade, 2, 0.15, 5}, {Blade, 3.5, 0.04, 0.5}, {Blade, 6, 0.02, 0.1}, {Maxi, 1.35, 60, 1800}, {Maxi, 2, 2, 60}, {Maxi, 3.5, 0.2, 7}, {Maxi, 6, 0.04, 1}} {
		curve, _ := (&Problem{}).curve(c.kind)
		if from, to := curve.Shortest(c.multiple), curve.Longest(c.multiple); from != c.from || to != c.to {
			t.Errorf("%s at %g ×: %g to %g s, want %g to %g", c.kind, c.multiple, from, to, c.from, c.to)
		}
	}
	for name, want := range map[string][3]float64{Blade: {1.1, 1.1, 1.35}, Maxi: {1.35, 1, 2}} {
		curve, _ := (&Problem{}).curve(name)
		if got := [3]float64{curve.Holds(10), curve.Holds(3600), curve.Holds(0.5)}; got != want {
			t.Errorf("%s holds 10 s, an hour, half a second at %v ×, want %v", name, got, want)
		}
	}
}

// TestTrade_Inrush: two lamps of 55 W pulse with 2 × 1.77 A²s beyond their steady
// amps. Makers allow 22 % of the melting heat for 100 000 pulses: 3.96 A²s of a
// blade of 5 A, 1.43 of 3 A; 2 A melts at 2.88 A²s.
func TestTrade_Inrush(t *testing.T) {
	near(t, "pulse", pulse(55/13.5, 10, 0.004), 1.768, 0.001)
	for rating, want := range map[float64]string{2: "opens", 3: "may open", 5: "holds"} {
		p := tail()
		p.Fuses[2].Amps = rating
		p.Consumers[2].Watts, p.Consumers[3].Watts = 55, 55
		if r := solved1(t, p); r.Fuses[2].Inrush != want {
			t.Errorf("%g A: %s, want %s", rating, r.Fuses[2].Inrush, want)
		}
	}
}

// TestTrade_Light: light follows volts to the 3.4th power: a tenth of the volts
// costs three tenths of the light.
func TestTrade_Light(t *testing.T) {
	near(t, "light at 90 %", light(0.9), 0.699, 0.001)
	p := tail()
	p.Joints[2].Ohms = 0.5
	for _, f := range solved1(t, p).Flaws {
		if f.Kind == ThinEarth && !strings.Contains(f.Does, "% of its light") {
			t.Errorf("nothing is said of light: %s", f.Does)
		}
	}
}

// TestTrade_ShortLoads: a fuse that feeds nothing but a horn of 12 A asks for what
// holds that for ten seconds: 12 ÷ 1.1 = 10.9 A. With 5.5 A for long beside 3 A for
// seconds the larger of both counts.
func TestTrade_ShortLoads(t *testing.T) {
	p := Problem{
		Fuses: []Fuse{{Name: "F1", Amps: 15}, {Name: "F2", Amps: 10}, {Name: "F3", Amps: 5}},
		Circuits: []Circuit{
			{Run: Run{ID: "C1", LengthM: 1, Duty: Short}, Amps: 12, Fuse: "F1"},
			{Run: Run{ID: "C2", LengthM: 1}, Amps: 5.5, Fuse: "F2"}, {Run: Run{ID: "C3", LengthM: 1, Duty: Short}, Amps: 3, Fuse: "F2"},
		},
	}
	r := solved1(t, p)
	near(t, "horn alone", r.Fuses[0].NeedA, 12/1.1, 1e-9)
	near(t, "beside what is on for long", r.Fuses[1].NeedA, 8.5/1.1, 1e-9)
	for i, want := range []string{"12.0 A ÷ 1.1, at which it holds 10 s for certain, = 10.9 A ≤ 15 A", "C2 5.5 = 5.5 A × 1.333 = 7.3 A ≤ 10 A; for seconds 8.5 A", "nothing that is known draws through it"} {
		if with := r.Fuses[i].Working.With; r.Fuses[i].Flag || !strings.Contains(with, want) {
			t.Errorf("%s: %s, want %s", r.Fuses[i].Name, with, want)
		}
	}
}
