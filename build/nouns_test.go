package build_test

import (
	"testing"

	"fettle/build"
	"fettle/unit"
)

func TestSize(t *testing.T) {
	tests := []struct {
		size  build.Size
		text  string
		area  unit.Area
		count int
	}{
		{build.Size{Width: 260 * mm, Height: 180 * mm}, "260 × 180 mm", 46_800, 1},
		{build.Size{Width: 160 * mm, Height: 80 * mm, Count: 2}, "2 of 160 × 80 mm", 25_600, 2},
		{build.Size{Width: 70 * mm}, "70 mm", 1_400, 1},
		{build.Size{Width: 70 * mm, Count: 3}, "3 of 70 mm", 4_200, 3},
		{build.Size{Width: 30 * mm, Count: 6, Round: true}, "6 of 30 dia mm", 5_400, 6},
		{build.Size{Width: 38 * mm, Height: 8 * mm, Count: 11, Round: true}, "11 of 8–38 dia mm", 15_884, 11},
		{build.Size{Width: 12_500, Height: 500}, "12.5 × 0.5 mm", 6, 1},
	}
	for _, tt := range tests {
		if tt.size.String() != tt.text || tt.size.Area() != tt.area || tt.size.Places() != tt.count {
			t.Errorf("size %+v = %q, %d mm², %d places, want %q, %d, %d", tt.size, tt.size, tt.size.Area(), tt.size.Places(), tt.text, tt.area, tt.count)
		}
	}
}

func TestNextFinding(t *testing.T) {
	for _, tt := range []struct {
		ids  []build.FindingID
		want build.FindingID
	}{
		{nil, "F01"},
		{[]build.FindingID{"F01", "F09"}, "F10"},
		{[]build.FindingID{"F12", "F03"}, "F13"},
		{[]build.FindingID{"F99"}, "F100"},
		{[]build.FindingID{"R07", "Fx", "F-4"}, "F01"},
	} {
		var b build.Build
		for _, id := range tt.ids {
			b.Findings = append(b.Findings, build.Finding{ID: id})
		}
		if got := b.NextFinding(); got != tt.want {
			t.Errorf("after %v comes %s, want %s", tt.ids, got, tt.want)
		}
	}
}

func TestParseClock(t *testing.T) {
	for text, want := range map[string]int{"00:00": 0, "08:00": 480, "8:05": 485, "23:59": 1439} {
		if got, err := build.ParseClock(text); got != want || err != nil {
			t.Errorf("ParseClock(%q) = %d, %v, want %d", text, got, err, want)
		}
	}
	for _, text := range []string{"", "8", "24:00", "08:60", "08:5", "08:5x", "-1:00", "+8:00", " 8:00", "08:00:00", "noon"} {
		if got, err := build.ParseClock(text); err == nil {
			t.Errorf("ParseClock(%q) = %d, want an error", text, got)
		}
	}
}

func TestNouns_Sums(t *testing.T) {
	b := cart()
	for _, tt := range []struct {
		what      string
		got, want any
	}{
		{"surface of the zone outside", b.ZoneArea("outside"), 3 * unit.SquareMetre},
		{"surface of no zone", b.ZoneArea("moon"), unit.Area(0)},
		{"surface of P1", b.Panel("P1").Area(), 2 * unit.SquareMetre},
		{"surface of the seat", b.Pieces[0].Area(), unit.Area(120_000)},
		{"cost of the hinges", b.Part("Q1").Cost(), unit.Money(11_00)},
		{"week of WA", b.Person("WA").PerWeek(), 35 * h},
		{"WA welds", b.Person("WA").Does("MW"), true},
		{"MW assembles", b.Person("MW").Does("WA"), false},
		{"hours of F01", b.Finding("F01").Hours(), 6 * h},
		{"left", b.Panels[0].FullName(), "Side, left"},
		{"middle", build.Panel{Name: "Roof", Side: "C"}.FullName(), "Roof"},
		{"trade", b.Trade("XX").Name, "gilding"},
		{"no trade", b.Trade("ZZ"), (*build.Trade)(nil)},
	} {
		if tt.got != tt.want {
			t.Errorf("%s = %v, want %v", tt.what, tt.got, tt.want)
		}
	}
}
