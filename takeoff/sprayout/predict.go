package sprayout

import (
	"fmt"

	"fettle/build"
	"fettle/engine/colour"
	"fettle/fault"
)

// filmScatter is by how much of itself the film of a coat laid by hand differs, one
// deviation: a trade default, until film readings of the shop say otherwise.
const filmScatter = 0.10

// hides is when an undercoat counts as hidden: by eye nothing is left to change
// and the lightness is that of the chart rule.
var hides = colour.Hides{}

// Paints are the paints of a build as its cards give them, worked out once. They
// are not altered after, so many may ask at once.
type Paints struct {
	build   *build.Build
	eyes    viewers
	sources map[build.ProductID]source
}

// Read works out every paint of a build.
func Read(b *build.Build) *Paints {
	p := &Paints{build: b, eyes: newViewers(), sources: map[build.ProductID]source{}}
	for i := range b.Products {
		p.sources[b.Products[i].ID] = p.sourceOf(&b.Products[i])
	}
	return p
}

func (p *Paints) name(id build.ProductID) string {
	if of := p.build.Product(id); of != nil {
		return of.Name
	}
	return string(id)
}

// Planned returns the coats that a product gets and the dry film of each, µm: of
// the chosen step of its last card where one is chosen, else of its sheet.
func (p *Paints) Planned(id build.ProductID) (coats int, film float64) {
	for i := len(p.build.Cards) - 1; i >= 0; i-- {
		c := &p.build.Cards[i]
		if c.Product == id && c.Chosen > 0 && c.Chosen <= len(c.Steps) && c.Steps[c.Chosen-1].Coats > 0 {
			s := c.Steps[c.Chosen-1]
			return s.Coats, s.Film / float64(s.Coats)
		}
	}
	if of := p.build.Product(id); of != nil {
		return of.Coats, of.Film
	}
	return 0, 0
}

// Face returns how a product is seen over an undercoat after so many coats; 0
// coats are those planned.
func (p *Paints) Face(id, over build.ProductID, coats int) Face {
	planned, film := p.Planned(id)
	if coats == 0 {
		coats = planned
	}
	f := Face{Product: id, Over: over, Coats: coats, Film: film * float64(coats), Basis: Refused}
	of := p.build.Product(id)
	if of == nil {
		f.Why = fmt.Sprintf("there is no paint product %q", id)
		return f
	}
	f.Colour = of.Colour
	s := p.sources[id]
	if s.card != nil {
		f.card = s.card.ID
	}
	if s.basis != WorkedOut {
		p.plain(&f, s)
		if s.card != nil && s.card.Over != "" && over != "" && over != s.card.Over {
			f.Basis, f.Seen, f.Flop = Refused, nil, nil
			f.Why = fmt.Sprintf("card %s was sprayed over %s; how it looks over %s nobody has sprayed", s.card.ID, p.name(s.card.Over), p.name(over))
		}
		return f
	}
	job, err := p.job(id, over, film)
	if err != nil {
		f.Why = err.Error()
		return f
	}
	f.Basis = WorkedOut
	for i, eye := range p.eyes {
		list, err := job.Coats(eye, max(coats, 1), hides)
		if err != nil {
			f.Basis, f.Why, f.Seen = Refused, err.Error(), nil
			return f
		}
		last := list[len(list)-1]
		one := p.eyes.see(last.Seen)[i]
		one.Within = last.Within
		f.Seen = append(f.Seen, one)
		f.Hidden = f.Hidden || i == 0 && last.Hidden // as coats are counted: in daylight
	}
	f.ToHide, _ = job.ToHide(p.eyes[0], hides) // 0: no number of coats does
	return f
}

// plain fills in a colour that is not worked out.
func (p *Paints) plain(f *Face, s source) {
	f.Basis, f.Why = s.basis, s.why
	if s.basis == Refused {
		return
	}
	seen := p.eyes.see(s.face)
	for i := range seen {
		seen[i].Within = max(s.within, s.doubt[i])
	}
	f.Seen = seen[:]
	if s.flop != nil {
		flop := p.eyes.see(*s.flop)
		f.Flop = flop[:]
	}
}

// Drawn returns a colour of the look of which there is no paint yet.
func (p *Paints) Drawn(id build.ColourID) Face {
	f := Face{Colour: id}
	p.plain(&f, p.drawn(id))
	if f.Basis == Drawn {
		f.Basis = Named
	}
	return f
}

// job is a product laid in coats over an undercoat.
func (p *Paints) job(id, over build.ProductID, film float64) (*colour.Job, error) {
	s := p.sources[id]
	if s.basis != WorkedOut {
		return nil, fault.New(fault.Invalid, "%s", s.why)
	}
	ground, err := p.ground(over)
	if err != nil {
		return nil, err
	}
	if film <= 0 {
		return nil, fault.New(fault.Invalid, "the film of a coat of %s is not known", id)
	}
	return &colour.Job{Paint: s.paint, Coat: film, Scatter: filmScatter, Over: ground, Surface: s.surface}, nil
}

// ground returns the reflectance inside of an undercoat as it stands under paint.
func (p *Paints) ground(id build.ProductID) (colour.Spectrum, error) {
	s, ok := p.sources[id]
	switch {
	case id == "":
		return colour.Spectrum{}, fault.New(fault.Invalid, "no undercoat is said").WithHint("choose a sealer")
	case !ok:
		return colour.Spectrum{}, fault.New(fault.NotFound, "there is no paint product %q", id)
	case s.basis == Refused:
		return colour.Spectrum{}, fault.New(fault.Invalid, "of the undercoat %s %s", p.name(id), s.why)
	case s.basis == WorkedOut:
		inside := s.paint.Paint.Hidden()
		return inside, nil
	}
	inside := s.surface.Inside(s.face)
	for i := range inside {
		inside[i] = min(max(inside[i], 0), 1)
	}
	return inside, nil
}

// Coat is a product over an undercoat after so many coats, in daylight.
type Coat struct {
	Coats    int        `json:"coats"`
	Film     float64    `json:"film_um"`
	Lab      colour.Lab `json:"lab"`
	Hex      string     `json:"srgb"`
	Left     float64    `json:"to_hidden"`      // CIEDE2000 to the colour fully hidden
	Contrast float64    `json:"contrast_ratio"` // over black ÷ over white, of the chart
	Within   float64    `json:"within"`         // CIEDE2000, 95 in 100
	Hidden   bool       `json:"hidden"`
}

// The chart that contrast ratios are stated over.
const chartBlack, chartWhite = 0.0, 0.8

// Coats returns a product over an undercoat coat by coat, 1 to n. The fault says
// why nothing can be worked out.
func (p *Paints) Coats(id, over build.ProductID, n int) ([]Coat, error) {
	_, film := p.Planned(id)
	job, err := p.job(id, over, film)
	if err != nil {
		return nil, err
	}
	day := p.eyes[0]
	list, err := job.Coats(day, n, hides)
	if err != nil {
		return nil, err
	}
	chart := colour.Chart{Black: colour.Flat(chartBlack), White: colour.Flat(chartWhite), Surface: job.Surface}
	out := make([]Coat, len(list))
	for i, c := range list {
		out[i] = Coat{Coats: c.Coats, Film: c.Film, Lab: c.Lab, Hex: day.Show(c.Seen).Colour.Hex(), Left: c.Left, Within: c.Within, Hidden: c.Hidden,
			Contrast: chart.Contrast(day, colour.Layer{Paint: job.Paint.Paint, Film: c.Film})}
	}
	return out, nil
}

// ToHide returns the fewest coats of a product that hide an undercoat.
func (p *Paints) ToHide(id, over build.ProductID) (int, error) {
	_, film := p.Planned(id)
	job, err := p.job(id, over, film)
	if err != nil {
		return 0, err
	}
	return job.ToHide(p.eyes[0], hides)
}
