package door

import (
	"context"
	"crypto/subtle"
	"net/http"
	"strings"

	"github.com/google/uuid"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/internal/web/ui/field"
)

var firstSheet = web.Sheet{Place: "First run", Shown: "the owner of this shop"}

// open tells whether the shop still waits for its owner.
func (d *Door) open(ctx context.Context) (bool, error) {
	if d.code == "" {
		return false, nil
	}
	people, err := d.accounts.People(ctx)
	return len(people) == 0, err
}

func (d *Door) showFirst(r *web.Request) error {
	open, err := d.open(r.Context())
	if err != nil {
		return err
	}
	if !open {
		return r.SeeOther("/sign-in")
	}
	return r.Page(firstSheet, firstPage(firstForm{}))
}

// firstForm is what the owner typed, without the password.
type firstForm struct {
	name, initials string
	wrong          field.Errors
}

func (d *Door) first(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	open, err := d.open(r.Context())
	if err != nil {
		return err
	}
	if !open {
		return fault.New(fault.Conflict, "this shop has an owner already").WithHint("Sign in, or ask the owner to add you.")
	}
	if err := d.limits.take("first run", address(r.HTTP())); err != nil {
		return tooMany(r, err)
	}
	name, initials, password := f.Text("name", 1, 60), f.Text("code", 1, 12), f.Raw("password")
	d.checkFirst(f, password)
	if len(f.Errors) > 0 {
		return r.Invalid(firstSheet, firstPage(firstForm{name: f.Raw("name"), initials: f.Raw("code"), wrong: f.Errors}))
	}
	a := account.Account{
		Person:  account.Person{ID: uuid.NewString(), Code: initials, Name: name, Role: account.Owner},
		Changed: d.now(),
	}
	if a.Hash, err = d.hasher.Hash(r.Context(), password); err != nil {
		return err
	}
	if err := d.accounts.First(r.Context(), a); err != nil {
		return err
	}
	d.limits.clear("first run", address(r.HTTP()))
	if err := d.enter(r.Context(), a); err != nil {
		return err
	}
	return r.SeeOther("/people")
}

func (d *Door) checkFirst(f *web.Form, password string) {
	given := strings.ReplaceAll(strings.TrimSpace(f.Raw("start")), " ", "-")
	if subtle.ConstantTimeCompare([]byte(given), []byte(d.code)) != 1 {
		f.Fail("start", "is not the one the server printed when it started")
	}
	if err := account.CheckPassword(password); err != nil {
		f.Fail("password", message(err))
	}
	if f.Raw("again") != password {
		f.Fail("again", "is not the same as the first")
	}
}

// message is what a fault says without its place, to stand beside a field.
func message(err error) string {
	if f, ok := err.(*fault.Fault); ok {
		return f.Msg
	}
	return err.Error()
}

// tooMany answers 429, which no kind of fault has.
func tooMany(r *web.Request, err error) error {
	return r.Refuse(http.StatusTooManyRequests, err)
}
