package stores

import (
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
	"fettle/plan"
	"fettle/unit"
)

// card is everything about one part.
type card struct {
	line
	Part  build.Part
	Needs *build.Task
	Found []build.Finding
	Paid  []build.Payment
}

func (s sheet) orderOf(id build.PartID) *plan.Order {
	for i := range s.Plan.Orders {
		if s.Plan.Orders[i].Part == id {
			return &s.Plan.Orders[i]
		}
	}
	return nil
}

func (s sheet) card(id build.PartID) card {
	c := card{Part: *s.Build.Part(id)}
	c.line.Part = id
	if o := s.orderOf(id); o != nil {
		c.line = s.line(*o)
	}
	c.Needs = s.Build.Task(c.Part.Task)
	for _, f := range c.Part.Because {
		if found := s.Build.Finding(f); found != nil {
			c.Found = append(c.Found, *found)
		}
	}
	for _, y := range s.Build.Spent {
		if y.For == "parts" && y.Ref == string(id) {
			c.Paid = append(c.Paid, y)
		}
	}
	return c
}

func (c card) orderable() bool {
	return c.Part.State == build.Wanted || c.Part.State == build.Wrong || c.Part.State == build.SentBack
}

func (c card) expected() bool {
	return c.Part.State == build.Ordered || c.Part.State == build.Promised || c.Part.State == build.Late
}

func (p place) showPart(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	id := build.PartID(r.Path("part"))
	if s.Build.Part(id) == nil {
		return noPart(string(id))
	}
	c := s.card(id)
	if r.As() == "json" {
		return r.JSON(c.Part)
	}
	return p.desk.Page(r, web.Sheet{Place: "stores", Shown: string(id) + " " + c.Part.Name}, partPage(s, c, nil))
}

func (p place) newPart(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	return p.desk.Page(r, web.Sheet{Place: "stores", Shown: "a new part"}, addPage(s, draft{ID: string(s.Build.NextPart()), Task: r.Query("task"), Quantity: "1"}, nil))
}

// draft is what was typed about a new part.
type draft struct{ ID, Name, Quantity, Price, Lead, Supplier, Task, Given string }

// addPart lays a new part on the slip.
func (p place) addPart(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	part := build.Part{ID: build.PartID(f.Text("id", 1, 20)), Name: f.Text("name", 2, 120), Quantity: int(f.Int("quantity", 1, 10_000)),
		Price: unit.Money(f.Decimal("price", 2, 0, 10_000_000)), Lead: int(f.Int("lead", 0, 400)), Supplier: f.Text("supplier", 0, 80),
		Task: build.TaskID(f.Text("task", 1, 40)), Donated: f.Has("given"), AtEnd: f.Has("at_end"), State: build.Wanted}
	if part.ID != "" && s.Build.Part(part.ID) != nil {
		f.Fail("id", "is taken")
	}
	if part.Task != "" && s.Build.Task(part.Task) == nil {
		f.Fail("task", "is not on the list of tasks")
	}
	if f.Err() != nil {
		typed := draft{f.Raw("id"), f.Raw("name"), f.Raw("quantity"), f.Raw("price"), f.Raw("lead"), f.Raw("supplier"), f.Raw("task"), f.Raw("given")}
		return r.Invalid(web.Sheet{Place: "stores", Shown: "a new part"}, addPage(s, typed, f.Errors))
	}
	return p.desk.Propose(r, s.Base+"/slip", &build.AddPart{Part: part})
}

// tasks are those a part can be for.
func (s sheet) tasks(picked string) []field.Option {
	list := []field.Option{{Value: "", Label: "choose the task"}}
	for _, t := range s.Build.Tasks {
		if t.State != build.Finished || string(t.ID) == picked {
			list = append(list, field.Option{Value: string(t.ID), Label: string(t.ID) + " " + t.Name, Picked: string(t.ID) == picked})
		}
	}
	return list
}

// orderPaper is a purchase order for one supplier: what is due and not
// ordered, or what was ordered on a day.
func (p place) orderPaper(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	day, err := unit.ParseDate(r.Query("day"))
	if err != nil {
		day = 0
	}
	o := s.purchase(strings.TrimSpace(r.Query("supplier")), day)
	if r.As() == "csv" {
		return r.CSV("order.csv", o.list(s).Records())
	}
	return p.desk.Page(r, web.Sheet{Place: "stores", Shown: "order to " + o.who()}, orderSheet(s, o))
}

// purchase is an order to one supplier.
type purchase struct {
	Supplier string
	Day      unit.Date
	Lines    []line
	Sum      unit.Money
	First    unit.Date // the first day one of them is needed
}

func (o purchase) who() string {
	if o.Supplier == "" {
		return "a supplier to be named"
	}
	return o.Supplier
}

func (s sheet) purchase(supplier string, day unit.Date) purchase {
	o := purchase{Supplier: supplier, Day: day}
	whens := []string{"late", "due"}
	if day != 0 {
		whens = []string{"on order", "here"}
	} else {
		o.Day = s.Today
	}
	for _, l := range s.in(whens...) {
		if l.Supplier != supplier || day != 0 && l.Ordered != day {
			continue
		}
		o.Lines = append(o.Lines, l)
		if !l.Donated {
			o.Sum += l.Cost
		}
		if o.First == 0 || l.NeedBy < o.First {
			o.First = l.NeedBy
		}
	}
	return o
}
