package build_test

import (
	"fmt"
	"slices"
	"testing"

	"fettle/build"
	"fettle/unit"
)

const litre = unit.Litre

// aPour and aCoat fit the cart: a mix of two tins, and a coat of another paint.
func aPour() build.Pour {
	return build.Pour{ID: "X2", Product: "top", Panels: []build.PanelID{"P1"}, Coats: 2, At: monday.At(11, 0), By: "MW", Grade: "fast",
		Parts: []build.Poured{{Tin: "N1", Volume: litre / 2, Mass: unit.Kilogram / 2}, {Part: 1, Tin: "N2", Volume: litre / 4}}}
}

func aCoat() build.Coat {
	return build.Coat{ID: "K2", Product: "under", Panels: []build.PanelID{"P1", "P2"}, Number: 1, At: monday.At(11, 0), Metal: 17, Air: 18, RH: 60}
}

func aRedo() build.Redo {
	return build.Redo{ID: "R2", Zones: []build.ZoneID{"outside"}, Why: "dust", Coats: []build.RedoCoats{{Product: "top", Coats: 2}}, Work: []build.Leg{{Trade: "WA", Hours: 2 * h}}, Days: 2, Task: "T2"}
}

func pour(f func(*build.Pour)) build.Change { return &build.PourMix{Pour: with(aPour(), f)} }
func coat(f func(*build.Coat)) build.Change { return &build.LayCoat{Coat: with(aCoat(), f)} }
func redo(f func(*build.Redo)) build.Change { return &build.RedoPaint{Redo: with(aRedo(), f)} }

func sheet(f func(*build.Product)) build.Change {
	return &build.SetProduct{Product: with(cartPaint()[0], f)}
}

func tin(f func(*build.Tin)) build.Change {
	return &build.TakeInTin{Tin: with(build.Tin{ID: "N9", Product: "top", Size: litre}, f)}
}

func film(f func(*build.Film)) build.Change {
	return &build.MeasureFilm{Film: with(build.Film{ID: "D2", Panel: "P1", Product: "top", Dry: []float64{50, 61}, At: monday.At(15, 0)}, f)}
}

func warm(f func(*build.WarmUp)) build.Change {
	return &build.RecordWarmUp{WarmUp: with(build.WarmUp{ID: "U2", Bay: "bay", At: monday.At(7, 0), From: 13.5, To: 18, Minutes: 90}, f)}
}

func limits(f func(*build.SolventLimits)) build.Change {
	return &build.SetSolventLimits{Limits: with(build.SolventLimits{Title: "posted rule", Note: "by the door since June", Classes: []build.SolventClass{{ID: "top", Name: "topcoats", Most: 400}, {ID: "wash", Name: "wash", Most: 200}}}, f)}
}

func actsOnPaint() []act {
	return []act{
		{sheet(func(p *build.Product) { p.Solids, p.Sheet = 42, "sheet 7" }), "Sheet of Top coat, from sheet 7", func(b *build.Build) any { return line(len(b.Products), b.Product("top").Solids) }, "3 42"},
		{sheet(func(p *build.Product) { p.ID = "new" }), "Paint new added: Top coat", func(b *build.Build) any { return b.Product("new").Name }, "Top coat"},
		{tin(func(t *build.Tin) { t.Batch, t.Part = "B7", 1 }), "Tin N9 in: 1.00 l of Top coat, thin, batch B7", func(b *build.Build) any { return b.Tin("N9").Left }, litre},
		{&build.AdjustTin{Tin: "N1", Left: litre / 5, Why: "spilt"}, "Tin N1 holds 0.20 l: spilt", func(b *build.Build) any { return b.Tin("N1").Left }, litre / 5},
		{&build.BoxTins{Tins: []build.TinID{"N3", "N1"}}, "2 tins boxed together", func(b *build.Build) any { return line(b.Tin("N1").Boxed, b.Tin("N3").Boxed, b.Tin("N2").Boxed) }, "N3 N3 "},
		{pour(func(*build.Pour) {}), "0.75 l of Top coat mixed for Side, left",
			func(b *build.Build) any { return line(b.Tin("N1").Left, b.Tin("N2").Left, b.Pour("X2").Zones) }, "0.50 l 0.25 l [outside]"},
		{pour(func(p *build.Pour) { p.Product = "blue"; p.Parts = p.Parts[1:] }), "0.25 l of Blue mixed for Side, left", func(b *build.Build) any { return b.Tin("N2").Left }, litre / 4},
		{&build.WeighBack{Pour: "X1", Left: litre / 8, At: monday.At(12, 0)}, "0.13 l left of mix X1, 0.25 l sprayed", func(b *build.Build) any { return b.Pour("X1").Left }, litre / 8},
		{&build.BarePanels{Panels: []build.PanelID{"P1", "P2"}, At: monday.At(16, 0)}, "2 panels bare since 16:00", func(b *build.Build) any { return b.Panel("P2").Bare }, monday.At(16, 0)},
		{coat(func(*build.Coat) {}), "Coat 1 of Sealer on 2 panels at 11:00",
			func(b *build.Build) any {
				return line(b.Panel("P1").State, b.Panel("P2").State, b.Coat("K2").Zones)
			}, "ready for colour in epoxy [outside]"},
		{coat(func(c *build.Coat) { c.Product, c.Pour = "top", "X1" }), "Coat 1 of Top coat on 2 panels at 11:00", func(b *build.Build) any { return b.Panel("P1").State }, build.InColour},
		{coat(func(c *build.Coat) { c.Panels, c.Zones = nil, []build.ZoneID{"outside"} }), "Coat 1 of Sealer on outside at 11:00", func(b *build.Build) any { return b.Panel("P1").State }, build.Keep},
		{film(func(*build.Film) {}), "Film on Side, left after Top coat: 50 to 61 µm", func(b *build.Build) any { return len(b.Films) }, 2},
		{warm(func(*build.WarmUp) {}), "Bay warmed from 13.5 to 18 °C in 90 min", func(b *build.Build) any { return len(b.WarmUps) }, 2},
		{limits(func(*build.SolventLimits) {}), "Solvent limits, the owner's text: posted rule, 2 classes", func(b *build.Build) any { return line(len(b.Solvent.Classes), b.SolventClass("top").Most) }, "2 400"},
		{sheet(func(p *build.Product) { p.Mix[1], p.Extra = 0.1, build.Extra{Percent: 5, Of: build.OfAll} }), "Sheet of Top coat", func(b *build.Build) any { return b.Product("top").Extra.Of }, build.OfAll},
		{&build.PostClearance{Bay: "bay", Minutes: 30}, "Bay clears in 30 min after the last coat", func(b *build.Build) any { return b.Bays[0].Clearance }, 30},
		{redo(func(*build.Redo) {}), "outside painted again, 2 h: dust", func(b *build.Build) any { return line(b.RedoLegs("T2"), b.WaitOf(*b.Task("T2"))) }, "[{WA 1 h} {WA 2 h}] 3"},
	}
}

func noesOnPaint() []no {
	return slices.Concat(noesOnSheets(), []no{
		{tin(func(t *build.Tin) { t.ID = "N1" }), 1, "tin N1"},
		{tin(func(t *build.Tin) { t.Product = "tar" }), 2, "paint product tar"},
		{tin(func(t *build.Tin) { t.Part = 2 }), 2, "part"},
		{tin(func(t *build.Tin) { t.Boxed = "N8" }), 2, "boxed"},
		{tin(func(t *build.Tin) { t.Size = 0 }), 3, "size_l"},
		{tin(func(t *build.Tin) { t.Left = 2 * litre }), 11, "left_l"},
		{&build.AdjustTin{Tin: "N8"}, 2, "tin N8"},
		{&build.AdjustTin{Tin: "N1", Left: -1, Why: "x"}, 3, "left_l"},
		{&build.AdjustTin{Tin: "N1"}, 10, "why"},
		{&build.BoxTins{Tins: []build.TinID{"N1"}}, 2, "tins"},
		{&build.BoxTins{Tins: []build.TinID{"N1", "N8"}}, 2, "tin N8"},
		{&build.BoxTins{Tins: []build.TinID{"N1", "N1"}}, 1, "line 2"},
		{&build.BoxTins{Tins: []build.TinID{"N1", "N2"}}, 9, "line 2"},
		{pour(func(p *build.Pour) { p.ID = "X1" }), 1, "mix X1"},
		{pour(func(p *build.Pour) { p.Product = "tar" }), 2, "paint product tar"},
		{pour(func(p *build.Pour) { p.Panels = nil }), 2, "panels"},
		{pour(func(p *build.Pour) { p.Panels = []build.PanelID{"P9"} }), 2, "panel P9"},
		{pour(func(p *build.Pour) { p.Parts = nil }), 2, "parts"},
		{pour(func(p *build.Pour) { p.Parts[0].Tin = "N8" }), 2, "tin N8"},
		{pour(func(p *build.Pour) { p.Parts[0].Tin = "N2" }), 9, "line 1"},
		{pour(func(p *build.Pour) { p.Parts[0].Part = 7 }), 2, "line 1"},
		{pour(func(p *build.Pour) { p.Parts[0].Volume = 0 }), 3, "volume_l"},
		{pour(func(p *build.Pour) { p.Parts[1].Volume = litre }), 11, "tin N2"},
		{pour(func(p *build.Pour) { p.Parts = append(p.Parts, build.Poured{Tin: "N1", Volume: litre}) }), 11, "line 3"},
		{pour(func(p *build.Pour) { p.At = 0 }), 5, "at"},
		{pour(func(p *build.Pour) { p.By = "PT" }), 2, "person PT"},
		{pour(func(p *build.Pour) { p.RH = 101 }), 3, "rh_percent"},
		{pour(func(p *build.Pour) { p.Coats = 0 }), 3, "coats"},
		{pour(func(p *build.Pour) { p.Left = 1 }), 9, "left_l"},
		{&build.WeighBack{Pour: "X8", At: 1}, 2, "mix X8"},
		{&build.WeighBack{Pour: "X1"}, 5, "at"},
		{&build.WeighBack{Pour: "X1", At: monday.At(8, 0)}, 5, "weighed"},
		{&build.WeighBack{Pour: "X1", At: monday.At(12, 0), Left: litre}, 11, "left_l"},
		{&build.WeighBack{Pour: "X1", At: monday.At(12, 0), Left: -1}, 3, "left_l"},
		{&build.BarePanels{Panels: []build.PanelID{"P1"}}, 5, "at"},
		{&build.BarePanels{At: 1}, 2, "panels"},
		{coat(func(c *build.Coat) { c.ID = "K1" }), 1, "coat K1"},
		{coat(func(c *build.Coat) { c.Product = "tar" }), 2, "paint product tar"},
		{coat(func(c *build.Coat) { c.Panels = nil }), 2, "panels"},
		{coat(func(c *build.Coat) { c.Panels = []build.PanelID{"P1", "P2", "P1"} }), 1, "panels"},
		{coat(func(c *build.Coat) { c.Zones = []build.ZoneID{"moon"} }), 2, "paint zone moon"},
		{coat(func(c *build.Coat) { c.Pour = "X8" }), 2, "mix X8"},
		{coat(func(c *build.Coat) { c.Pour = "X1" }), 9, "pour"},
		{coat(func(c *build.Coat) { c.Product, c.Pour, c.At = "top", "X1", monday.At(8, 59) }), 5, "at"},
		{coat(func(c *build.Coat) { c.At = 0 }), 5, "at"},
		{coat(func(c *build.Coat) { c.Metal = -80 }), 3, "metal_c"},
		{coat(func(c *build.Coat) { c.Number = 0 }), 3, "number"},
		{film(func(f *build.Film) { f.ID = "D1" }), 1, "film readings D1"},
		{film(func(f *build.Film) { f.Panel = "P9" }), 2, "panel P9"},
		{film(func(f *build.Film) { f.Product = "tar" }), 2, "paint product tar"},
		{film(func(f *build.Film) { f.Zone = "moon" }), 2, "paint zone moon"},
		{film(func(f *build.Film) { f.Dry = nil }), 3, "um"},
		{film(func(f *build.Film) { f.Dry[0] = -1 }), 3, "um"},
		{film(func(f *build.Film) { f.At = 0 }), 5, "at"},
		{warm(func(w *build.WarmUp) { w.ID = "U1" }), 1, "warm-up U1"},
		{warm(func(w *build.WarmUp) { w.Bay = "moon" }), 2, "bay moon"},
		{warm(func(w *build.WarmUp) { w.To = w.From }), 3, "to_c"},
		{warm(func(w *build.WarmUp) { w.Minutes = 0 }), 3, "minutes"},
		{warm(func(w *build.WarmUp) { w.At = 0 }), 5, "at"},
		{limits(func(l *build.SolventLimits) { l.Note = " " }), 10, "note"},
		{limits(func(l *build.SolventLimits) { l.Title = "" }), 10, "title"},
		{limits(func(l *build.SolventLimits) { l.Classes[1].ID = "top" }), 1, "solvent class"},
		{limits(func(l *build.SolventLimits) { l.Classes[1].Most = 0 }), 3, "most_g_l"},
		{limits(func(l *build.SolventLimits) { l.Classes[1].Name = "" }), 10, "solvent class wash, name"},
		{limits(func(l *build.SolventLimits) { l.Classes = l.Classes[1:] }), 2, "paint product top, solvent_class"},
		{limits(func(l *build.SolventLimits) { l.Classes = nil }), 2, "paint product top, solvent_class"},
		{&build.PostClearance{Bay: "moon", Minutes: 9}, 2, "bay moon"},
		{&build.PostClearance{Bay: "bay"}, 3, "minutes"},
		{redo(func(r *build.Redo) { r.ID = "R1" }), 1, "redo R1"},
		{redo(func(r *build.Redo) { r.Task = "T9" }), 2, "task T9"},
		{redo(func(r *build.Redo) { r.Zones = nil }), 2, "panels"},
		{redo(func(r *build.Redo) { r.Coats[0].Product = "tar" }), 2, "coats, line 1"},
		{redo(func(r *build.Redo) { r.Coats[0].Coats = 0 }), 3, "coats, line 1"},
		{redo(func(r *build.Redo) { r.Work[0].Trade = "XX" }), 7, "work"},
		{redo(func(r *build.Redo) { r.Days = -1 }), 3, "booth_days"},
		{redo(func(r *build.Redo) { r.Why = "" }), 10, "why"},
	})
}

func noesOnSheets() []no {
	return []no{
		{sheet(func(p *build.Product) { p.ID = "" }), 1, "paint product"},
		{sheet(func(p *build.Product) { p.Name = "" }), 10, "name"},
		{sheet(func(p *build.Product) { p.Mix[0] = 0 }), 3, "mix"},
		{sheet(func(p *build.Product) { p.Mix[1] = -1 }), 3, "mix"},
		{sheet(func(p *build.Product) { p.Mix = p.Mix[:1] }), 11, "mix_parts"},
		{sheet(func(p *build.Product) { p.Mix, p.Parts = p.Mix[:1], nil }), 2, "part"},
		{sheet(func(p *build.Product) { p.Use = "glue" }), 4, "use"},
		{sheet(func(p *build.Product) { p.Use = build.Epoxy }), 4, "base"},
		{sheet(func(p *build.Product) { p.Colour = "moon" }), 2, "colour"},
		{sheet(func(p *build.Product) { p.Over = []build.ProductID{"tar"} }), 2, "over"},
		{sheet(func(p *build.Product) { p.Over = []build.ProductID{"top"} }), 6, "over"},
		{sheet(func(p *build.Product) { p.Parts[0].Density = 11 }), 3, "mix_parts, line 1"},
		{sheet(func(p *build.Product) { p.Parts[1].TinPrice = -1 }), 3, "mix_parts, line 2"},
		{sheet(func(p *build.Product) { p.Grades[0].Name = "" }), 10, "grades, line 1"},
		{sheet(func(p *build.Product) { p.Grades[0].To = 9 }), 3, "grades, line 1"},
		{sheet(func(p *build.Product) { p.Times.RecoatTo = 29 }), 5, "times"},
		{sheet(func(p *build.Product) { p.Times.Sand = -1 }), 3, "times"},
		{sheet(func(p *build.Product) { p.HighRH = 101 }), 3, "highest_rh_percent"},
		{sheet(func(p *build.Product) { p.FillPurge = -1 }), 3, "fill_purge_l"},
		{sheet(func(p *build.Product) { p.Missed.Scuff = -1 }), 3, "missed_window"},
		{sheet(func(p *build.Product) { p.ShelfLife = -1 }), 3, "shelf_life_days"},
		{sheet(func(p *build.Product) { p.Solvent = "moon" }), 2, "solvent_class"},
		{sheet(func(p *build.Product) { p.Viscosity.Cup = "" }), 10, "cup"},
		{sheet(func(p *build.Product) { p.Viscosity.Seconds = 0 }), 3, "seconds"},
		{sheet(func(p *build.Product) { p.Extra = build.Extra{Percent: 5, Of: build.OfAll} }), 11, "extra"},
		{sheet(func(p *build.Product) { p.Extra = build.Extra{Percent: 50, Of: "half"} }), 4, "extra, of"},
		{sheet(func(p *build.Product) { p.Extra = build.Extra{Of: build.OfPaint} }), 3, "percent"},
		{sheet(func(p *build.Product) { p.Mix, p.Parts, p.Extra = nil, nil, build.Extra{Percent: 5, Of: build.OfPaint} }), 11, "extra"},
	}
}

// TestSurfaceOf: panels bring their areas in the product's zones, one without
// any its face; a zone that no panel has stands for the surface on no panel.
func TestSurfaceOf(t *testing.T) {
	b := cart()
	b.Panels[0].Areas = append(b.Panels[0].Areas, build.ZoneArea{Zone: "inside", Area: unit.SquareMetre / 2})
	b.Panels = append(b.Panels, build.Panel{ID: "P3", Areas: []build.ZoneArea{{Zone: "inside", Area: unit.SquareMetre / 4}}})
	for _, tt := range []struct {
		panels []build.PanelID
		zones  []build.ZoneID
		want   unit.Area
	}{
		{[]build.PanelID{"P1", "P2"}, nil, 2_000_000},
		{[]build.PanelID{"P1", "P2"}, []build.ZoneID{"outside", "inside"}, 2_500_000},
		{[]build.PanelID{"P2"}, []build.ZoneID{"outside"}, 1_000_000},
		{[]build.PanelID{"P3"}, nil, 250_000},
		{[]build.PanelID{"P1", "P3"}, []build.ZoneID{"outside"}, 2_250_000},
		{nil, []build.ZoneID{"outside"}, 1_000_000},
		{nil, []build.ZoneID{"inside", "moon"}, 0},
	} {
		if got := b.SurfaceOf(b.Products[0], tt.panels, tt.zones); got != tt.want {
			t.Errorf("%v in %v = %v, want %v", tt.panels, tt.zones, got, tt.want)
		}
	}
}

// TestLayCoat_HistoryStands: a coat keeps the zones it was laid on when the
// paint later goes elsewhere, a fitted panel stays fitted, and coats come in
// order of time.
func TestLayCoat_HistoryStands(t *testing.T) {
	b, err := build.ApplyAll(cart(), []build.Change{
		&build.MovePanels{Panels: []build.PanelID{"P1"}, State: build.Fitted},
		coat(func(c *build.Coat) { c.At = monday.At(9, 30) }), &build.ChooseLook{Look: "split"},
	})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, c := range b.CoatsOn("P1", "outside") {
		got = append(got, fmt.Sprint(c.ID, " ", c.At.Clock()))
	}
	if want := []string{"K2 09:30", "K1 10:00"}; !slices.Equal(got, want) || b.Panel("P1").State != build.Fitted {
		t.Errorf("coats %v, want %v; the panel is %s", got, want, b.Panel("P1").State)
	}
	if list := b.CoatsOn("P1", "inside"); list != nil {
		t.Errorf("coats inside: %v", list)
	}
}

func TestPaint_RefusedOutOfTurn(t *testing.T) {
	back := &build.WeighBack{Pour: "X1", At: monday.At(12, 0), Left: 1}
	b, err := build.ApplyAll(cart(), []build.Change{back, &build.EndTask{Task: "T2", Day: monday}})
	if err != nil {
		t.Fatal(err)
	}
	wantRule(t, "weighed twice", back.Apply(&b), 9, "mix X1")
	wantRule(t, "redone when finished", redo(func(*build.Redo) {}).Apply(&b), 9, "task")
}

// TestRedoPaint_AddsToWhatWasSaid: hours that somebody said were left grow.
func TestRedoPaint_AddsToWhatWasSaid(t *testing.T) {
	b, err := build.ApplyAll(cart(), []build.Change{
		&build.SayLeft{Task: "T2", Left: []build.Leg{{Trade: "WA", Hours: 3 * h}}},
		redo(func(r *build.Redo) { r.Work = append(r.Work, build.Leg{Trade: "MW", Hours: h}) }),
	})
	if got := line(b.Task("T2").Left); err != nil || got != "[{WA 5 h} {MW 1 h}]" {
		t.Errorf("left %s, %v", got, err)
	}
}
