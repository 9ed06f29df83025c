package unit

import (
	"encoding/json"
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// roundTrip writes a value as JSON and reads it back, as a number and as text.
func roundTrip[T comparable](t *rapid.T, v T) {
	data, err := json.Marshal(v)
	if err != nil {
		t.Fatalf("write %v: %v", v, err)
	}
	forms := [][]byte{data}
	if data[0] != '"' {
		forms = append(forms, []byte(`"`+string(data)+`"`))
	}
	for _, form := range forms {
		var got T
		if err := json.Unmarshal(form, &got); err != nil || got != v {
			t.Fatalf("%T: %s reads as %v, %v, want %v", v, form, got, err, v)
		}
	}
}

func TestJSON_RoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-1<<50, 1<<50).Draw(t, "n")
		roundTrip(t, Length(n))
		roundTrip(t, Area(n))
		roundTrip(t, Volume(n))
		roundTrip(t, Mass(n))
		roundTrip(t, Money(n))
		roundTrip(t, Effort(n>>4))
		day := Date(rapid.Int32Range(-700_000, 2_900_000).Draw(t, "day"))
		roundTrip(t, day)
		roundTrip(t, day.At(int(n&15), int(n>>4&31)))
	})
}

func TestJSON_Forms(t *testing.T) {
	tests := []struct {
		value any
		want  string
	}{
		{Length(1_250_500), "1250.5"},
		{Length(-100), "-0.1"},
		{Area(9_000_000), "9.00"},
		{Area(1), "0.000001"},
		{Volume(600_000), "0.6"},
		{Mass(41 * Kilogram), "41"},
		{Money(1_250), "12.50"},
		{Money(-5), "-0.05"},
		{90 * Minute, "1.5"},
		{Minute, "0.0167"},
		{Day(2026, 10, 6), `"2026-10-06"`},
		{Date(0), `""`},
		{Day(2026, 10, 6).At(8, 5), `"2026-10-06T08:05"`},
		{Moment(0), `""`},
	}
	for _, tt := range tests {
		if got, err := json.Marshal(tt.value); string(got) != tt.want || err != nil {
			t.Errorf("%T(%v) is written %s, %v, want %s", tt.value, tt.value, got, err, tt.want)
		}
	}
}

func TestJSON_RefusesAndKeepsTheOldValue(t *testing.T) {
	length, area, volume, mass, effort, day, at := Length(7), Area(7), Volume(7), Mass(7), Effort(7), Date(7), Moment(7)
	for _, into := range []any{&length, &area, &volume, &mass, &effort, &day, &at} {
		if err := json.Unmarshal([]byte(`"about ten"`), into); err == nil {
			t.Errorf("%T reads \"about ten\", want an error", into)
		}
	}
	if length != 7 || area != 7 || volume != 7 || mass != 7 || effort != 7 || day != 7 || at != 7 {
		t.Errorf("after refusals: %d %d %d %d %d %d %d, want 7 each", length, area, volume, mass, effort, day, at)
	}
}

func TestString(t *testing.T) {
	tests := []struct {
		value fmt.Stringer
		want  string
	}{
		{1250 * Millimetre, "1250 mm"},
		{Length(500), "0.5 mm"},
		{Inch, "25.4 mm"},
		{Metre, "1000 mm"},
		{Area(2_899_999), "2.90 m²"},
		{-SquareMetre, "-1.00 m²"},
		{Volume(1_235_000), "1.24 l"},
		{Volume(4_999), "0.00 l"},
		{Volume(5_000), "0.01 l"},
		{Kilogram / 2, "0.5 kg"},
		{7 * Hour, "7 h"},
		{100 * Minute, "1.67 h"},
		{-90 * Minute, "-1.5 h"},
	}
	for _, tt := range tests {
		if got := tt.value.String(); got != tt.want {
			t.Errorf("%T = %q, want %q", tt.value, got, tt.want)
		}
	}
}

func TestFloats(t *testing.T) {
	for _, tt := range []struct {
		what      string
		got, want float64
	}{
		{"millimetres", (Metre + Millimetre/2).Mm(), 1000.5},
		{"square metres", Area(250_000).M2(), 0.25},
		{"litres", Volume(600_000).L(), 0.6},
		{"kilograms", Mass(41_500_000).Kg(), 41.5},
		{"hours", (90 * Minute).H(), 1.5},
	} {
		if tt.got != tt.want {
			t.Errorf("%s = %v, want %v", tt.what, tt.got, tt.want)
		}
	}
}

func TestRect(t *testing.T) {
	tests := []struct {
		w, h Length
		want Area
	}{
		{470 * Millimetre, 480 * Millimetre, 225_600},
		{0, Metre, 0},
		{Millimetre, Millimetre / 2, 1}, // half a square millimetre rounds up
		{20 * Metre, 20 * Metre, 400 * SquareMetre},
	}
	for _, tt := range tests {
		if got := Rect(tt.w, tt.h); got != tt.want {
			t.Errorf("Rect(%v, %v) = %d mm², want %d", tt.w, tt.h, got, tt.want)
		}
	}
}

func TestEffort_EveryMinuteOfAWeekIsExact(t *testing.T) {
	for m := Effort(0); m <= 7*24*Hour; m++ {
		if got := Hours(m.H()); got != m {
			t.Fatalf("Hours(%v) = %d min, want %d", m.H(), got, m)
		}
		data, _ := m.MarshalJSON()
		var got Effort
		if err := got.UnmarshalJSON(data); err != nil || got != m {
			t.Fatalf("%s h = %d min, %v, want %d", data, got, err, m)
		}
	}
}

func TestMoney_PerHour(t *testing.T) {
	tests := []struct {
		rate Money
		work Effort
		want Money
	}{
		{34_00, 36 * Hour, 1224_00},
		{34_00, 0, 0},
		{10, 3 * Minute, 1}, // half a hundredth rounds away from zero
		{10, -3 * Minute, -1},
		{10, 2 * Minute, 0},
		{38_50, 7*Hour + 36*Minute, 292_60},
	}
	for _, tt := range tests {
		if got := tt.rate.PerHour(tt.work); got != tt.want {
			t.Errorf("%d × %v = %d, want %d", tt.rate, tt.work, got, tt.want)
		}
	}
}

func TestMoney_Percent(t *testing.T) {
	tests := []struct {
		amount Money
		p      int64
		want   Money
	}{
		{58_000_00, 400, 2_320_00},
		{1224_00, 5000, 612_00},
		{1, 5000, 1},
		{-1, 5000, -1},
		{1, 4999, 0},
		{99_99, 10_000, 99_99},
		{99_99, 0, 0},
	}
	for _, tt := range tests {
		if got := tt.amount.Percent(tt.p); got != tt.want {
			t.Errorf("%d at %d hundredths of a per cent = %d, want %d", tt.amount, tt.p, got, tt.want)
		}
	}
}

func TestCurrency_Format(t *testing.T) {
	pound, krone := Currency{"GBP", "£"}, Currency{"NOK", "kr "}
	tests := []struct {
		c    Currency
		m    Money
		want string
	}{
		{pound, 0, "£0"},
		{pound, 5, "£0.05"},
		{pound, 50, "£0.50"},
		{pound, 99_900, "£999"},
		{pound, 1_000_00, "£1,000"},
		{pound, 12_345_67, "£12,345.67"},
		{pound, 12_345_60, "£12,345.60"},
		{pound, 1_234_567_00, "£1,234,567"},
		{pound, -1_000_00, "−£1,000"},
		{pound, -7, "−£0.07"},
		{krone, 80_180_00, "kr 80,180"},
		{krone, -12_50, "−kr 12.50"},
	}
	for _, tt := range tests {
		if got := tt.c.Format(tt.m); got != tt.want {
			t.Errorf("%s %d = %q, want %q", tt.c.Code, tt.m, got, tt.want)
		}
	}
}
