package web

import (
	"fettle/internal/account"
)

// Role is how much a person may do; see package account.
type Role = account.Role

// The roles a route can ask for, least first.
const (
	Anyone = account.Anyone
	Guest  = account.Guest
	Crew   = account.Crew
	Owner  = account.Owner
)

// Place is one screen of the shop with all its routes.
type Place struct {
	Key    string // short name, such as metal; live events name it
	Label  string // on its plate; without a label the place has no plate
	Path   string // where its plate leads, such as /b/{build}/metal
	Helper bool   // stands at the right end of the plates, always one touch away: Today, Clocking
	Routes []Route
}

// Route is one thing a place answers.
type Route struct {
	Pattern string               // as net/http.ServeMux takes it, such as GET /b/{build}/metal
	Who     Role                 // the least role that may ask
	MaxBody int64                // bytes; 0 means BodyLimit
	Handle  func(*Request) error // a fault becomes a page or JSON
}

// BodyLimit is the most a request may carry unless its route says otherwise.
const BodyLimit int64 = 32 << 20
