package tin

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/build"
	"fettle/fault"
	"fettle/internal/web"
	"fettle/unit"
)

const mostAmount = 100_000_000 // hundredths: a million

// begin reads the tin and the form.
func (p place) begin(r *web.Request) (sheet, *web.Form, error) {
	s, err := p.load(r)
	if err != nil {
		return s, nil, err
	}
	f, err := r.Form()
	return s, f, err
}

func (p place) again(r *web.Request, s sheet, f *web.Form, open string) error {
	return r.Invalid(web.Sheet{Place: "tin", Shown: "cash, gifts and what reaches the cause"}, page(s, form{Open: open, Wrong: f.Errors}))
}

// pay keeps a payment, with a photo of its receipt.
func (p place) pay(r *web.Request) error {
	s, f, err := p.begin(r)
	if err != nil {
		return err
	}
	purpose, ref, _ := strings.Cut(f.Text("for", 1, 80), "/")
	y := build.Payment{ID: nextPayment(s.Build), Day: dayOr(f, s.Today), For: purpose, Ref: ref,
		What: f.Text("what", 0, 200), Amount: unit.Money(f.Decimal("amount", 2, 1, mostAmount))}
	if y.What == "" {
		y.What = s.purpose(purpose, ref)
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	y.Photo = p.photo(r, f)
	if f.Err() != nil {
		return p.again(r, s, f, "pay")
	}
	c := &build.Pay{Payment: y}
	changes := []build.Change{c}
	if y.Photo != "" {
		changes = append(changes, &build.AddPhoto{Photo: build.Photo{Hash: y.Photo, Of: "payment/" + y.ID, What: "receipt", Taken: s.Now,
			By: build.PersonID(r.Person().Code), Quiet: true}})
	}
	return p.desk.Keep(r, entry, c.Say(s.Build), s.Base+"/tin", changes...)
}

// photo keeps the photo of a receipt and returns its hash.
func (p place) photo(r *web.Request, f *web.Form) build.PhotoHash {
	return build.PhotoHash(p.desk.TakePhoto(r, f, "photo", photoLimit))
}

// purpose says what a payment was for, where nobody wrote anything.
func (s sheet) purpose(purpose, ref string) string {
	for _, o := range s.purposes("") {
		if o.Value == purpose+"/"+ref {
			return o.Label
		}
	}
	return "other"
}

// gift keeps money given: one that was promised, or a new one.
func (p place) gift(r *web.Request) error {
	s, f, err := p.begin(r)
	if err != nil {
		return err
	}
	g := build.Gift{ID: f.Text("gift", 0, 40), Received: f.Raw("state") != "promised", Thanked: f.Has("thanked"), Day: dayOr(f, s.Today)}
	for _, known := range s.Build.Gifts {
		if known.ID == g.ID {
			g.From, g.Amount = known.From, known.Amount
		}
	}
	if f.Raw("from") != "" || g.From == "" {
		g.From = f.Text("from", 2, 120)
	}
	if f.Raw("amount") != "" || g.Amount == 0 {
		g.Amount = unit.Money(f.Decimal("amount", 2, 1, mostAmount))
	}
	if g.ID == "" {
		g.ID = "gift-" + strconv.Itoa(len(s.Build.Gifts)+1)
	}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	if f.Err() != nil {
		return p.again(r, s, f, "gift")
	}
	c := &build.RecordGift{Gift: g}
	return p.desk.Keep(r, entry, c.Say(s.Build), s.Base+"/tin#gifts", c)
}

// kind keeps something given that is not money.
func (p place) kind(r *web.Request) error {
	s, f, err := p.begin(r)
	if err != nil {
		return err
	}
	g := build.GivenKind{ID: "kind-" + strconv.Itoa(len(s.Build.Kind)+1), What: f.Text("what", 2, 200), From: f.Text("from", 0, 120),
		Value: unit.Money(f.Decimal("value", 2, 0, mostAmount)), Basis: f.Text("basis", 2, 200), Thanked: f.Has("thanked")}
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	if f.Err() != nil {
		return p.again(r, s, f, "kind")
	}
	c := &build.RecordGiftInKind{Gift: g}
	return p.desk.Keep(r, entry, c.Say(s.Build), s.Base+"/tin#kinds", c)
}

// thank keeps that somebody was thanked.
func (p place) thank(r *web.Request) error {
	s, f, err := p.begin(r)
	if err != nil {
		return err
	}
	kind, id, _ := strings.Cut(f.Text("whom", 1, 80), "/")
	entry, err := f.EntryID()
	if err != nil {
		return err
	}
	for _, g := range s.Build.Gifts {
		if kind == "gift" && g.ID == id {
			g.Thanked = true
			return p.desk.Keep(r, entry, "thanked: "+g.From, back(f, s), &build.RecordGift{Gift: g})
		}
	}
	for _, g := range s.Build.Kind {
		if kind == "kind" && g.ID == id {
			g.Thanked = true
			return p.desk.Keep(r, entry, "thanked: "+g.From, back(f, s), &build.RecordGiftInKind{Gift: g})
		}
	}
	return fault.New(fault.NotFound, "there is no gift %q", kind+"/"+id)
}

func back(f *web.Form, s sheet) string {
	if f.Raw("back") == "account" {
		return s.Base + "/tin/account#thanks"
	}
	return s.Base + "/tin#gifts"
}

// budget lays a newly agreed budget on the slip.
func (p place) budget(r *web.Request) error {
	s, f, err := p.begin(r)
	if err != nil {
		return err
	}
	g := build.Budget{Agreed: unit.Money(f.Decimal("agreed", 2, 1, mostAmount)), Contingency: unit.Money(f.Decimal("contingency", 2, 0, mostAmount)),
		With: f.Text("with", 2, 200), Day: dayOr(f, s.Today)}
	if g.Contingency > g.Agreed && f.Err() == nil {
		f.Fail("contingency", "is more than the whole budget")
	}
	if f.Err() != nil {
		return p.again(r, s, f, "budget")
	}
	return p.desk.Propose(r, s.Base+"/slip", &build.AgreeBudget{Budget: g})
}

// sale lays the figures of the sale on the slip.
func (p place) sale(r *web.Request) error {
	s, f, err := p.begin(r)
	if err != nil {
		return err
	}
	amount := func(name string) unit.Money { return unit.Money(f.Decimal(name, 2, 0, mostAmount)) }
	sale := build.Sale{How: f.Text("how", 2, 120), Low: amount("low"), Expected: amount("expected"), High: amount("high"),
		FeePercent: f.Decimal("fee", 2, 0, 10_000), Opens: s.Build.Sale.Opens, Closes: s.Build.Sale.Closes}
	if f.Raw("sold") != "" {
		sale.Sold = amount("sold")
	}
	if f.Err() == nil && (sale.Expected < sale.Low || sale.High < sale.Expected) {
		f.Fail("expected", "does not lie between the low and the high price")
	}
	if f.Err() != nil {
		return p.again(r, s, f, "sale")
	}
	return p.desk.Propose(r, s.Base+"/slip", &build.SetSale{Sale: sale})
}

// dayOr reads the day of a form; an empty field is today.
func dayOr(f *web.Form, today unit.Date) unit.Date {
	if d := f.Date("day"); d != 0 {
		return d
	}
	return today
}

// nextPayment is the number a new payment gets: one more than the highest.
func nextPayment(b *build.Build) string {
	highest := 0
	for _, y := range b.Spent {
		if n, err := strconv.Atoi(strings.TrimPrefix(y.ID, "Y")); err == nil {
			highest = max(highest, n)
		}
	}
	return fmt.Sprintf("Y%03d", highest+1)
}

func number(i int) string { return strconv.Itoa(i + 1) }
