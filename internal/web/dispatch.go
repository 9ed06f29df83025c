package web

import (
	"net/http"
	"time"

	"github.com/a-h/templ"

	"fettle/fault"
	"fettle/internal/web/ui/flash"
)

// bodyTime is how long a tablet may take to send what it has to say.
const bodyTime = 3 * time.Minute

func (s *Server) request(w http.ResponseWriter, r *http.Request) *Request {
	return &Request{s: s, w: w, r: r, id: idOf(r), limit: BodyLimit}
}

// route checks size and role, calls the handler, and turns its fault into an answer.
func (s *Server) route(rt Route) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, hr *http.Request) {
		r := s.request(w, hr)
		r.person, r.known = s.cfg.Gate.Identify(hr)
		if rt.MaxBody > 0 {
			r.limit = rt.MaxBody
		}
		if err := r.admit(rt.Who); err != nil {
			s.refuse(r, err)
			return
		}
		hr.Body = http.MaxBytesReader(w, hr.Body, r.limit)
		if hr.ContentLength != 0 {
			_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(bodyTime)) // a recorder in a test has none
		}
		if err := rt.Handle(r); err != nil {
			s.refuse(r, err)
		}
	})
}

// admit refuses an upload by its stated length before a byte of it is read,
// and a person whose role is not enough.
func (r *Request) admit(least Role) error {
	if r.r.ContentLength > r.limit {
		r.w.Header().Set("Connection", "close")
		return tooLarge(r.limit)
	}
	if least == Anyone {
		return nil
	}
	if !r.known {
		return errStranger
	}
	if r.person.Role < least {
		return fault.New(fault.Denied, "this needs the role %s, and you are here as %s", least, r.person.Role).
			WithHint("Ask the owner of the shop.")
	}
	return nil
}

// errStranger is a Denied fault that becomes 401 or the sign-in page.
var errStranger = fault.New(fault.Denied, "nobody is signed in on this tablet").WithHint("Sign in and try again.")

// refuse answers a request with its fault, as JSON, a fragment or a page.
func (s *Server) refuse(r *Request, err error) {
	status := fault.KindOf(err).Status()
	if err == error(errStranger) {
		status = http.StatusUnauthorized
	}
	if status >= http.StatusInternalServerError && r.Context().Err() == nil {
		s.cfg.Log.Error("fault", "id", r.id, "path", r.r.URL.Path, "what", err.Error())
	}
	s.answerFault(r, status, err)
}

func (s *Server) answerFault(r *Request, status int, err error) {
	n := noteOf(err, r.id, status)
	switch {
	case wantsJSON(r.r):
		_ = r.jsonStatus(status, n)
	case r.Partial():
		_ = r.render(status, flash.Fault(n))
	case err == error(errStranger):
		s.askWho(r)
	default:
		r.faultPage(status, n)
	}
}

func (s *Server) askWho(r *Request) {
	back := "/"
	if r.r.Method == http.MethodGet {
		back = r.r.URL.RequestURI()
	}
	http.Redirect(r.w, r.r, s.cfg.Gate.SignIn(back), http.StatusSeeOther)
}

// faultPage draws the fault on a sheet of its own; when even the build's title
// cannot be had, on a sheet without one.
func (r *Request) faultPage(status int, n flash.Note) {
	sh := Sheet{Place: "Fault", Shown: "what went wrong"}
	data, err := r.sheet(sh)
	if err != nil || !r.known {
		data = r.dress(sh, Title{})
	}
	if err := r.render(status, drawn(data, []templ.Component{flash.Whole(n)})); err != nil {
		http.Error(r.w, n.What, status)
	}
}
