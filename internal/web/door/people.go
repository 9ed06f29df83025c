package door

import (
	"github.com/google/uuid"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/web"
)

var peopleSheet = web.Sheet{Place: "People", Shown: "who may sign in"}

// peopleForm is what the owner typed about somebody new, without the PIN.
type peopleForm struct {
	people []account.Person
	form   *web.Form // nil before anything was typed
}

func (p peopleForm) raw(name string) string {
	if p.form == nil {
		return ""
	}
	return p.form.Raw(name)
}

func (p peopleForm) wrong(name string) string {
	if p.form == nil {
		return ""
	}
	return p.form.Errors.Of(name)
}

func (d *Door) showPeople(r *web.Request) error { return d.people(r, nil) }

func (d *Door) people(r *web.Request, f *web.Form) error {
	people, err := d.accounts.People(r.Context())
	if err != nil {
		return err
	}
	page := peoplePage(peopleForm{people: people, form: f}, r.Person().ID)
	if f != nil {
		return r.Invalid(peopleSheet, page)
	}
	return r.Page(peopleSheet, page)
}

func (d *Door) add(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	p := account.Person{ID: uuid.NewString(), Name: f.Text("name", 1, 60), Code: f.Text("code", 1, 12), PIN: true}
	p.Role, err = account.ParseRole(f.Choice("role", "guest", "crew", "owner"))
	if err == nil {
		err = p.Validate()
	}
	if err != nil && len(f.Errors) == 0 {
		fail(f, err)
	}
	pin := f.Raw("pin")
	if err := account.CheckPIN(pin); err != nil {
		fail(f, err)
	}
	if len(f.Errors) > 0 {
		return d.people(r, f)
	}
	err = d.keep(r, p, pin)
	if fault.KindOf(err) == fault.Conflict && err != nil {
		fail(f, err)
		return d.people(r, f)
	}
	if err != nil {
		return err
	}
	return r.SeeOther("/people")
}

func (d *Door) keep(r *web.Request, p account.Person, pin string) error {
	hash, err := d.hasher.Hash(r.Context(), pin)
	if err != nil {
		return err
	}
	return d.accounts.Add(r.Context(), account.Account{Person: p, Hash: hash, Changed: d.now()})
}

// fail puts a fault beside the field it names.
func fail(f *web.Form, err error) {
	if ft, ok := err.(*fault.Fault); ok {
		f.Fail(ft.Where, ft.Msg)
		return
	}
	f.Fail("name", err.Error())
}

func (d *Door) newPIN(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	id, pin := r.Path("person"), f.Raw("pin")
	if err := account.CheckPIN(pin); err != nil {
		return err
	}
	hash, err := d.hasher.Hash(r.Context(), pin)
	if err != nil {
		return err
	}
	if err := d.accounts.SetHash(r.Context(), id, hash, true, d.now()); err != nil {
		return err
	}
	return r.SeeOther("/people")
}

func (d *Door) remove(r *web.Request) error {
	if err := d.accounts.Remove(r.Context(), r.Path("person")); err != nil {
		return err
	}
	return r.SeeOther("/people")
}
