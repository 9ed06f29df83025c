package stores

import (
	"fmt"
	"strings"

	"fettle/build"
	"fettle/internal/web"
	"fettle/unit"
)

const mostParts = 200 // ticked at once

// order keeps that the ticked parts were ordered, a change for each supplier.
func (p place) order(r *web.Request) error {
	s, f, ids, err := p.ticked(r)
	if err != nil {
		return err
	}
	supplier := f.Text("supplier", 0, 80)
	day := dayOr(f, "day", s.Today)
	promised := f.Date("promised")
	if promised != 0 && promised < day {
		f.Fail("promised", "lies before the day of the order")
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	if f.Err() != nil {
		return r.Invalid(web.Sheet{Place: "stores", Shown: "order"}, page(s, f.Errors))
	}
	changes := orders(s, ids, supplier, day, promised)
	return p.desk.Keep(r, entry, said(s, changes), s.Base+"/stores", changes...)
}

// orders groups parts by who sells them: the one typed, else each its own. A
// day that was not promised is reckoned from the order and the longest lead.
func orders(s sheet, ids []build.PartID, supplier string, day, promised unit.Date) []build.Change {
	var list []build.Change
	at := map[string]*build.OrderPart{}
	for _, id := range ids {
		from := supplier
		if from == "" {
			from = s.Build.Part(id).Supplier
		}
		o := at[from]
		if o == nil {
			o = &build.OrderPart{Day: day, Promised: promised, Supplier: from}
			at[from] = o
			list = append(list, o)
		}
		o.Parts = append(o.Parts, id)
	}
	return list
}

// ticked reads the form and the parts it names.
func (p place) ticked(r *web.Request) (sheet, *web.Form, []build.PartID, error) {
	s, err := p.load(r)
	if err != nil {
		return s, nil, nil, err
	}
	f, err := r.Form()
	if err != nil {
		return s, nil, nil, err
	}
	var ids []build.PartID
	for _, text := range f.All("parts") {
		if s.Build.Part(build.PartID(text)) == nil {
			return s, f, nil, noPart(text)
		}
		ids = append(ids, build.PartID(text))
	}
	switch {
	case len(ids) == 0:
		f.Fail("parts", "tick at least one part")
	case len(ids) > mostParts:
		f.Fail("parts", fmt.Sprintf("tick at most %d parts at once", mostParts))
	}
	return s, f, ids, nil
}

// receive keeps that parts came in, right or wrong.
func (p place) receive(r *web.Request) error {
	s, f, ids, err := p.ticked(r)
	if err != nil {
		return err
	}
	c := &build.ReceivePart{Parts: ids, Day: dayOr(f, "day", s.Today)}
	if f.Raw("verdict") == "wrong" {
		c.Wrong = f.Text("wrong", 2, 300)
	}
	if len(ids) == 1 && strings.TrimSpace(f.Raw("counted")) != "" {
		part := s.Build.Part(ids[0])
		if n := int(f.Int("counted", 0, int64(part.Quantity))); n < part.Quantity && f.Err() == nil {
			c.Wrong = strings.TrimSuffix(fmt.Sprintf("%d of %d came; %s", n, part.Quantity, c.Wrong), "; ")
		}
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	if f.Err() != nil {
		if len(ids) == 1 {
			return r.Invalid(web.Sheet{Place: "stores", Shown: string(ids[0])}, partPage(s, s.card(ids[0]), f.Errors))
		}
		return r.Invalid(web.Sheet{Place: "stores", Shown: "goods in"}, page(s, f.Errors))
	}
	return p.desk.Keep(r, entry, c.Say(s.Build), s.Base+"/stores", c)
}

// promise lays a new promised day on the slip: it can move the date.
func (p place) promise(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	id := build.PartID(r.Path("part"))
	part := s.Build.Part(id)
	if part == nil {
		return noPart(string(id))
	}
	day := f.Date("promised")
	if day == 0 && len(f.Errors) == 0 {
		f.Fail("promised", "is empty: please give the day they said")
	}
	if day != 0 && day < part.Ordered {
		f.Fail("promised", "lies before the order")
	}
	if f.Err() != nil {
		return r.Invalid(web.Sheet{Place: "stores", Shown: string(id)}, partPage(s, s.card(id), f.Errors))
	}
	late := day > s.line(*s.orderOf(id)).NeedBy
	return p.desk.Propose(r, s.Base+"/slip", &build.PromisePart{Part: id, Promised: day, Late: late})
}

// cancel lays on the slip that a part is not wanted after all.
func (p place) cancel(r *web.Request) error {
	s, err := p.load(r)
	if err != nil {
		return err
	}
	f, err := r.Form()
	if err != nil {
		return err
	}
	id := build.PartID(r.Path("part"))
	if s.Build.Part(id) == nil {
		return noPart(string(id))
	}
	c := &build.CancelPart{Part: id, Why: f.Text("why", 2, 300)}
	if f.Err() != nil {
		return r.Invalid(web.Sheet{Place: "stores", Shown: string(id)}, partPage(s, s.card(id), f.Errors))
	}
	return p.desk.Propose(r, s.Base+"/slip", c)
}

// dayOr reads a day; an empty field is the other day.
func dayOr(f *web.Form, name string, other unit.Date) unit.Date {
	if d := f.Date(name); d != 0 {
		return d
	}
	return other
}

func said(s sheet, changes []build.Change) string {
	words := make([]string, len(changes))
	for i, c := range changes {
		words[i] = c.Say(s.Build)
	}
	return strings.Join(words, "; ")
}
