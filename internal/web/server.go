package web

import (
	"context"
	"log/slog"
	"net/http"
	"strings"
	"time"

	"fettle/internal/account"
	"fettle/internal/web/static"
	"fettle/unit"
)

// Title is what the title block and the plates need to know of a build.
type Title struct {
	Build    string            // short name, such as pedlar
	Vehicle  string            // as written on the drawing, such as Larkmere Pedlar
	Revision int64             // the journal's last number
	Day      unit.Date         // the day taken as today
	Units    string            // such as mm · litres · £
	Labels   map[string]string // plates that are called otherwise on this build, by place key
}

// Builds tells the server of the builds it shows.
type Builds interface {
	// Title describes one build; an unknown one is a NotFound fault.
	Title(ctx context.Context, build string) (Title, error)
	// Home is the path that / leads to.
	Home(ctx context.Context) (string, error)
}

// Gate knows who asks.
type Gate interface {
	// Wrap surrounds the whole server, for instance to load and save sessions.
	Wrap(http.Handler) http.Handler
	// Identify returns the person of a request that has passed Wrap.
	Identify(*http.Request) (account.Person, bool)
	// SignIn is the path that asks a person who they are, and comes back to back.
	SignIn(back string) string
}

// Config is what a server is made of. Builds and Gate are required.
type Config struct {
	Places []Place // in the order of their plates; those without a label only have routes
	Builds Builds
	Gate   Gate
	Hub    *Hub             // nil makes one of its own
	Log    *slog.Logger     // nil is silent
	Now    func() time.Time // nil is the clock
	TLS    bool             // served over HTTPS: cookies are secure, the browser is told to stay
}

// Server answers every request of the shop.
type Server struct {
	cfg Config
	hub *Hub
	mux *http.ServeMux
	top http.Handler
}

// New makes a server. It panics when two routes collide, as ServeMux does.
func New(cfg Config) *Server {
	if cfg.Log == nil {
		cfg.Log = slog.New(slog.DiscardHandler)
	}
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	if cfg.Hub == nil {
		cfg.Hub = NewHub()
	}
	s := &Server{cfg: cfg, hub: cfg.Hub, mux: http.NewServeMux()}
	for _, rt := range s.Routes() {
		s.mux.Handle(rt.Pattern, s.route(rt))
	}
	s.mux.Handle("GET /static/", static.Handler("/static/"))
	s.mux.Handle("GET /sw.js", static.File("sw.js"))
	s.mux.Handle("/", s.route(Route{Who: Anyone, Handle: unknownPage}))
	guarded := crossOrigin(s, s.mux)
	s.top = s.outermost(cfg.Gate.Wrap(guarded))
	return s
}

// Routes lists every route of every place and of the server itself, in order.
func (s *Server) Routes() []Route {
	routes := []Route{
		{Pattern: "GET /{$}", Who: Guest, Handle: goHome},
		{Pattern: "POST /theme", Who: Anyone, Handle: chooseTheme},
		{Pattern: "GET /b/{build}/live", Who: Guest, Handle: s.live},
		{Pattern: "GET /away", Who: Anyone, Handle: awayPage},
	}
	for _, p := range s.cfg.Places {
		routes = append(routes, p.Routes...)
	}
	return routes
}

// Hub is where changes are told to the tablets.
func (s *Server) Hub() *Hub { return s.hub }

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.top.ServeHTTP(w, r) }

// Fixed is the gate of a server that has one person and no sign-in, for a
// demo on the machine's own loopback.
type Fixed account.Person

// Wrap changes nothing.
func (f Fixed) Wrap(next http.Handler) http.Handler { return next }

// Identify always names the one person.
func (f Fixed) Identify(*http.Request) (account.Person, bool) { return account.Person(f), true }

// SignIn leads home, as there is nothing to sign in to.
func (f Fixed) SignIn(string) string { return "/" }

func goHome(r *Request) error {
	path, err := r.s.cfg.Builds.Home(r.Context())
	if err != nil {
		return err
	}
	return r.SeeOther(path)
}

func inBuild(path, build string) string {
	return strings.ReplaceAll(path, "{build}", build)
}
