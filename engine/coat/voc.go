package coat

import (
	"fmt"

	"fettle/fault"
)

// Volatile is what flies off of one litre: of a component, or of a mix.
type Volatile struct {
	Mass         float64 // g in all, water and exempt solvent included
	Water        float64 // g; a litre weighs a kilogram
	Exempt       float64 // g of solvents that the rule leaves out
	ExemptVolume float64 // l
}

func (v Volatile) waterVolume() float64 { return v.Water / 1000 }

// VOC returns the solvent of a litre ready to spray in g/l, less water and
// exempt: (mass − water − exempt) ÷ (1 − their volumes) [40CFR59B].
func (v Volatile) VOC() (float64, error) {
	if err := v.refuse(); err != nil {
		return 0, err
	}
	rest := 1 - v.waterVolume() - v.ExemptVolume
	if rest < 1e-6 {
		return 0, fault.New(fault.Invalid, "the litre is water and exempt solvent alone").At("volumes").WithHint("give the volumes in one litre of the mix")
	}
	return (v.Mass - v.Water - v.Exempt) / rest, nil
}

// WholeLitre returns the solvent in g for a whole litre, water left in the
// volume: what goes into the air for each litre sprayed.
func (v Volatile) WholeLitre() (float64, error) {
	return v.Mass - v.Water - v.Exempt, v.refuse()
}

func (v Volatile) refuse() error {
	for _, c := range []struct {
		name    string
		v, most float64
		unit    string
	}{
		{"volatiles", v.Mass, 2000, "g"}, {"water", v.Water, 1000, "g"},
		{"exempt", v.Exempt, 2000, "g"}, {"exempt volume", v.ExemptVolume, 1, "l"},
	} {
		if err := within(c.name, c.v, 0, c.most, c.unit, "give what is in one litre"); err != nil {
			return err
		}
	}
	if v.Water+v.Exempt > v.Mass+1e-9 {
		return fault.New(fault.Invalid, "%g g of water and exempt solvent in %g g of volatiles", v.Water+v.Exempt, v.Mass).At("volatiles").WithHint("volatiles include water and exempt solvent")
	}
	if v.waterVolume()+v.ExemptVolume > 1+1e-9 {
		return fault.New(fault.Invalid, "more than a litre of water and exempt solvent in a litre").At("volumes").WithHint("give what is in one litre")
	}
	return nil
}

// Volatile returns what flies off of one litre of the mix, volumes taken as
// adding up.
func (r Recipe) Volatile() (Volatile, error) {
	m, err := r.Pour(1)
	if err != nil {
		return Volatile{}, err
	}
	var sum Volatile
	for i, s := range m.Steps {
		v, part := r.Components[i].Volatile, s.Ml/1000
		if err := v.refuse(); err != nil {
			return Volatile{}, fault.Wrap(fault.Invalid, err, s.Name)
		}
		sum.Mass += part * v.Mass
		sum.Water += part * v.Water
		sum.Exempt += part * v.Exempt
		sum.ExemptVolume += part * v.ExemptVolume
	}
	return sum, nil
}

// MultiStage returns the g/l of a base coat, mid coats and clear taken together:
// (base + Σ mid + 2 × clear) ÷ (mid coats + 3). The weights are those of a trade
// default; the rule that applies must be read [40CFR59B].
func MultiStage(base float64, mids []float64, clearCoat float64) (float64, error) {
	sum := base + 2*clearCoat
	for i, v := range append([]float64{base, clearCoat}, mids...) {
		if err := within("stage", v, 0, 2000, "g/l", "give the solvent ready to spray"); err != nil {
			return 0, err
		}
		if i > 1 {
			sum += v
		}
	}
	return sum / float64(len(mids)+3), nil
}

// Limit is the most solvent that a class of product may hold.
type Limit struct {
	Class string
	Most  float64 // g/l ready to spray
	Note  string
}

// Limits is a table of limits: the owner's text, edited by the owner.
type Limits struct {
	Title string
	Note  string // whose text it is, and what else to read
	Rows  []Limit
}

// Verdict is a product beside the limit that counts.
type Verdict struct {
	Limit Limit
	VOC   float64 // g/l ready to spray
	Over  float64 // g/l beyond the limit, 0 within it
	Words string
}

// Judge compares g/l ready to spray with the strictest of the classes that the
// mix is sold or used in.
func (t Limits) Judge(voc float64, classes ...string) (Verdict, error) {
	if err := within("solvent", voc, 0, 2000, "g/l", "give the solvent ready to spray, less water and exempt"); err != nil {
		return Verdict{}, err
	}
	v := Verdict{VOC: voc}
	for _, class := range classes {
		row, ok := t.row(class)
		if !ok {
			return Verdict{}, fault.New(fault.Invalid, "%q is not a class of the table %q", class, t.Title).At("class").WithHint("take a class of the table, or add it to the table")
		}
		if v.Limit.Class == "" || row.Most < v.Limit.Most {
			v.Limit = row
		}
	}
	if v.Limit.Class == "" {
		return Verdict{}, fault.New(fault.Invalid, "no class given").At("class").WithHint("take a class of the table")
	}
	v.Over = max(0, voc-v.Limit.Most)
	v.Words = fmt.Sprintf("%.0f g/l, limit %g g/l for %s, by the table %q: %s", voc, v.Limit.Most, v.Limit.Class, t.Title, t.Note)
	return v, nil
}

func (t Limits) row(class string) (Limit, bool) {
	for _, l := range t.Rows {
		if l.Class == class {
			return l, true
		}
	}
	return Limit{}, false
}
