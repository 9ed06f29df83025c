package coat_test

import (
	"math"
	"testing"

	"fettle/engine/coat"
	"fettle/unit"

	"pgregory.net/rapid"
)

// day reads a moment.
func day(t *testing.T, text string) unit.Moment {
	t.Helper()
	m, err := unit.ParseMoment(text)
	good(t, err)
	return m
}

// TestPotLife_OfTheTrade is the row of docs/engine/coat.md: 60 min at 20 °C.
func TestPotLife_OfTheTrade(t *testing.T) {
	for i, want := range []float64{120, 85, 60, 42, 30, 21} {
		got, err := coat.PotLife(60, 10+5*float64(i))
		good(t, err)
		near(t, "pot life", got, want, 0.5)
	}
	_, err := coat.PotLife(60, 9)
	refused(t, "cold mix", err, "10 to 35")
}

// TestScale_OfTheSheet: 2^((20−T)/12) between 16 and 30 °C.
func TestScale_OfTheSheet(t *testing.T) {
	for _, tt := range []struct{ metal, doubling, want float64 }{
		{20, 0, 12}, {16, 0, 12 * math.Exp2(4.0/12)}, {30, 10, 6}, {26, 12, 12 / math.Sqrt2},
	} {
		got, err := coat.Scale(12, tt.metal, tt.doubling)
		good(t, err)
		near(t, "scaled", got, tt.want, 1e-9)
	}
	for _, metal := range []float64{15.9, 30.1, math.NaN()} {
		_, err := coat.Scale(12, metal, 0)
		refused(t, "outside", err, "16 to 30 °C")
	}
}

// TestScale_Monotone: never longer on warmer metal, and no shorter pot in the cold.
func TestScale_Monotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(16, 30).Draw(t, "a"), rapid.Float64Range(16, 30).Draw(t, "b")
		if a > b {
			a, b = b, a
		}
		cold, err1 := coat.Scale(30, a, 0)
		warm, err2 := coat.Scale(30, b, 0)
		if err1 != nil || err2 != nil || cold < warm {
			t.Fatalf("%g min at %g °C, %g at %g", cold, a, warm, b)
		}
		laid := unit.Moment(29_000_000)
		r := coat.Recoat{From: 25, To: 1440}
		wc, err1 := r.Window(laid, a)
		ww, err2 := r.Window(laid, b)
		if err1 != nil || err2 != nil || wc.From < ww.From || wc.To < ww.To || wc.To > laid+1440 {
			t.Fatalf("windows %v at %g, %v at %g", wc, a, ww, b)
		}
	})
}

// TestFlash: a film twice as thick takes four times as long; half of one is not
// taken to be quicker.
func TestFlash(t *testing.T) {
	for _, tt := range []struct{ wet, sheet, want float64 }{{0, 0, 10}, {50, 50, 10}, {100, 50, 40}, {25, 50, 10}} {
		got, err := coat.Flash(10, 20, 0, tt.wet, tt.sheet)
		good(t, err)
		near(t, "flash", got, tt.want, 1e-9)
	}
	_, err := coat.Flash(10, 20, 0, 50, 0)
	refused(t, "half a comparison", err, "maker's sheet")
}

func TestForceDryAndAged(t *testing.T) {
	for metal, want := range map[float64]float64{60: 30, 50: 60, 40: 120, 70: 15} {
		got, err := coat.ForceDry(30, metal)
		good(t, err)
		near(t, "force dry", got, want, 1e-9)
	}
	_, err := coat.ForceDry(30, 20)
	refused(t, "cold bake", err, "metal that counts")
	got, err := coat.Aged([]coat.Spell{{0, 20}, {60, 20}, {600, 12}, {60, 26}, {60, 45}}, 6)
	good(t, err)
	near(t, "a night under 16 °C counts for nothing, 45 °C as 30", got, 60+120+60*math.Exp2(10.0/6), 1e-9)
	_, err = coat.Aged([]coat.Spell{{60, 400}}, 0)
	refused(t, "red hot", err, "spell 1")
}

// TestRecoat_ColdBooth: base went on at 16:10 yesterday, clear must
// be on by 16:10 today, however cold it has got.
func TestRecoat_ColdBooth(t *testing.T) {
	laid, r := day(t, "2027-01-05T16:10"), coat.Recoat{From: 25, To: 1440}
	by, err := r.Latest(laid, 13.5)
	if err != nil || by != day(t, "2027-01-06T16:10") {
		t.Errorf("clear by %v, %v, want 2027-01-06T16:10", by, err)
	}
	w, err := r.Window(laid, 20)
	if err != nil || w.From != laid+25 || w.To != by {
		t.Errorf("window %v to %v, %v", w.From, w.To, err)
	}
	c := coat.Clock{Name: "clear over base", Window: w}
	for now, want := range map[string]string{
		"2027-01-05T16:20": "clear over base: not yet, opens in 15 min (16:35)",
		"2027-01-05T16:35": "clear over base: open, 23 h 35 min left (by 16:10 on Wed 6 Jan)",
		"2027-01-06T15:30": "clear over base: closing, 40 min left (by 16:10)",
		"2027-01-06T16:10": "clear over base: closing, 0 min left (by 16:10)",
		"2027-01-06T16:11": "clear over base: closed 1 min ago (16:10)",
	} {
		if got := c.Say(day(t, now)); got != want {
			t.Errorf("at %s it says %q, want %q", now, got, want)
		}
	}
	if warm, _ := r.Latest(laid, 26); warm >= by {
		t.Errorf("at 26 °C it closes %v, want before %v", warm, by)
	}
	_, err = r.Window(laid, 13.5)
	refused(t, "two-pack on cold metal", err, "warm the metal")
	_, err = coat.Recoat{From: 60, To: 70}.Window(laid, 16)
	refused(t, "opens after it closes", err, "warm the metal")
}

// TestWindow_Short: a window of 20 min is closing for its second half, one of
// ten hours for its last hour.
func TestWindow_Short(t *testing.T) {
	for _, tt := range []struct {
		length, at unit.Moment
		want       coat.State
		left       int
	}{
		{20, 0, coat.Open, 20}, {20, 9, coat.Open, 11}, {20, 10, coat.Closing, 10}, {20, 20, coat.Closing, 0}, {20, 21, coat.Closed, 1},
		{600, 539, coat.Open, 61}, {600, 540, coat.Closing, 60}, {60, 44, coat.Open, 16}, {60, 45, coat.Closing, 15}, {60, -1, coat.NotYet, 1},
	} {
		w := coat.Window{From: 1000, To: 1000 + tt.length}
		if got, left := w.At(1000 + tt.at); got != tt.want || left != tt.left {
			t.Errorf("%d min of %d: %v, %d left, want %v, %d", tt.at, tt.length, got, left, tt.want, tt.left)
		}
	}
	if got, left := (coat.Window{From: 1000}).At(5000); got != coat.Open || left != -1 {
		t.Errorf("without an end: %v, %d", got, left)
	}
}

func TestDrying_Clocks(t *testing.T) {
	laid := day(t, "2027-01-08T12:00")
	list, err := coat.Drying{DustFree: 40, Polish: 3 * 1440}.Clocks(laid, 20)
	if err != nil || len(list) != 2 || list[0].From != laid+40 || list[1].From != laid+4320 {
		t.Fatalf("clocks %v, %v", list, err)
	}
	if got, want := list[1].Say(laid+4320), "cut and polish: open since 12:00"; got != want {
		t.Errorf("says %q, want %q", got, want)
	}
	if got, want := list[1].Say(laid), "cut and polish: not yet, opens in 3 d 0 h (12:00 on Mon 11 Jan)"; got != want {
		t.Errorf("says %q, want %q", got, want)
	}
}
