package build_test

import (
	"math"
	"testing"

	"fettle/build"
	"fettle/unit"
)

// aChannel is 40 + 60 + 40 mm over the outside, square bends.
func aChannel() build.Profile {
	up := build.Bend{Angle: 90, Radius: mm}
	return build.Profile{Flanges: []build.Flange{{Length: 40 * mm, Bend: up}, {Length: 60 * mm, Bend: up}, {Length: 40 * mm}}}
}

// aStrip is 100 mm of 1 mm sheet that came out as 51 + 51 mm.
func aStrip() build.Strip {
	return build.Strip{ID: "T1", Gauge: mm, Bend: build.Bend{Angle: 90, Radius: mm}, Flat: 100 * mm, First: 51 * mm, Second: 50_800}
}

func actsOnFolds() []act {
	folded := with(aBlank(), func(p *build.Blank) { p.Profile = aChannel() })
	brake := build.Brake{Name: "bench folder", Width: 1250 * mm, Gauge: 1500, Least: 8 * mm, Nose: 40 * mm, Slope: 45}
	return []act{
		{&build.SetBlanks{Blanks: []build.Blank{folded}}, "Blank B1: 2 × sill patch, 120 × 70 mm of 1.0 mm", func(b *build.Build) any { return len(b.Blank("B1").Profile.Bends()) }, 2},
		{&build.FoldStrip{Strip: aStrip()}, "Test strip T1 of 1.0 mm, bend of 90° with radius 1.0 mm: K is 0.40", func(b *build.Build) any { return line(len(b.Strips), b.Strip("T1").Flat) }, "2 100 mm"},
		{&build.DropStrip{Strip: "K0"}, "Test strip K0 does not count", func(b *build.Build) any { return len(b.Strips) }, 0},
		{&build.SetBrake{Brake: brake}, "Sheet is folded on bench folder", func(b *build.Build) any { return b.Brake.Width }, 1250 * mm},
	}
}

func noesOnFolds() []no {
	blank := func(f func(*build.Profile)) build.Change {
		return &build.SetBlanks{Blanks: []build.Blank{with(aBlank(), func(p *build.Blank) { p.Profile = aChannel(); f(&p.Profile) })}}
	}
	strip := func(f func(*build.Strip)) build.Change { return &build.FoldStrip{Strip: with(aStrip(), f)} }
	brake := func(f func(*build.Brake)) build.Change {
		return &build.SetBrake{Brake: with(build.Brake{Name: "folder"}, f)}
	}
	return []no{
		{blank(func(p *build.Profile) { p.Flanges = p.Flanges[:1] }), 3, "blank B1, profile"},
		{blank(func(p *build.Profile) { p.Flanges[0].Length = 0 }), 3, "blank B1, profile, flange 1"},
		{blank(func(p *build.Profile) { p.Flanges[1].Bend = build.Bend{} }), 3, "blank B1, profile, flange 2, bend"},
		{blank(func(p *build.Profile) { p.Flanges[1].Bend.Angle = 181 }), 3, "blank B1, profile, flange 2, bend"},
		{blank(func(p *build.Profile) { p.Flanges[1].Bend.Angle = math.NaN() }), 3, "blank B1, profile, flange 2, bend"},
		{blank(func(p *build.Profile) { p.Flanges[1].Bend.Radius = -1 }), 3, "blank B1, profile, flange 2, bend"},
		{blank(func(p *build.Profile) { p.Flanges[2].Bend = p.Flanges[1].Bend }), 9, "blank B1, profile, flange 3"},
		{blank(func(p *build.Profile) { p.Flanges[1].Length = 3 * mm }), 11, "blank B1, profile, flange 2"},
		{strip(func(s *build.Strip) { s.ID = "" }), 1, "test strip"},
		{strip(func(s *build.Strip) { s.Bend.Angle = 0 }), 3, "test strip T1, bend"},
		{strip(func(s *build.Strip) { s.Flat = 105 * mm }), 3, "test strip T1"},
		{strip(func(s *build.Strip) { s.First = 0 }), 3, "test strip T1"},
		{&build.DropStrip{Strip: "T9"}, 2, ""},
		{brake(func(k *build.Brake) { k.Name = "" }), 10, "brake, name"},
		{brake(func(k *build.Brake) { k.Slope = 91 }), 3, "brake"},
		{brake(func(k *build.Brake) { k.Width = -1 }), 3, "brake"},
	}
}

func TestBend_Setback(t *testing.T) {
	for _, tt := range []struct {
		angle        float64
		radius, want float64
	}{{90, 1, 2}, {45, 1, 0.8284}, {135, 1, 2}, {180, 0, 1}, {60, 2, 1.7321}} {
		b := build.Bend{Angle: tt.angle, Radius: unit.Length(tt.radius * 1000)}
		if got := b.Setback(mm); math.Abs(got-tt.want) > 1e-4 {
			t.Errorf("%g°, radius %g: set back %.4f mm, want %.4f", tt.angle, tt.radius, got, tt.want)
		}
	}
}

// TestStrip_K: the strip whose flat length came from a K gives that K back.
func TestStrip_K(t *testing.T) {
	s := aStrip()
	if math.Abs(s.Took()-2.2) > 1e-9 || math.Abs(s.K()-(2.2/(math.Pi/2)-1)) > 1e-9 {
		t.Errorf("took %.3f mm, K %.4f", s.Took(), s.K())
	}
}

func TestProfile_Straight(t *testing.T) {
	p := aChannel()
	for i, want := range []float64{38, 56, 38} {
		if got := p.Straight(i, mm); math.Abs(got-want) > 1e-9 {
			t.Errorf("flange %d: %.3f mm stay straight, want %g", i+1, got, want)
		}
	}
}
