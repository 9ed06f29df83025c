package trim

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/engine/pattern"
	"fettle/figure"
)

// SupplyKind is a kind of thing that is bought for the sewing.
type SupplyKind string

// The kinds, in the order in which they are told.
const (
	ThreadSupply   SupplyKind = "thread"
	CordSupply     SupplyKind = "piping cord"
	StripSupply    SupplyKind = "piping strips"
	FoamSupply     SupplyKind = "foam"
	BoardSupply    SupplyKind = "board"
	ClipSupply     SupplyKind = "clips"
	DeadenerSupply SupplyKind = "sound deadening"
	GlueSupply     SupplyKind = "adhesive"
)

// Supply is what the sewing takes of one thing, beside hides and rolls.
type Supply struct {
	Kind   SupplyKind     `json:"kind"`
	Name   string         `json:"name"`
	Amount pattern.Amount `json:"amount"`
	Parts  []build.PartID `json:"parts,omitempty"` // on the list that cover it
	Bare   []string       `json:"bare,omitempty"`  // IDs of what no part covers
	Mass   *figure.Figure `json:"mass,omitempty"`
	Buy    int            `json:"buy"`            // whole units to have: reels, metres, litres, blocks, boards, clips, m²
	Have   int            `json:"have,omitempty"` // of them on the list, where parts count in such units
	Unit   string         `json:"unit"`
	Note   string         `json:"note,omitempty"`
}

// ID names the supply.
func (s Supply) ID() string { return string(s.Kind) + "/" + s.Name }

// Supplies returns all that the sewing takes beside hides and rolls, with its
// working.
func Supplies(b *build.Build) []Supply {
	return slices.Concat(threads(b), cords(b), strips(b), foams(b), boards(b), deadening(b), glues(b))
}

// covers notes the part that covers a thing, or that none does.
func (s *Supply) covers(part build.PartID, id string) {
	switch {
	case part == "" && !slices.Contains(s.Bare, id):
		s.Bare = append(s.Bare, id)
	case part != "" && !slices.Contains(s.Parts, part):
		s.Parts = append(s.Parts, part)
	}
}

// total adds amounts of one unit into a figure that shows each of them.
func total(name string, list []pattern.Amount, unit string, decimals int) pattern.Amount {
	sum := 0.0
	f := figure.Figure{Name: name, Formula: "sum of all"}
	for i, a := range list {
		sum += a.Value
		if i > 0 {
			f.With += " + "
		}
		f.With += a.Working.Text
		f.Inputs = append(f.Inputs, figure.Input{Name: a.Working.Name, Value: a.Working.Text, Source: figure.Worked, Note: a.Working.Formula + ": " + a.Working.With})
		if f.Caution == "" {
			f.Caution = a.Working.Caution
		}
	}
	f.Text = fmt.Sprintf("%.*f", decimals, sum)
	if unit != "" {
		f.Text += " " + unit
	}
	f.With += " = " + f.Text
	return pattern.Amount{Value: sum, Unit: unit, Working: f}
}

// named returns the amount under another name.
func named(a pattern.Amount, name string) pattern.Amount {
	a.Working.Name = name
	return a
}

// inputs tells a want what it is needed for.
func (s Supply) inputs() []figure.Input {
	w := s.Amount.Working
	list := []figure.Input{{Name: w.Name, Value: w.Text, Source: figure.Worked, Note: w.With}}
	if s.Mass != nil {
		list = append(list, figure.Input{Name: s.Mass.Name, Value: s.Mass.Text, Source: figure.Worked, Note: s.Mass.With})
	}
	return list
}
