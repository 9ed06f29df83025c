package paint

import (
	"strconv"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/unit"
)

// number is one number of a maker's sheet: how it is asked for and where it is
// kept. Bounds are whole units of the field.
type number struct {
	Name, Label, Unit string
	Places            int
	Least, Most       int64
	Needed            bool // may not be left empty
	at                func(*build.Product) any
}

// viscosityGroup heads the cup and its seconds.
const viscosityGroup = "Viscosity, ready to spray"

// numbers are those of the whole product, by their headings.
var numbers = []struct {
	Head string
	List []number
}{
	{"Film and litres", []number{
		{"solids", "Solids by volume, ready to spray", "%", 1, 0, 100, true, func(p *build.Product) any { return &p.Solids }},
		{"coats", "Coats in a round", "", 0, 1, 20, true, func(p *build.Product) any { return &p.Coats }},
		{"film", "Dry film of a coat", "µm", 1, 0, 2000, true, func(p *build.Product) any { return &p.Film }},
		{"rounds", "Rounds", "", 0, 0, 20, false, func(p *build.Product) any { return &p.Rounds }},
		{"transfer", "Part that stays on the panel", "of 1", 2, 0, 1, true, func(p *build.Product) any { return &p.Transfer }},
		{"purge", "Cup and hose, a round", "l", 3, 0, 10, false, func(p *build.Product) any { return &p.Purge }},
		{"fill", "Cup and hose, a mix", "l", 3, 0, 10, false, func(p *build.Product) any { return &p.FillPurge }},
	}},
	{viscosityGroup, []number{
		{"cup_s", "Runs empty in", "s", 1, 1, 300, false, func(p *build.Product) any { return &p.Viscosity.Seconds }},
	}},
	{"Times at 20 °C", []number{
		{"induction", "Stand after mixing", "min", 0, 0, 100_000, false, func(p *build.Product) any { return &p.Times.Induction }},
		{"pot", "Pot life", "min", 0, 0, 100_000, false, func(p *build.Product) any { return &p.PotLife }},
		{"flash", "Flash between coats", "min", 0, 0, 100_000, false, func(p *build.Product) any { return &p.Flash }},
		{"recoat_from", "Next product from", "min", 0, 0, 100_000, false, func(p *build.Product) any { return &p.Times.RecoatFrom }},
		{"recoat_to", "Next product until", "min", 0, 0, 100_000, false, func(p *build.Product) any { return &p.Times.RecoatTo }},
		{"dust", "Dust free", "min", 0, 0, 100_000, false, func(p *build.Product) any { return &p.Times.DustFree }},
		{"handle", "To handle", "min", 0, 0, 100_000, false, func(p *build.Product) any { return &p.Times.Handle }},
		{"sand", "To sand, or cut and polish", "min", 0, 0, 100_000, false, func(p *build.Product) any { return &p.Times.Sand }},
	}},
	{"Limits", []number{
		{"low_metal", "Lowest metal", "°C", 1, coldest, hottest, false, func(p *build.Product) any { return &p.LowMetal }},
		{"high_rh", "Highest humidity", "% RH", 1, 0, mostRH, false, func(p *build.Product) any { return &p.HighRH }},
		{"dry_double", "Colder by this, drying takes twice as long", "°C", 1, 0, 100, false, func(p *build.Product) any { return &p.DryDouble }},
		{"pot_double", "Warmer by this, pot life halves", "°C", 1, 0, 100, false, func(p *build.Product) any { return &p.PotDouble }},
		{"shelf", "Shelf life", "days", 0, 0, 10_000, false, func(p *build.Product) any { return &p.ShelfLife }},
	}},
	{"What a missed window costs", []number{
		{"missed_coats", "Coats of it again", "", 0, 0, 20, false, func(p *build.Product) any { return &p.Missed.Coats }},
		{"missed_scuff", "Scuffing", "h/m²", 2, 0, 100, false, func(p *build.Product) any { return &p.Missed.Scuff }},
	}},
}

// partNumber is one number of a part of the mix.
type partNumber struct {
	Name, Label, Unit string
	Places            int
	Most              int64
	at                func(*build.MixPart) any
}

// partNumbers are those of each part as it comes in the tin.
var partNumbers = []partNumber{
	{"density", "Density", "kg/l", 3, 10, func(m *build.MixPart) any { return &m.Density }},
	{"solids", "Solids by volume", "%", 1, 100, func(m *build.MixPart) any { return &m.Solids }},
	{"voc", "Solvent, less water and exempt", "g/l", 0, 2000, func(m *build.MixPart) any { return &m.VOC }},
	{"water", "Water", "g/l", 0, 1000, func(m *build.MixPart) any { return &m.Water }},
	{"exempt", "Exempt solvent", "g/l", 0, 2000, func(m *build.MixPart) any { return &m.Exempt }},
	{"exempt_density", "Its density", "kg/l", 3, 10, func(m *build.MixPart) any { return &m.ExemptDensity }},
	{"tin", "Sold in tins of", "l", 3, 1000, func(m *build.MixPart) any { return &m.TinSize }},
	{"price", "Price of a tin", "", 2, 100_000, func(m *build.MixPart) any { return &m.TinPrice }},
}

const (
	mixParts  = 4 // rows of the form
	gradeRows = 4
)

// show writes a number as it is typed; none is empty.
func show(at any) string {
	switch v := at.(type) {
	case *int:
		if *v != 0 {
			return strconv.Itoa(*v)
		}
	case *float64:
		if *v != 0 {
			return plainNumber(*v)
		}
	case *unit.Volume:
		if *v != 0 {
			return unit.FormatDecimal(int64(*v), 6, 0)
		}
	case *unit.Money:
		if *v != 0 {
			return unit.FormatDecimal(int64(*v), 2, 0)
		}
	}
	return ""
}

// take reads a number of a form into its place; empty is none.
func take(f *web.Form, name string, places int, least, most int64, at any) {
	if strings.TrimSpace(f.Raw(name)) == "" {
		return
	}
	scale := int64(1)
	for range places {
		scale *= 10
	}
	n := f.Decimal(name, places, least*scale, most*scale)
	switch v := at.(type) {
	case *int:
		*v = int(n)
	case *float64:
		*v = float64(n) / float64(scale)
	case *unit.Volume:
		*v = unit.Volume(n * (int64(unit.Litre) / scale))
	case *unit.Money:
		*v = unit.Money(n)
	}
}
