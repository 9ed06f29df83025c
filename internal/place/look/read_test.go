package look

import (
	"strings"
	"testing"
)

func TestReading(t *testing.T) {
	flat := strings.Repeat("0,5 ", 36)
	for _, tt := range []struct{ text, want string }{
		{"", ""}, {"#1F4A55", "#1F4A55"}, {" 50 -3,5 7 ", "50 -3.5 7"}, {"50, -3.5, 7", "50 -3.5 7"}, {"50;−3.5;7 ± 2,5", "50 -3.5 7 ± 2.5"},
		{flat, strings.TrimSpace(strings.Repeat("0.5 ", 36))}, {strings.Repeat("50 ", 36), strings.TrimSpace(strings.Repeat("0.5 ", 36))},
		{strings.TrimSuffix(strings.Repeat("0.5,", 36), ","), strings.TrimSpace(strings.Repeat("0.5 ", 36))},
		{strings.Repeat("-0.004 ", 36), strings.TrimSpace(strings.Repeat("0 ", 36))},
	} {
		r, err := reading(tt.text)
		if got := typedAgain(r); err != nil || got != tt.want {
			t.Errorf("%.30q is read as %.40q (%v), want %.40q", tt.text, got, err, tt.want)
		}
	}
	for _, text := range []string{"#12", "#GG0000", "1", "1 2 3 4", "nan 0 0", "101 0 0", "50 0 0 ± -1", "50 0 0 ±", "±", flat + "0.5", strings.Repeat("inf ", 36)} {
		if r, err := reading(text); err == nil {
			t.Errorf("%.30q is taken for %+v", text, r)
		}
	}
}

// FuzzReading: what is read is written so that it is read the same again.
func FuzzReading(f *testing.F) {
	for _, text := range []string{"#1F4A55", "50 -3 7 ± 2", strings.Repeat("0.5 ", 36), "1,2", "±"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := reading(text)
		if err != nil {
			return
		}
		again, err := reading(typedAgain(r))
		if err != nil || typedAgain(again) != typedAgain(r) {
			t.Errorf("%q: %q comes again as %q, %v", text, typedAgain(r), typedAgain(again), err)
		}
	})
}

func TestFieldOf(t *testing.T) {
	for name, want := range map[string]string{"Black": "ground-black", "bare white": "ground-white", "2 over White": "white-2", "face": "face-1", "3 flop": "flop-3", "5 black": "", "odd": ""} {
		if got := fieldOf(name); got != want {
			t.Errorf("%q goes to %q, want %q", name, got, want)
		}
	}
}
