package web

import (
	"encoding/json"
	"errors"
	"net/http"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/web/ui/empty"
	"fettle/internal/web/ui/flash"
)

// noteOf writes a fault for a person. What an internal fault says inside stays
// in the log; the person gets the number to find it by.
func noteOf(err error, id string, status int) flash.Note {
	n := flash.Note{Kind: fault.KindOf(err).String(), Request: id, Hint: fault.HintOf(err), What: err.Error()}
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		n.What, n.Where = f.Msg, f.Where
	}
	if status == http.StatusInternalServerError {
		n.What, n.Where = "something broke in the program", ""
		n.Hint = "Nothing was lost that was kept before. Try once more; if it comes again, give the owner the number below."
	}
	return n
}

func (r *Request) jsonStatus(status int, v any) error {
	body, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return r.write(status, "application/json; charset=utf-8", append(body, '\n'))
}

func unknownPage(r *Request) error {
	return fault.New(fault.NotFound, "there is nothing at %s", r.r.URL.Path).
		WithHint("Go back, or touch a plate at the top.")
}

// awayPage is kept on the tablet and shown when the server cannot be reached.
func awayPage(r *Request) error {
	r.person, r.known = account.Person{}, false // it is kept for whoever uses the tablet next
	return r.Page(Sheet{Shown: "out of reach"}, empty.State(empty.Params{
		Title: "The shop's server is out of reach",
		Text:  "What you enter is kept on this tablet and sent when the server answers again. Pages you opened before can still be read.",
		Act:   "Try again", Href: "/",
	}))
}

// canSignOut offers a way out only where there was a way in.
func (r *Request) canSignOut() bool {
	_, fixed := r.s.cfg.Gate.(Fixed)
	return r.known && !fixed
}
