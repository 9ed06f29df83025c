package door

import (
	"net/url"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/web"
)

var doorSheet = web.Sheet{Place: "Door", Shown: "who works here"}

func (d *Door) showPlates(r *web.Request) error {
	people, err := d.accounts.People(r.Context())
	if err != nil {
		return err
	}
	if len(people) == 0 {
		return r.SeeOther("/first-run")
	}
	return r.Page(doorSheet, platesPage(people, back(r.Query("back"))))
}

func (d *Door) showKeypad(r *web.Request) error {
	a, err := d.accounts.Account(r.Context(), r.Path("person"))
	if err != nil {
		return err
	}
	return r.Page(keypadSheet(a.Person), keypadPage(a.Person, back(r.Query("back")), ""))
}

func keypadSheet(p account.Person) web.Sheet {
	sh := doorSheet
	sh.Shown = "sign in as " + p.Name
	if p.PIN {
		sh.Scripts = []string{"keypad.js"}
	}
	return sh
}

// signIn compares the PIN or password. Somebody unknown costs the same time
// and the same tries as a wrong PIN.
func (d *Door) signIn(r *web.Request) error {
	f, err := r.Form()
	if err != nil {
		return err
	}
	id, from := r.Path("person"), address(r.HTTP())
	if err := d.limits.take("person "+id, "address "+from); err != nil {
		return tooMany(r, err)
	}
	a, err := d.accounts.Account(r.Context(), id)
	if err != nil && fault.KindOf(err) != fault.NotFound {
		return err
	}
	good, err := d.hasher.Match(r.Context(), a.Hash, f.Raw("secret"))
	if err != nil {
		return err
	}
	if !good {
		return d.wrong(r, a.Person, back(f.Raw("back")))
	}
	d.limits.clear("person "+id, "address "+from)
	if err := d.enter(r.Context(), a); err != nil {
		return err
	}
	return r.SeeOther(back(f.Raw("back")))
}

func (d *Door) wrong(r *web.Request, p account.Person, to string) error {
	err := fault.New(fault.Denied, "that is not the right one").WithHint("Try again, or ask the owner for a new PIN.")
	if p.ID == "" || r.As() == "json" {
		return r.Refuse(401, err)
	}
	return r.PageStatus(401, keypadSheet(p), keypadPage(p, to, "is not the right one"))
}

func (d *Door) signOut(r *web.Request) error {
	if err := d.sessions.Destroy(r.Context()); err != nil {
		return err
	}
	return r.SeeOther("/sign-in")
}

// back keeps the path and question of an address of this server.
func back(raw string) string {
	u, err := url.Parse(raw)
	if err != nil || u.Host != "" || len(raw) < 1 || raw[0] != '/' || (len(raw) > 1 && (raw[1] == '/' || raw[1] == '\\')) {
		return "/"
	}
	return u.RequestURI()
}
