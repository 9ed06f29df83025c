package live

import (
	"fmt"
	"strings"
	"testing"

	"fettle/unit"
)

// TestVerdictOn_ByHand: one build ran two, one and no working day over its days,
// another finished one, two and three before them. Losses 0.5·2 and 0.5·1,
// 0.8·1 and 0.2·2, 0 and 0.1·3, halved; Brier (0.6² + 0.3²) ÷ 2.
func TestVerdictOn_ByHand(t *testing.T) {
	day := unit.Day(2027, 3, 1)
	list := []Made{
		{Build: "a", Day: day, Promised: day + 9, missed: 1, Ready: 0.6, said: [3]float64{0.5, 0.84, 0.9}, off: [3]int{2, 1, 0}},
		{Build: "b", Day: day, Promised: day + 9, Ready: 0.7, said: [3]float64{0.6, 0.8, 1}, off: [3]int{-1, -2, -3}},
	}
	got := VerdictOn(list)
	for i, want := range []Held{{Chance: 0.5, Said: 0.55, Part: 0.5, Loss: 0.75}, {Chance: 0.8, Said: 0.82, Part: 0.5, Loss: 0.6}, {Chance: 0.9, Said: 0.95, Part: 1, Loss: 0.15}} {
		want.Low, want.High = got.Held[i].Low, got.Held[i].High
		if got.Held[i] != want {
			t.Errorf("held %+v, want %+v", got.Held[i], want)
		}
	}
	if got.Builds != 2 || got.Forecasts != 2 || got.Promised != 2 || got.Brier != 0.225 || !strings.HasPrefix(got.Says, "2 builds: too few") {
		t.Errorf("%+v, want two builds, too few, and a Brier score of 0.225", got)
	}
	list[0].Day = day + 10 // after the promised day there is nothing to promise
	if got := VerdictOn(list); got.Promised != 1 || got.Brier != 0.09 {
		t.Errorf("with a forecast after the promised day: %d promised, Brier score %v, want 1 and 0.09", got.Promised, got.Brier)
	}
}

// TestVerdictOn_WeighsBuildsAlike: ten forecasts of one build count for as much
// as the one of another.
func TestVerdictOn_WeighsBuildsAlike(t *testing.T) {
	list := []Made{{Build: "one", off: [3]int{5, 5, 5}, said: [3]float64{0.5, 0.9, 0.9}}}
	for range 10 {
		list = append(list, Made{Build: "many", said: [3]float64{0.5, 0.8, 0.9}})
	}
	if h := VerdictOn(list).Held[1]; h.Part != 0.5 || h.Said != 0.85 {
		t.Errorf("held %v, said %v; want 0.5 and 0.85", h.Part, h.Said)
	}
}

func TestVerdict_ClaimsNothingBeforeTenBuilds(t *testing.T) {
	for _, c := range []struct {
		builds int
		says   string
	}{{0, "Nothing"}, {1, "One build"}, {2, "too few"}, {9, "too few"}, {10, "10 builds: the four-in-five days held in 100 %"}} {
		var list []Made
		for i := range c.builds {
			list = append(list, Made{Build: fmt.Sprint(i)})
		}
		if got := VerdictOn(list).Says; !strings.Contains(got, c.says) {
			t.Errorf("%d builds: %q, want %q", c.builds, got, c.says)
		}
	}
}
