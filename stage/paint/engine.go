package paint

import (
	"fettle/build"
	"fettle/engine/coat"
	"fettle/takeoff"
)

// Recoat returns a product's window as the engine takes it.
func Recoat(p build.Product) coat.Recoat {
	return coat.Recoat{From: float64(p.Times.RecoatFrom), To: float64(p.Times.RecoatTo), Doubling: p.DryDouble}
}

// Grades returns a product's grades as the engine takes them, or those of the
// trade where its sheet names none.
func Grades(p build.Product) []coat.Grade {
	if len(p.Grades) == 0 {
		return coat.DefaultGrades()
	}
	list := make([]coat.Grade, len(p.Grades))
	for i, g := range p.Grades {
		list[i] = coat.Grade{Name: g.Name, From: g.From, To: g.To}
	}
	return list
}

// Recipe returns a product's mix as the engine takes it: paint, then hardener,
// then reducers. Parts of nothing are left out.
func Recipe(p build.Product) coat.Recipe {
	if len(p.Mix) == 0 {
		p.Mix = []float64{1}
	}
	var r coat.Recipe
	for i, n := range p.Mix {
		if n <= 0 {
			continue
		}
		c := coat.Component{Name: takeoff.PartName(p, i), Role: coat.Role(min(i, int(coat.Reducer))), Parts: n}
		if i < len(p.Parts) {
			m := p.Parts[i]
			c.Density, c.Solids = m.Density, m.Solids
			c.Volatile = Volatile(m)
		}
		r.Components = append(r.Components, c)
	}
	return r
}

// Volatile returns what flies off of a litre of a part. Exempt solvent of no
// stated density is taken as weighing what water does.
func Volatile(m build.MixPart) coat.Volatile {
	density := m.ExemptDensity
	if density <= 0 {
		density = 1
	}
	return coat.Volatile{Mass: m.VOC + m.Water + m.Exempt, Water: m.Water, Exempt: m.Exempt, ExemptVolume: m.Exempt / 1000 / density}
}

// Drying returns a product's times after the last coat as the engine takes them.
func Drying(p build.Product) coat.Drying {
	d := coat.Drying{DustFree: float64(p.Times.DustFree), Handle: float64(p.Times.Handle), Doubling: p.DryDouble}
	if p.Use == build.Clear || p.Use == build.SingleStage {
		d.Polish = float64(p.Times.Sand)
	} else {
		d.Sand = float64(p.Times.Sand)
	}
	return d
}

// TwoPack reports whether a product is mixed with a hardener: the second part.
func TwoPack(p build.Product) bool { return len(p.Mix) > 1 && p.Mix[1] > 0 }

// Warming returns how a bay warms, by its own record.
func Warming(b *build.Build, bay string) (coat.Warming, error) {
	var record []coat.WarmUp
	for _, w := range b.WarmUps {
		if w.Bay == bay {
			record = append(record, coat.WarmUp{From: w.From, To: w.To, Air: w.Air, Minutes: float64(w.Minutes)})
		}
	}
	return coat.FitWarming(record)
}
