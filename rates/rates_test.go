package rates_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"fettle/build"
	"fettle/rates"
	"fettle/unit"
)

const (
	h  = unit.Hour
	mm = unit.Millimetre
)

// TestHours_OfDefaults: hours at the bench, hours a metre of edge, to the half
// hour: 260 × 180 has 0.88 m of edge.
func TestHours_OfDefaults(t *testing.T) {
	plate := build.Size{Width: 260 * mm, Height: 180 * mm}
	tests := []struct {
		decision build.PanelState
		size     build.Size
		want     unit.Effort
		with     string
	}{
		{build.Repair, plate, 5*h + 30, "(2 h + 4 h × 0.88 m) × 1.00 = 5.5 h"},
		{build.Replace, plate, 7 * h, "(5 h + 2 h × 0.88 m) × 1.00 = 7 h"},
		{build.Make, plate, 7*h + 30, "(3 h + 5 h × 0.88 m) × 1.00 = 7.5 h"},
		{build.Repair, build.Size{Width: 260 * mm, Height: 180 * mm, Count: 2}, 9 * h, "(2 h + 4 h × 1.76 m) × 1.00 = 9 h"},
		{build.Repair, build.Size{Width: 70 * mm}, 2*h + 30, "(2 h + 4 h × 0.14 m) × 1.00 = 2.5 h"},
		{build.Repair, build.Size{Width: 30 * mm, Count: 6, Round: true}, 5 * h, "(2 h + 4 h × 0.72 m) × 1.00 = 5 h"},
		{build.Repair, build.Size{Width: 38 * mm, Height: 8 * mm, Count: 11, Round: true}, 8*h + 30, "(2 h + 4 h × 1.67 m) × 1.00 = 8.5 h"},
		{build.Keep, plate, 0, "0 h"},
		{"", plate, 0, "0 h"},
	}
	for _, tt := range tests {
		got, f := rates.Default().Hours(tt.decision, tt.size)
		if got != tt.want || f.With != tt.with || f.Text != tt.want.String() {
			t.Errorf("%s of %s = %v, %q, want %v, %q", tt.decision, tt.size, got, f.With, tt.want, tt.with)
		}
	}
}

// closed is a build with n closed repairs of 1 m of edge, guessed at 6 h each,
// that took so many hours.
func closed(n int, took unit.Effort) build.Build {
	var b build.Build
	for i := range n {
		id := build.FindingID(fmt.Sprintf("F%02d", i+1))
		b.Findings = append(b.Findings, build.Finding{ID: id, Remedy: build.Repair, State: build.Closed, Size: build.Size{Width: 300 * mm, Height: 200 * mm}})
		for part := range 2 {
			b.Hours = append(b.Hours, build.Hours{ID: fmt.Sprint(id, part), Finding: id, Worked: took / 2})
		}
	}
	return b
}

func repair(r rates.Rates) rates.Remedy { return r.Remedies[0] }

// TestLearn_OwnPastTakesOver: with n records of ratio 2 the ratio is
// (2n + 10) ÷ (n + 10).
func TestLearn_OwnPastTakesOver(t *testing.T) {
	for _, tt := range []struct {
		n    int
		want float64
	}{{0, 1}, {1, 12.0 / 11}, {10, 1.5}, {90, 1.9}} {
		got := repair(rates.Learn(closed(tt.n, 12*h)))
		if got.Records != tt.n || math.Abs(got.Ratio-tt.want) > 1e-12 {
			t.Errorf("after %d findings of twice the guess: ratio %.4f of %d, want %.4f", tt.n, got.Ratio, got.Records, tt.want)
		}
	}
	hours, f := rates.Learn(closed(10, 12*h)).Hours(build.Repair, build.Size{Width: 300 * mm, Height: 200 * mm})
	if hours != 9*h || f.Inputs[3].Value != "1.50" || f.Inputs[3].Note != "n = 10 closed findings" {
		t.Errorf("guess after 10 of twice the guess = %v, %+v, want 9 h with n shown", hours, f.Inputs[3])
	}
}

func TestLearn_CountsOnlyWhatIsFinished(t *testing.T) {
	for _, tt := range []struct {
		what string
		do   func(*build.Build)
	}{
		{"a finding not closed", func(b *build.Build) { b.Findings[0].State = build.Dressed }},
		{"a finding without hours", func(b *build.Build) { b.Hours = nil }},
		{"a finding only left alone", func(b *build.Build) { b.Findings[0].Remedy = build.Keep }},
		{"a finding not decided", func(b *build.Build) { b.Findings[0].Remedy = "" }},
	} {
		b := closed(1, 12*h)
		tt.do(&b)
		if d := cmp.Diff(rates.Default(), rates.Learn(b)); d != "" {
			t.Errorf("%s taught something (-default +learnt):\n%s", tt.what, d)
		}
	}
}

func TestLearn_OverSeveralBuilds(t *testing.T) {
	got := repair(rates.Learn(closed(4, 12*h), closed(6, 3*h)))
	if want := (4*2 + 6*0.5 + 10) / 20.0; got.Records != 10 || math.Abs(got.Ratio-want) > 1e-12 {
		t.Errorf("ratio %.4f of %d, want %.4f of 10", got.Ratio, got.Records, want)
	}
}

// TestHours_NeverShrinkWithSize: a larger hole never takes less, whatever was learnt.
func TestHours_NeverShrinkWithSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rates.Learn(closed(rapid.IntRange(0, 30).Draw(t, "n"), unit.Effort(rapid.IntRange(60, 3000).Draw(t, "took"))))
		length := rapid.Int64Range(1, 2_000_000)
		s := build.Size{Width: unit.Length(length.Draw(t, "w")), Height: unit.Length(length.Draw(t, "h")), Count: rapid.IntRange(0, 9).Draw(t, "count")}
		larger := s
		larger.Width += unit.Length(length.Draw(t, "more"))
		larger.Count += rapid.IntRange(0, 3).Draw(t, "more places")
		for _, d := range []build.PanelState{build.Repair, build.Replace, build.Make} {
			small, _ := r.Hours(d, s)
			large, _ := r.Hours(d, larger)
			if small < 0 || small%30 != 0 || large < small {
				t.Fatalf("%s of %s = %v, of %s = %v, want half hours that do not shrink", d, s, small, larger, large)
			}
		}
	})
}
