package rates

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/figure"
)

// Transfer is what mixes that were weighed back showed of one use of paint: the
// part that stayed on the panel.
type Transfer struct {
	Use build.Use `json:"use"`
	Own []float64 `json:"own"` // one for each mix
}

// transfers gathers the mixes weighed back, by the use of their product.
func transfers(builds []build.Build) []Transfer {
	var list []Transfer
	for _, use := range build.Uses() {
		t := Transfer{Use: use}
		for i := range builds {
			for _, m := range builds[i].Pours {
				if own, ok := ownTransfer(&builds[i], m, use); ok {
					t.Own = append(t.Own, own)
				}
			}
		}
		if len(t.Own) > 0 {
			list = append(list, t)
		}
	}
	return list
}

// ownTransfer is area × dry film ÷ (litres sprayed × 10 × solids), with the
// litres less what stays in cup and hose. The film is that of the coats laid
// out of the mix: as it was read, or else as the sheet says. A mix of which no
// coat is on record, or that would show more than was sprayed, teaches nothing.
func ownTransfer(b *build.Build, m build.Pour, use build.Use) (float64, bool) {
	p := b.Product(m.Product)
	if m.Weighed == 0 || p == nil || p.Use != use {
		return 0, false
	}
	onPanel := 0.0 // m² × µm
	for _, c := range b.Coats {
		if c.Pour == m.ID {
			onPanel += b.SurfaceOf(*p, c.Panels, c.Zones).M2() * filmOf(b, *p, c)
		}
	}
	sprayed := (m.Mixed() - m.Left - p.FillPurge).L()
	own := onPanel / (sprayed * 10 * p.Solids)
	return own, sprayed > 0 && own > 0 && own <= 1
}

// filmOf is the dry film of a coat: the mean of the readings taken on its panels
// after its product, less what was there before, shared among the coats of a
// round; or the sheet's.
func filmOf(b *build.Build, p build.Product, c build.Coat) float64 {
	sum, n := 0.0, 0
	for _, f := range b.Films {
		if f.Product != p.ID || f.At < c.At || !slices.Contains(c.Panels, f.Panel) {
			continue
		}
		for _, um := range f.Dry {
			sum += um - f.Under
			n++
		}
	}
	if n == 0 {
		return p.Film
	}
	return sum / float64(n) / float64(p.Coats)
}

// Transfer returns the part of a product's paint that stays on the panel: what
// its sheet or the trade says, narrowed by n mixes of the same use, which count
// n ÷ (n + 10).
func (r Rates) Transfer(p build.Product) (float64, figure.Input) {
	in := figure.Input{Name: "transfer", Value: fmt.Sprintf("%.2f", p.Transfer), Source: figure.TradeDefault, Note: "weigh the tin before and after to learn your own"}
	for _, t := range r.Transfers {
		if t.Use != p.Use || p.Use == "" {
			continue
		}
		sum := 0.0
		for _, own := range t.Own {
			sum += own
		}
		n := len(t.Own)
		value := (prior*p.Transfer + sum) / float64(n+prior)
		in.Value, in.Source = fmt.Sprintf("%.3f", value), figure.OwnPast
		in.Note = fmt.Sprintf("n = %d %s weighed back, mean %.2f; %.2f counts as %d", n, mixes(n), sum/float64(n), p.Transfer, prior)
		return value, in
	}
	return p.Transfer, in
}

func mixes(n int) string {
	if n == 1 {
		return "mix"
	}
	return "mixes"
}
