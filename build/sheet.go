package build

import "fettle/unit"

// Use says what a paint product is for.
type Use string

// The uses of a product, from the metal out.
const (
	Epoxy       Use = "epoxy"
	Primer      Use = "primer"
	Sealer      Use = "sealer"
	Base        Use = "base"
	MidCoat     Use = "mid coat"
	Clear       Use = "clear"
	SingleStage Use = "single stage"
)

// Uses lists the uses in the order in which they go on.
func Uses() []Use { return []Use{Epoxy, Primer, Sealer, Base, MidCoat, Clear, SingleStage} }

// ShowsColour reports whether the colour that is seen comes from the product.
func (u Use) ShowsColour() bool { return u == Base || u == SingleStage }

// state is how far a panel is once its face has a coat of such a product; empty
// where a coat says nothing of it.
func (u Use) state() PanelState {
	switch u {
	case Epoxy:
		return InEpoxy
	case Primer:
		return InPrimer
	case Sealer:
		return ReadyForColour
	case Base, MidCoat, Clear, SingleStage:
		return InColour
	}
	return ""
}

// MixPart is one part of a mix as it comes in the tin. VOC counts neither water
// nor exempt solvent, and is per litre of the part as delivered.
type MixPart struct {
	Name          string      `json:"name"`
	Density       float64     `json:"density_kg_l,omitempty"`
	Solids        float64     `json:"solids_percent,omitempty"` // by volume
	VOC           float64     `json:"voc_g_l,omitempty"`
	Water         float64     `json:"water_g_l,omitempty"`
	Exempt        float64     `json:"exempt_g_l,omitempty"`
	ExemptDensity float64     `json:"exempt_density_kg_l,omitempty"`
	Graded        bool        `json:"graded,omitempty"` // comes in the product's grades
	TinSize       unit.Volume `json:"tin_l,omitzero"`   // as it is sold
	TinPrice      unit.Money  `json:"tin_price,omitzero"`
}

// Grade is a hardener or reducer for a range of metal temperature, both ends
// included.
type Grade struct {
	Name string  `json:"name"`
	From float64 `json:"from_c"`
	To   float64 `json:"to_c"`
}

// Times are minutes at 20 °C and the sheet's film; 0 is not stated. Flash and
// pot life stand with the product.
type Times struct {
	Induction  int `json:"induction_min,omitempty"` // stand after mixing
	RecoatFrom int `json:"recoat_from_min,omitempty"`
	RecoatTo   int `json:"recoat_to_min,omitempty"`
	DustFree   int `json:"dust_free_min,omitempty"`
	Handle     int `json:"handle_min,omitempty"`
	Sand       int `json:"sand_min,omitempty"` // sand, or cut and polish
}

// Viscosity is how thin a mix is sprayed, by the sheet: the seconds in which a
// cup runs empty. Without seconds it is not stated.
type Viscosity struct {
	Cup     string  `json:"cup"`
	Seconds float64 `json:"seconds"`
}

// ExtraOf says what "+ 5 %" is 5 % of.
type ExtraOf string

// What a part on top is counted on.
const (
	OfAll   ExtraOf = "all"   // of all parts before it
	OfPaint ExtraOf = "paint" // of the first part
)

// Extra is a ratio's "+ x %": the last part of the mix, counted on those before
// it. Without a percentage there is none.
type Extra struct {
	Percent float64 `json:"percent"`
	Of      ExtraOf `json:"of"`
}

// Parts returns the parts that the percentage comes to on top of those of a mix.
func (e Extra) Parts(before []float64) float64 {
	sum := 0.0
	for i, n := range before {
		if i == 0 || e.Of == OfAll {
			sum += n
		}
	}
	return sum * e.Percent / 100
}

// Missed is what it costs when the next product comes too late.
type Missed struct {
	Words string  `json:"words,omitempty"`
	Coats int     `json:"coats,omitempty"` // of the product itself, anew
	Scuff float64 `json:"scuff_h_per_m2,omitempty"`
}
