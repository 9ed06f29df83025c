// Package door lets people in: the first run, on which the owner sets a
// password; name plates and the keypad; signing out; and the page on which the
// owner adds people. It is the Gate of a server that has more than one person.
package door

import (
	"context"
	"crypto/rand"
	"fmt"
	"io"
	"math/big"
	"net/http"
	"net/url"
	"time"

	"github.com/alexedwards/scs/v2"

	"fettle/internal/account"
	"fettle/internal/web"
)

var _ web.Gate = (*Door)(nil)

// workday is how long a tablet stays signed in.
const workday = 14 * time.Hour

const (
	personKey  = "person"
	changedKey = "changed"
)

// Config is what a door is made of. Accounts and Sessions are required.
type Config struct {
	Accounts account.Store
	Sessions scs.CtxStore
	Announce io.Writer        // where the first-run code is printed
	Now      func() time.Time // nil is the clock
	TLS      bool             // the cookie is bound to this host and to HTTPS
}

// Door knows who is signed in on which tablet.
type Door struct {
	accounts account.Store
	hasher   *account.Hasher
	sessions *scs.SessionManager
	limits   *limits
	code     string
	now      func() time.Time
}

// New makes a door. While the shop has no account it prints a one-time code,
// so that nobody else on the network can take the shop first.
func New(ctx context.Context, cfg Config) (*Door, error) {
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	d := &Door{
		accounts: cfg.Accounts, hasher: account.NewHasher(), sessions: manager(cfg),
		limits: newLimits(cfg.Now), now: cfg.Now,
	}
	people, err := d.accounts.People(ctx)
	if err != nil || len(people) > 0 {
		return d, err
	}
	if d.code, err = newCode(); err != nil {
		return nil, err
	}
	if cfg.Announce != nil {
		fmt.Fprintf(cfg.Announce, "This shop has no owner yet. Open the page /first-run and give this code: %s\n", d.code)
	}
	return d, nil
}

func manager(cfg Config) *scs.SessionManager {
	m := scs.New()
	m.Store = cfg.Sessions
	m.Lifetime = workday
	m.Cookie.Name = "fettle"
	m.Cookie.HttpOnly = true
	m.Cookie.SameSite = http.SameSiteLaxMode
	m.Cookie.Path = "/"
	if cfg.TLS {
		m.Cookie.Name = "__Host-fettle"
		m.Cookie.Secure = true
	}
	return m
}

// newCode is eight digits in two groups.
func newCode() (string, error) {
	n, err := rand.Int(rand.Reader, big.NewInt(100_000_000))
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%04d-%04d", n.Int64()/10_000, n.Int64()%10_000), nil
}

// Wrap loads and saves the session of every request that can change something
// or see a page.
func (d *Door) Wrap(next http.Handler) http.Handler { return d.sessions.LoadAndSave(next) }

// Identify returns the person signed in on the tablet. Somebody who was
// removed, or whose PIN has changed since, is a stranger.
func (d *Door) Identify(r *http.Request) (account.Person, bool) {
	id := d.sessions.GetString(r.Context(), personKey)
	if id == "" {
		return account.Person{}, false
	}
	a, err := d.accounts.Account(r.Context(), id)
	if err != nil || a.Changed.UnixMilli() != d.sessions.GetInt64(r.Context(), changedKey) {
		return account.Person{}, false
	}
	return a.Person, true
}

// SignIn is the page of name plates, which comes back to back.
func (d *Door) SignIn(back string) string {
	return "/sign-in?back=" + url.QueryEscape(back)
}

// Place returns the door's routes; it has no plate.
func (d *Door) Place() web.Place {
	return web.Place{Key: "door", Routes: []web.Route{
		{Pattern: "GET /first-run", Who: web.Anyone, MaxBody: small, Handle: d.showFirst},
		{Pattern: "POST /first-run", Who: web.Anyone, MaxBody: small, Handle: d.first},
		{Pattern: "GET /sign-in", Who: web.Anyone, MaxBody: small, Handle: d.showPlates},
		{Pattern: "GET /sign-in/{person}", Who: web.Anyone, MaxBody: small, Handle: d.showKeypad},
		{Pattern: "POST /sign-in/{person}", Who: web.Anyone, MaxBody: small, Handle: d.signIn},
		{Pattern: "POST /sign-out", Who: web.Anyone, MaxBody: small, Handle: d.signOut},
		{Pattern: "GET /people", Who: web.Owner, MaxBody: small, Handle: d.showPeople},
		{Pattern: "POST /people", Who: web.Owner, MaxBody: small, Handle: d.add},
		{Pattern: "POST /people/{person}/pin", Who: web.Owner, MaxBody: small, Handle: d.newPIN},
		{Pattern: "POST /people/{person}/remove", Who: web.Owner, MaxBody: small, Handle: d.remove},
	}}
}

// small is all that a form of the door may carry, in bytes.
const small = 16 << 10

// enter signs a person in on this tablet under a fresh token.
func (d *Door) enter(ctx context.Context, a account.Account) error {
	if err := d.sessions.RenewToken(ctx); err != nil {
		return err
	}
	d.sessions.Put(ctx, personKey, a.ID)
	d.sessions.Put(ctx, changedKey, a.Changed.UnixMilli())
	return nil
}
