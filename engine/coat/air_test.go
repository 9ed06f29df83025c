package coat_test

import (
	"math"
	"testing"

	"fettle/engine/coat"

	"pgregory.net/rapid"
)

// TestDewPoint_OfTheTrade holds the worked values of docs/engine/coat.md.
func TestDewPoint_OfTheTrade(t *testing.T) {
	for _, tt := range []struct{ air, rh, want float64 }{
		{20, 50, 9.26}, {20, 60, 12.00}, {20, 85, 17.40}, {25, 70, 19.15}, {10, 80, 6.71}, {30, 60, 21.39},
	} {
		got, err := coat.DewPoint(tt.air, tt.rh)
		good(t, err)
		near(t, "dew point", got, tt.want, 0.006)
		// The other published pair of constants agrees to 0.01 °C.
		g := math.Log(tt.rh/100) + 17.625*tt.air/(243.04+tt.air)
		near(t, "dew point by the other pair", got, 243.04*g/(17.625-g), 0.011)
	}
}

// TestMargin_ColdBooth: 17 °C, 72 %, roof metal 13.5 °C.
func TestMargin_ColdBooth(t *testing.T) {
	dew, err := coat.DewPoint(17, 72)
	good(t, err)
	near(t, "dew point", dew, 11.9, 0.05)
	for metal, want := range map[float64]float64{13.5: 1.6, 16: 4.1} {
		got, err := coat.Margin(metal, 17, 72)
		good(t, err)
		near(t, "margin", got, want, 0.05)
	}
	least, err := coat.LeastMetal(17, 72)
	good(t, err)
	near(t, "least metal", least, 14.9, 0.05)
}

// TestDewPoint_Properties: saturated air has its own dew point; drier air a
// lower one; the most humidity for a metal leaves it just its margin.
func TestDewPoint_Properties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air, rh := rapid.Float64Range(-10, 45).Draw(t, "air"), rapid.Float64Range(1, 100).Draw(t, "rh")
		dew, err := coat.DewPoint(air, rh)
		full, _ := coat.DewPoint(air, 100)
		if err != nil || dew > air+1e-9 || math.Abs(full-air) > 1e-9 {
			t.Fatalf("dew point %g of %g °C, %g %%, saturated %g, %v", dew, air, rh, full, err)
		}
		metal := rapid.Float64Range(air-10, air).Draw(t, "metal")
		most, err := coat.MostRH(metal, air)
		if err != nil {
			t.Fatal(err)
		}
		if most >= 1 {
			if m, err := coat.Margin(metal, air, most); err != nil || math.Abs(m-coat.DewMargin) > 1e-6 {
				t.Fatalf("margin %g at the most humidity %g %%, %v", m, most, err)
			}
		}
	})
}

func TestAir_Refuses(t *testing.T) {
	for _, tt := range []struct {
		metal, air, rh float64
		holds          string
	}{
		{20, 20, 4500, "was 45 % meant?"}, {20, 20, 0.45, "was 45 % meant?"}, {20, 20, 0, "hygrometer"},
		{20, 20, -5, "hygrometer"}, {20, 20, math.NaN(), "no reading"}, {20, 68, 50, "it is 20.0 °C"}, {20, -300, 50, "thermometer"}, {20, 300, 50, "thermometer"},
		{-20, 20, 50, "infra-red"}, {math.NaN(), 20, 50, "no reading"}, {20, 20, 1e9, "hygrometer"},
	} {
		_, err := coat.Margin(tt.metal, tt.air, tt.rh)
		refused(t, tt.holds, err, tt.holds)
	}
}
