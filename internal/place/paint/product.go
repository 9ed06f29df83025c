package paint

import (
	"slices"

	"fettle/build"
	"fettle/figure"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	stage "fettle/stage/paint"
)

func (p place) productRoutes() []web.Route {
	return []web.Route{
		{Pattern: "GET /b/{build}/paint/new", Who: web.Crew, Handle: p.newProduct},
		{Pattern: "POST /b/{build}/paint/new", Who: web.Crew, Handle: p.addProduct},
		{Pattern: "GET /b/{build}/paint/product/{product}", Who: web.Guest, Handle: p.showProduct},
		{Pattern: "POST /b/{build}/paint/product/{product}", Who: web.Crew, Handle: p.setProduct},
	}
}

// productPage is a maker's sheet, with its form.
type productPage struct {
	sheet
	Product build.Product
	New     bool
	Form    typedSheet
	Wrong   field.Errors
}

func (p place) newProduct(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	page := productPage{sheet: s, New: true, Form: fill(build.Product{Rounds: 1, Transfer: 0.6, DryDouble: 12, PotDouble: 10})}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: "new maker's sheet"}, productSheet(page))
}

func (p place) showProduct(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	product, err := s.product(r.Path("product"))
	if err != nil {
		return err
	}
	if r.As() == "json" {
		return r.JSON(product)
	}
	return p.desk.Page(r, web.Sheet{Place: "paint", Shown: "sheet of " + product.Name}, productSheet(productPage{sheet: s, Product: product, Form: fill(product)}))
}

func (p place) setProduct(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	product, err := s.product(r.Path("product"))
	if err != nil {
		return err
	}
	return p.propose(r, productPage{sheet: s, Product: product})
}

func (p place) addProduct(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	return p.propose(r, productPage{sheet: s, New: true})
}

// propose lays a sheet on the slip: it moves litres, tins and dates.
func (p place) propose(r *web.Request, page productPage) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	next := page.read(f, page.Product)
	if !page.New {
		next.ID = page.Product.ID
	} else if page.Build.Product(next.ID) != nil {
		f.Fail("id", "is taken: "+string(next.ID))
	}
	change := &build.SetProduct{Product: next}
	if f.Err() == nil {
		refused(page.Build, change, f)
	}
	if page.Wrong = f.Errors; len(page.Wrong) > 0 {
		page.Form = retyped(f, fill(next))
		return r.Invalid(web.Sheet{Place: "paint", Shown: "maker's sheet"}, productSheet(page))
	}
	return p.desk.Propose(r, page.Base+"/slip", change)
}

// solvent is the solvent of the mix ready to spray, or why it is not known.
func (p productPage) solvent() (figure.Figure, bool) {
	_, f, ok := stage.Solvent(p.Product)
	return f, ok
}

// staged is the solvent of a base with its clear, taken as one topcoat.
func (p productPage) staged() (figure.Figure, bool) {
	return stage.SolventStaged(p.Build, p.Product)
}

// uses, colours, tasks, zones and products to choose from.

func (p productPage) uses() []field.Option {
	list := []field.Option{{Value: "", Label: "not said", Picked: p.Form.Text["use"] == ""}}
	for _, u := range build.Uses() {
		list = append(list, field.Option{Value: string(u), Label: string(u), Picked: p.Form.Text["use"] == string(u)})
	}
	return list
}

func (p productPage) colours() []field.Option {
	list := []field.Option{{Value: "", Label: "none", Picked: p.Form.Text["colour"] == ""}}
	for _, c := range p.Build.Colours {
		list = append(list, field.Option{Value: string(c.ID), Label: c.Name, Picked: p.Form.Text["colour"] == string(c.ID)})
	}
	return list
}

func (p productPage) tasks() []field.Option {
	list := []field.Option{{Value: "", Label: "no task", Picked: p.Form.Text["task"] == ""}}
	for _, t := range p.Build.Tasks {
		list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name, Picked: p.Form.Text["task"] == string(t.ID)})
	}
	return list
}

func (p productPage) zoneTicks() []field.Option {
	var list []field.Option
	for _, z := range p.Build.Zones {
		list = append(list, field.Option{Value: string(z.ID), Label: z.Name, Picked: p.Form.Zones[string(z.ID)]})
	}
	return list
}

func (p productPage) overTicks() []field.Option {
	var list []field.Option
	for _, o := range p.Build.Products {
		if o.ID != p.Product.ID {
			list = append(list, field.Option{Value: string(o.ID), Label: o.Name, Picked: p.Form.Over[string(o.ID)]})
		}
	}
	return list
}

// cups are those that the seconds of the sheet can be read in.
func (p productPage) cups() []field.Option {
	names, own := stage.CupNames(), p.Form.Text["cup"]
	if own != "" && !slices.Contains(names, own) {
		names = append(names, own)
	}
	list := []field.Option{{Value: "", Label: "not said", Picked: own == ""}}
	for _, name := range names {
		list = append(list, field.Option{Value: name, Label: name, Picked: name == own})
	}
	return list
}

// extras are what a percentage on top of the mix is counted on.
func (p productPage) extras() []field.Option {
	own := p.Form.Text["extra_of"]
	list := []field.Option{{Value: "", Label: "no % in it", Picked: own == ""}}
	for _, of := range []build.ExtraOf{build.OfAll, build.OfPaint} {
		list = append(list, field.Option{Value: string(of), Label: extraWords[of], Picked: string(of) == own})
	}
	return list
}

// classes are those of the owner's table.
func (p productPage) classes() []field.Option {
	own := p.Form.Text["solvent"]
	list := []field.Option{{Value: "", Label: "not said", Picked: own == ""}}
	for _, c := range p.Build.Solvent.Classes {
		list = append(list, field.Option{Value: string(c.ID), Label: c.Name, Picked: string(c.ID) == own})
	}
	return list
}
