package look

import (
	"fmt"
	"slices"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/internal/web/ui/table"
	shade "fettle/stage/look"
	"fettle/takeoff"
	"fettle/takeoff/sprayout"
	"fettle/unit"
)

// mostShown is how many coats the table shows at most.
const mostShown = 12

// paintPage is one paint over an undercoat.
type paintPage struct {
	scene
	Product *build.Product
	Over    build.ProductID
	Face    sprayout.Face
	Before  *sprayout.Face // as kept, where the slip changes it
	Coats   table.Table
	Refused string // why there is no table
	Unders  table.Table
	Overs   []field.Option
	Stop    *sprayout.Wrong // where what it is over would show through
	Cards   []build.Card
	Wrong   field.Errors
	Entry   string
}

func (p place) paint(r *web.Request) error {
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page, err := s.paintPage(r.Path("product"), build.ProductID(r.Query("over")))
	if err != nil {
		return err
	}
	list := page.Coats
	if r.Query("list") == "undercoats" {
		list = page.Unders
	}
	switch r.As() {
	case "csv":
		return r.CSV(string(page.Product.ID)+".csv", list.Records())
	case "json":
		coats, _ := s.Paints.Coats(page.Product.ID, page.Over, mostShown) // none where it is refused: Face says why
		return r.JSON(map[string]any{"face": page.Face, "before": page.Before, "coats": coats, "undercoats": s.Paints.Undercoats(page.Product.ID)})
	}
	return p.desk.Page(r, p.sheet(page.Product.Name), showPaint(page))
}

// paintPage works out the page of a product.
func (s scene) paintPage(id string, over build.ProductID) (paintPage, error) {
	page := paintPage{scene: s, Entry: field.NewEntry()}
	var err error
	if page.Product, err = s.product(id); err != nil {
		return page, err
	}
	page.Over = s.overFor(page.Product, over)
	page.Face = s.Paints.Face(page.Product.ID, page.Over, 0)
	if was := s.kept(page.Product.ID, page.Over); differs(was, page.Face) {
		page.Before = &was
	}
	for _, c := range s.Build.Cards {
		if c.Product == page.Product.ID {
			page.Cards = append(page.Cards, c)
		}
	}
	page.Stop = shade.StopOver(s.Paints, s.Build, page.Product.ID, page.Over, s.Rates)
	page.tables()
	return page, nil
}

// overFor returns the undercoat asked for, else that of the first zone that the
// product covers, else the first it may go on.
func (s scene) overFor(p *build.Product, asked build.ProductID) build.ProductID {
	if s.Build.Product(asked) != nil {
		return asked
	}
	for _, z := range p.Zones {
		if under := shade.Under(s.Build, z); under != "" {
			return under
		}
	}
	if len(p.Over) > 0 {
		return p.Over[0]
	}
	return ""
}

// kept is the face without the person's slip.
func (s scene) kept(id, over build.ProductID) sprayout.Face {
	if len(s.Slip) == 0 {
		return s.Paints.Face(id, over, 0)
	}
	return sprayout.Read(s.Kept).Face(id, over, 0)
}

func differs(a, b sprayout.Face) bool {
	if a.Basis != b.Basis || a.Coats != b.Coats || a.Card() != b.Card() {
		return true
	}
	for i := range a.Seen {
		if a.Seen[i].Lab != b.Seen[i].Lab {
			return true
		}
	}
	return false
}

// tables fills in the coats, and what each undercoat takes.
func (page *paintPage) tables() {
	s, p := page.scene, page.Product
	at := s.At() + "/paint/" + string(p.ID) + "?over=" + string(page.Over)
	page.Coats = table.Table{ID: "coats", Caption: "Coat by coat over " + s.name(page.Over) + ", in daylight", Self: at, Columns: []table.Column{
		{Head: ""}, {Head: "Coats", Number: true}, {Head: "Film", Unit: "µm", Number: true}, {Head: "L", Number: true}, {Head: "a", Number: true}, {Head: "b", Number: true}, {Head: "sRGB"},
		{Head: "To hidden", Unit: "CIEDE2000", Number: true}, {Head: "Contrast", Unit: "black ÷ white", Number: true}, {Head: "Error", Unit: "±, 95 in 100", Number: true}, {Head: "Hides"}}}
	last := page.Face.Coats
	if page.Face.ToHide > last {
		last = page.Face.ToHide
	}
	rows, err := s.Paints.Coats(p.ID, page.Over, max(min(last+1, mostShown), 1))
	if err != nil {
		page.Refused = err.Error()
	}
	for _, c := range rows {
		page.Coats.Rows = append(page.Coats.Rows, table.Row{Quiet: c.Coats > last, Cells: []table.Cell{table.Show("", chip(c.Hex)), table.Text(fmt.Sprint(c.Coats)),
			table.Text(fmt.Sprintf("%.0f", c.Film)), table.Text(minus("%.1f", c.Lab.L)), table.Text(minus("%.1f", c.Lab.A)), table.Text(minus("%.1f", c.Lab.B)), table.Text(c.Hex),
			table.Text(fmt.Sprintf("%.2f", c.Left)), table.Text(fmt.Sprintf("%.3f", c.Contrast)), table.Text(fmt.Sprintf("%.1f", c.Within)), table.Show(yes(c.Hidden), hides(c.Hidden, c.Coats == page.Face.Coats))}})
	}
	page.undercoats(at)
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// undercoats lists every undercoat with the coats that hide it, and what these
// take for all that the product covers.
func (page *paintPage) undercoats(at string) {
	s, p := page.scene, *page.Product
	page.Unders = table.Table{ID: "undercoats", Caption: "Over any undercoat", Self: at + "&list=undercoats", Columns: []table.Column{{Head: ""}, {Head: "Undercoat", Wide: true}, {Head: "Coats to hide", Number: true},
		{Head: "Litres", Unit: "l", Number: true}, {Head: "More in the booth", Unit: "h", Number: true}, {Head: "Undercoat takes", Unit: "l", Number: true}, {Head: "After the planned coats", Wide: true}}}
	var area unit.Area
	for _, z := range p.Zones {
		area += s.Build.ZoneArea(z)
	}
	planned, _ := s.Paints.Planned(p.ID)
	for _, u := range s.Paints.Undercoats(p.ID) {
		under := s.Build.Product(u.Product)
		face := s.Paints.Face(p.ID, u.Product, 0)
		page.Overs = append(page.Overs, field.Option{Value: string(u.Product), Label: under.Name, Picked: u.Product == page.Over})
		row := table.Row{Cells: []table.Cell{table.Show("", strip(face)), table.Link(under.Name, s.At()+"/paint/"+string(p.ID)+"?over="+string(u.Product))}}
		if u.Coats == 0 {
			row.Cells = append(row.Cells, table.Text("not known"), table.Text(""), table.Text(""), table.Text(""), table.Text(u.Why))
			page.Unders.Rows = append(page.Unders.Rows, row)
			continue
		}
		need := takeoff.NeedOf(p, area, max(u.Coats, planned), p.Purge, s.Rates)
		booth, work := takeoff.Coating(p, area, max(u.Coats-planned, 0))
		seal := takeoff.NeedOf(*under, area, max(under.Coats, 1), under.Purge, s.Rates)
		id := string(u.Product)
		row.Cells = append(row.Cells, table.Text(fmt.Sprint(u.Coats)),
			table.Show(litres(need), numbered("need-"+id, need.Figure, litres(need))),
			table.Show(fmt.Sprintf("%.1f", booth.H()), numbered("more-"+id, work, fmt.Sprintf("%.1f", booth.H()))),
			table.Show(litres(seal), numbered("seal-"+id, seal.Figure, litres(seal))),
			table.Text(after(face)))
		page.Unders.Rows = append(page.Unders.Rows, row)
	}
}

func litres(n takeoff.Need) string { return fmt.Sprintf("%.2f", n.Volume.L()) }

// after says how a colour looks in daylight once its planned coats are on, and
// whether they hide.
func after(f sprayout.Face) string {
	seen := labWords(f.Seen[0]) + ", " + f.Seen[0].Hex
	if f.Hidden {
		return seen + ": hides it"
	}
	return seen + fmt.Sprintf(": shows through, %d coats more", f.ToHide-f.Coats)
}

// step lays the choice of a step of a card on the slip and comes back, where the
// prediction has moved.
func (p place) step(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	s, err := p.scene(r)
	if err != nil {
		return err
	}
	page, err := s.paintPage(r.Path("product"), "")
	if err != nil {
		return err
	}
	card := s.Build.Card(build.CardID(f.Raw("card")))
	if card == nil || card.Product != page.Product.ID {
		f.Fail("step", "belongs to no card of this paint")
	} else if step := int(f.Int("step", 1, int64(len(card.Steps)))); f.Err() == nil {
		return p.desk.Propose(r, s.At()+"/paint/"+string(page.Product.ID), &build.ChooseStep{Card: card.ID, Step: step})
	}
	page.Wrong = f.Errors
	return r.Invalid(p.sheet(page.Product.Name), showPaint(page))
}

// steps are the steps of a card to choose from.
func steps(c build.Card) []field.Option {
	list := make([]field.Option, len(c.Steps))
	for i, one := range c.Steps {
		list[i] = field.Option{Value: fmt.Sprint(i + 1), Label: coats(one.Coats), Hint: microns(one.Film), Picked: c.Chosen == i+1}
	}
	return list
}

// photos are the hashes of the photographs of a card that this person may see.
func (s scene) photos(id build.CardID) []string {
	var list []string
	for _, ph := range s.Kept.Photos {
		if ph.Of == "card/"+string(id) && (s.Crew || !ph.Quiet) {
			list = append(list, string(ph.Hash))
		}
	}
	return list
}

// worked tells whether any undercoat has a number of coats.
func (page paintPage) worked() bool {
	return slices.ContainsFunc(page.Paints.Undercoats(page.Product.ID), func(u sprayout.Undercoat) bool { return u.Coats > 0 })
}
