package pattern

import "fmt"

// Glue is a bonded joint whose adhesive is asked for.
type Glue struct {
	Area  Given // m² of joint
	Faces Given // that are coated; 2
	Yield Given // m² of one coated face a litre does; 10.3
	Waste Given // on brush and cup, as a part; 0.10
}

const vapour = "Solvent vapour burns and harms: no flame, extraction and gloves, by the maker's sheet. Some contact adhesives spoil plasticised vinyl and foam: try a scrap. Near heat and under a roof take one for 80 °C or more."

// Adhesive returns the litres of contact adhesive: both faces are coated, so a
// litre makes about 5 m² of joint.
func (g Glue) Adhesive() (Amount, error) {
	var s sum
	area := s.take(g.Area, asked{name: "joint", unit: "m²", low: 0, high: 1e4, why: "the area that is glued"})
	faces := s.take(g.Faces, asked{name: "coated faces", whole: true, low: 1, high: 2, habit: 2, has: true, why: "contact adhesive goes on both faces"})
	yield := s.take(g.Yield, asked{name: "yield", unit: "m²/l a face", low: 0.5, high: 50, habit: 10.3, has: true, why: "420 ft² a US gallon; the tin says its own"})
	waste := s.part(g.Waste, asked{name: "waste", low: 0, high: 2, habit: 0.1, has: true, why: "left on brush, roller and cup"})
	a, err := s.is("adhesive", area*faces/yield*(1+waste), "l", 2, "joint × faces ÷ yield × (1 + waste)",
		fmt.Sprintf("%s m² × %g ÷ %s × %s", num(area, 3), faces, num(yield, 2), num(1+waste, 3)))
	return a.careful(vapour), err
}

// Foam returns the mass of foam in kg: volume in litres by density in kg/m³.
func Foam(litres, density Given) (Amount, error) {
	var s sum
	v := s.take(litres, asked{name: "volume", unit: "l", low: 0, high: 1e5, why: "length × width × thickness"})
	d := s.take(density, asked{name: "density", unit: "kg/m³", low: 5, high: 400, why: "seat cushions 38–45 kg/m³, backs 28–35, bolsters 45 and more; the maker's sheet says"})
	return s.is("foam", v*d/1000, "kg", 2, "volume × density", fmt.Sprintf("%s l × %s kg/m³ ÷ 1000", num(v, 2), num(d, 1)))
}

// Deadener returns what sound deadening weighs in kg: area in m² by kg/m², on
// the part of it that is covered.
func Deadener(area, perArea, covered Given) (Amount, error) {
	var s sum
	a := s.take(area, asked{name: "area", unit: "m²", low: 0, high: 1e4, why: "the panels that are to be quiet"})
	m := s.take(perArea, asked{name: "mass by area", unit: "kg/m²", low: 0.05, high: 30, why: "the maker's sheet says; weigh an offcut"})
	c := s.part(covered, asked{name: "covered", low: 0.01, high: 1, habit: 1, has: true, why: "all of it"})
	return s.is("sound deadening", a*c*m, "kg", 2, "area × covered part × mass by area", fmt.Sprintf("%s m² × %s × %s kg/m²", num(a, 3), num(c, 3), num(m, 2)))
}
