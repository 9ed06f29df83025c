package unit

import (
	"encoding/json"
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseDecimal(t *testing.T) {
	tests := []struct {
		text   string
		places int
		want   int64
		err    error
	}{
		{"0", 2, 0, nil},
		{"12.5", 2, 1250, nil},
		{"-12.5", 2, -1250, nil},
		{"12.", 2, 1200, nil},
		{"007", 0, 7, nil},
		{"-0", 2, 0, nil},
		{"0.004", 2, 0, nil},
		{"0.005", 2, 1, nil},
		{"-0.005", 2, -1, nil},
		{"-0.004", 2, 0, nil},
		{"1.999", 2, 200, nil},
		{"2.5", 0, 3, nil},
		{"-2.5", 0, -3, nil},
		{"0.00499999999999999999999999999", 2, 0, nil},
		{"92233720368547758.07", 2, math.MaxInt64, nil},
		{"-92233720368547758.07", 2, -math.MaxInt64, nil},
		{"92233720368547758.069", 2, math.MaxInt64, nil},
		{"92233720368547758.075", 2, 0, ErrRange},
		{"92233720368547758.08", 2, 0, ErrRange},
		{"-92233720368547758.08", 2, 0, ErrRange},
		{strings.Repeat("9", 40), 0, 0, ErrRange},
		{"", 2, 0, ErrDecimal},
		{"-", 2, 0, ErrDecimal},
		{".5", 2, 0, ErrDecimal},
		{"+1", 2, 0, ErrDecimal},
		{"--1", 2, 0, ErrDecimal},
		{"1e3", 2, 0, ErrDecimal},
		{"1,000", 2, 0, ErrDecimal},
		{" 1", 2, 0, ErrDecimal},
		{"1.2.3", 2, 0, ErrDecimal},
		{"1.-2", 2, 0, ErrDecimal},
		{"0x10", 2, 0, ErrDecimal},
		{"NaN", 2, 0, ErrDecimal},
		{"٣", 2, 0, ErrDecimal},
	}
	for _, tt := range tests {
		got, err := ParseDecimal(tt.text, tt.places)
		if got != tt.want || !errors.Is(err, tt.err) {
			t.Errorf("ParseDecimal(%q, %d) = %d, %v, want %d, %v", tt.text, tt.places, got, err, tt.want, tt.err)
		}
	}
}

func TestFormatDecimal(t *testing.T) {
	tests := []struct {
		n             int64
		places, least int
		want          string
	}{
		{0, 2, 0, "0"},
		{0, 2, 2, "0.00"},
		{5, 2, 0, "0.05"},
		{-5, 2, 0, "-0.05"},
		{1250, 2, 0, "12.5"},
		{1250, 2, 2, "12.50"},
		{1200, 2, 0, "12"},
		{1200, 0, 0, "1200"},
		{-1_000_001, 6, 2, "-1.000001"},
		{math.MaxInt64, 2, 2, "92233720368547758.07"},
		{math.MinInt64, 2, 2, "-92233720368547758.08"},
	}
	for _, tt := range tests {
		if got := FormatDecimal(tt.n, tt.places, tt.least); got != tt.want {
			t.Errorf("FormatDecimal(%d, %d, %d) = %q, want %q", tt.n, tt.places, tt.least, got, tt.want)
		}
	}
}

func TestParseDecimal_ReadsWhatFormatDecimalWrites(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-math.MaxInt64, math.MaxInt64).Draw(t, "n")
		places := rapid.IntRange(0, 9).Draw(t, "places")
		text := FormatDecimal(n, places, rapid.IntRange(0, places).Draw(t, "least"))
		if got, err := ParseDecimal(text, places); got != n || err != nil {
			t.Fatalf("ParseDecimal(%q, %d) = %d, %v, want %d", text, places, got, err, n)
		}
	})
}

func TestDecode_JSONNumbers(t *testing.T) {
	tests := []struct {
		json string
		want Money
		err  error
	}{
		{`12.5`, 1250, nil},
		{`"12.5"`, 1250, nil},
		{`1e3`, 100_000, nil},
		{`-1E3`, -100_000, nil},
		{`1.5e-1`, 15, nil},
		{`5e-3`, 1, nil},
		{`4.9996e-3`, 0, nil}, // rounded once: by way of 0.005 it would be a whole hundredth
		{`-4.9996e-3`, 0, nil},
		{`1e-30`, 0, nil},
		{`1e12`, 100_000_000_000_000, nil},
		{`1e13`, 0, ErrRange},
		{`-1e13`, 0, ErrRange},
		{`1e999`, 0, ErrRange},
		{`99999999999999999999`, 0, ErrRange},
		{`"1e3"`, 0, ErrDecimal},
		{`"0xEp1"`, 0, ErrDecimal},
		{`"1 000"`, 0, ErrDecimal},
		{`""`, 0, ErrDecimal},
		{`null`, 0, ErrDecimal},
		{`true`, 0, ErrDecimal},
		{`false`, 0, ErrDecimal},
		{`[1]`, 0, ErrDecimal},
		{`{}`, 0, ErrDecimal},
	}
	for _, tt := range tests {
		got := Money(-99)
		err := json.Unmarshal([]byte(tt.json), &got)
		if tt.err != nil {
			tt.want = -99 // a value that cannot be read leaves the old one
		}
		if got != tt.want || !errors.Is(err, tt.err) {
			t.Errorf("%s = %d, %v, want %d, %v", tt.json, got, err, tt.want, tt.err)
		}
	}
}

func TestMulDiv(t *testing.T) {
	tests := []struct{ a, b, c, want int64 }{
		{7, 1, 2, 4},
		{-7, 1, 2, -4},
		{7, -1, 2, -4},
		{-7, -1, 2, 4},
		{5, 1, 3, 2},
		{4, 1, 3, 1},
		{-4, 1, 3, -1},
		{0, 5, 3, 0},
		{1, 1, 2, 1},
		{1 << 31, 1 << 30, 1, 1 << 61},
	}
	for _, tt := range tests {
		if got := MulDiv(tt.a, tt.b, tt.c); got != tt.want {
			t.Errorf("MulDiv(%d, %d, %d) = %d, want %d", tt.a, tt.b, tt.c, got, tt.want)
		}
	}
}

// TestMulDiv_AsExactArithmetic compares with big numbers: ⌊(2|ab| + c) ÷ 2c⌋
// with the sign of ab.
func TestMulDiv_AsExactArithmetic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Int64Range(-1<<31, 1<<31).Draw(t, "a")
		b := rapid.Int64Range(-1<<30, 1<<30).Draw(t, "b")
		c := rapid.Int64Range(1, 1<<40).Draw(t, "c")
		ab := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
		half := new(big.Int).Mul(new(big.Int).Abs(ab), big.NewInt(2))
		want := half.Add(half, big.NewInt(c)).Quo(half, big.NewInt(2*c)).Int64() * int64(ab.Sign())
		if got := MulDiv(a, b, c); got != want {
			t.Fatalf("MulDiv(%d, %d, %d) = %d, want %d", a, b, c, got, want)
		}
	})
}

func FuzzParseDecimal(f *testing.F) {
	for _, seed := range []string{"0", "-12.5", "0.005", "92233720368547758.06", "1e3", "", "-", "1.2.3", "00.10"} {
		f.Add(seed, 2)
	}
	f.Fuzz(func(t *testing.T, text string, places int) {
		places = ((places % 10) + 10) % 10
		n, err := ParseDecimal(text, places)
		if err != nil {
			if n != 0 || !errors.Is(err, ErrDecimal) && !errors.Is(err, ErrRange) {
				t.Fatalf("ParseDecimal(%q, %d) = %d, %v", text, places, n, err)
			}
			return
		}
		if again, err := ParseDecimal(FormatDecimal(n, places, 0), places); again != n || err != nil {
			t.Fatalf("%q is %d, which is written %q and read as %d, %v", text, n, FormatDecimal(n, places, 0), again, err)
		}
		// A float agrees to within a step and its own precision.
		if exact, _ := new(big.Float).SetString(text); exact != nil {
			got := new(big.Float).Quo(big.NewFloat(float64(n)), big.NewFloat(math.Pow10(places)))
			diff, _ := new(big.Float).Abs(new(big.Float).Sub(got, exact)).Float64()
			size, _ := new(big.Float).Abs(exact).Float64()
			if diff > 0.51*math.Pow10(-places)+1e-12*size {
				t.Fatalf("ParseDecimal(%q, %d) = %d, which is %v off", text, places, n, diff)
			}
		}
	})
}
