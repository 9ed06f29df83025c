package schedule

import (
	"hash/fnv"
	"math"
	"testing"
)

func TestExp_WithinItsError(t *testing.T) {
	worst := 0.0
	for x := -690.0; x < 690; x += 0.0137 {
		worst = max(worst, math.Abs(exp(x)/math.Exp(x)-1))
	}
	for x := -2.0; x < 2; x += 1e-5 {
		worst = max(worst, math.Abs(exp(x)/math.Exp(x)-1))
	}
	t.Logf("worst relative error %.2g", worst)
	if worst > 1e-11 || exp(0) != 1 {
		t.Errorf("relative error %g, want at most 1e-11; exp(0) is %v", worst, exp(0))
	}
	if exp(-1e9) != exp(-700) || exp(1e9) != exp(700) {
		t.Error("far out it does not stay")
	}
}

func TestLog_WithinItsError(t *testing.T) {
	worst := 0.0
	for x := 1e-12; x < 1e12; x *= 1.0003 {
		want := math.Log(x)
		worst = max(worst, math.Abs(log(x)-want)/max(1, math.Abs(want)))
	}
	t.Logf("worst error %.2g", worst)
	if worst > 1e-15 || log(1) != 0 {
		t.Errorf("error %g, want at most 1e-15; log(1) is %v", worst, log(1))
	}
}

// Quantiles of the standard normal distribution as printed in tables, and the
// library's inverse error function in between.
func TestProbit_KnownQuantiles(t *testing.T) {
	for _, c := range []struct{ u, want float64 }{
		{0.5, 0}, {0.75, 0.6744897501960817}, {0.8, 0.8416212335729143}, {0.9, 1.2815515655446004}, {0.95, 1.6448536269514722},
		{0.975, 1.959963984540054}, {0.995, 2.5758293035489004}, {0.9995, 3.2905267314919255}, {1e-10, -6.361340902404056},
	} {
		if got := probit(c.u); math.Abs(got-c.want) > 2e-7*max(1, math.Abs(c.want)) {
			t.Errorf("probit(%g) is %.9f, want %.9f", c.u, got, c.want)
		}
	}
	worst := 0.0
	for u := 1e-6; u < 1; u += 1.3e-6 {
		want := math.Sqrt2 * math.Erfinv(2*u-1)
		worst = max(worst, math.Abs(probit(u)-want)/max(1, math.Abs(want)))
	}
	t.Logf("worst error %.2g", worst)
	if worst > 2e-7 {
		t.Errorf("error %g, want at most 2e-7", worst)
	}
	if low := probit(luck(0).uniform(0) / (1 << 52)); math.IsInf(low, 0) || math.IsNaN(low) {
		t.Errorf("at the end of the stretch: %v", low)
	}
}

// The bits of the functions are the same on every machine: the sum was taken
// without fused arithmetic and is met with it (GOAMD64=v3, arm64).
func TestNormal_SameBitsEverywhere(t *testing.T) {
	h := fnv.New64a()
	for i := range 20_000 {
		u := (float64(i) + 0.5) / 20_000
		for _, v := range []float64{probit(u), exp(float64(40*u) - 20), log(u * 30), Spread{u, u + 0.1, 2}.Lognormal().Quantile(u)} {
			var b [8]byte
			for k, w := 0, math.Float64bits(v); k < 8; k, w = k+1, w>>8 {
				b[k] = byte(w)
			}
			h.Write(b[:])
		}
	}
	if got, want := h.Sum64(), uint64(0x47de748a5be7de14); got != want {
		t.Errorf("bits sum to %#x, want %#x", got, want)
	}
}
