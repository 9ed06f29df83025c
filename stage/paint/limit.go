package paint

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/engine/coat"
	"fettle/figure"
)

// OwnersText says whose the limits are, wherever they are shown.
const OwnersText = "the owner's text, no law"

// ExampleLimits returns tables to begin an own one from. They are examples: the
// owner says whose rule the own one is, and since when.
func ExampleLimits() []build.SolventLimits {
	var list []build.SolventLimits
	for _, t := range coat.ExampleLimits() {
		own := build.SolventLimits{Title: t.Title, Note: t.Note}
		for _, row := range t.Rows {
			own.Classes = append(own.Classes, build.SolventClass{Name: row.Class, Most: row.Most, Note: row.Note, Staged: strings.Contains(row.Class, "stage")})
		}
		list = append(list, own)
	}
	return list
}

// Limit is a mix beside the class of the owner's table that its product is in.
type Limit struct {
	Class  build.SolventClass
	VOC    float64       // g/l ready to spray, less water and exempt
	Over   float64       // g/l beyond the limit, 0 within it
	Figure figure.Figure // how far over or under
}

// LimitOf compares a product with the class that the owner put it in. A class
// that is counted as one topcoat takes the worst that the product is part of.
// False where it is in no class, or a sheet does not say the solvent.
func LimitOf(b *build.Build, p build.Product) (Limit, bool) {
	class := b.SolventClass(p.Solvent)
	if p.Solvent == "" || class == nil {
		return Limit{}, false
	}
	voc, f, ok := Solvent(p)
	if class.Staged && p.Use != build.SingleStage {
		voc, f, ok = topcoat(b, p)
	}
	if !ok {
		return Limit{}, false
	}
	table := coat.Limits{Title: b.Solvent.Title, Note: b.Solvent.Note, Rows: []coat.Limit{{Class: class.Name, Most: class.Most, Note: class.Note}}}
	verdict, err := table.Judge(voc, class.Name)
	if err != nil {
		return Limit{}, false
	}
	return Limit{Class: *class, VOC: voc, Over: verdict.Over, Figure: beside(b.Solvent, *class, verdict, f)}, true
}

// beside is how far a mix is over or under its limit, with its working.
func beside(t build.SolventLimits, c build.SolventClass, v coat.Verdict, solvent figure.Figure) figure.Figure {
	f := figure.Figure{Name: "under the limit", Formula: "limit − solvent ready to spray", Caution: coat.CautionLimits}
	f.Text = gramsLitre(c.Most - v.VOC)
	f.With = fmt.Sprintf("%g − %.1f = %s", c.Most, v.VOC, f.Text)
	if v.Over > 0 {
		f.Name, f.Formula, f.Text = "over the limit", "solvent ready to spray − limit", gramsLitre(v.Over)
		f.With = fmt.Sprintf("%.1f − %g = %s", v.VOC, c.Most, f.Text)
	}
	solvent.Name = "solvent ready to spray"
	f.Inputs = []figure.Input{
		{Name: "limit, " + c.Name, Value: fmt.Sprintf("%g g/l", c.Most), Source: figure.Decided, Note: strings.Trim(t.Title+": "+t.Note+"; "+c.Note, "; ")},
		{Name: solvent.Name, Value: fmt.Sprintf("%.1f g/l", v.VOC), Source: figure.Worked, Note: solvent.With},
	}
	return f
}

// gramsLitre writes grams per litre, with a tenth where a whole number would
// hide on which side of a limit it is.
func gramsLitre(v float64) string {
	if v < 10 {
		return fmt.Sprintf("%.1f g/l", v)
	}
	return fmt.Sprintf("%.0f g/l", v)
}
