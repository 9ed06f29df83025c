package facts

import (
	"fettle/fault"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
)

// set lays one on the slip, new or changed.
func (m Room[S]) set(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	p, k, s, err := m.open(r)
	if err != nil {
		return err
	}
	p.New, p.ID = f.Has("new"), k.read(f)
	if p.New && k.Has(p.Build, p.ID) {
		f.Fail("id", "is taken: another "+k.Word()+" has it")
	}
	p.Inputs = k.Form(s, p.ID)
	c := k.Read(f, s, p.ID)
	if f.Err() == nil {
		tried := p.Build.Clone()
		if err := c.Apply(&tried); err != nil {
			f.Fail(fieldOf(p.Inputs, err), "does not hold: "+err.Error())
		}
	}
	if f.Err() != nil {
		if p.New {
			p.ID = f.Raw("id")
		}
		p.Wrong, p.Inputs = f.Errors, field.AsTyped(p.Inputs, f.All)
		return r.Invalid(p.dressed(m.Place), showOne(p))
	}
	return m.Desk.Propose(r, p.Path+"/slip", c)
}

// drop takes one off the list, through the slip; what others name stays.
func (m Room[S]) drop(r *web.Request) error {
	p, k, s, err := m.open(r)
	if err != nil {
		return err
	}
	p.ID = r.Path("id")
	if k.Only || !k.Has(p.Build, p.ID) {
		return fault.New(fault.NotFound, "there is no %s %q to take off", k.Word(), p.ID)
	}
	c := m.Drop(k.Key, p.ID)
	tried := p.Build.Clone()
	if err := c.Apply(&tried); err != nil {
		p.Inputs = k.Form(s, p.ID)
		p.Wrong = field.Errors{{Field: "drop", Msg: "cannot be done: " + err.Error()}}
		return r.Invalid(p.dressed(m.Place), showOne(p))
	}
	return m.Desk.Propose(r, p.Path+"/slip", c)
}
