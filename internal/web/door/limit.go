package door

import (
	"net"
	"net/http"
	"sync"
	"time"

	"golang.org/x/time/rate"

	"fettle/fault"
)

// A person, and an address, has five tries at once and one more a minute: the
// sixth bad try in a row is refused.
const (
	tries   = 5
	refill  = time.Minute
	mostKey = 4096 // limiters kept; beyond it those at rest are forgotten
)

// limits holds the tries of every person and address.
type limits struct {
	mu  sync.Mutex
	all map[string]*rate.Limiter
	now func() time.Time
}

func newLimits(now func() time.Time) *limits {
	return &limits{all: map[string]*rate.Limiter{}, now: now}
}

// take uses up one try of each key; it is a *Slow fault when one has none left.
func (l *limits) take(keys ...string) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	now := l.now()
	l.forget(now)
	allowed := true
	for _, k := range keys {
		lim := l.all[k]
		if lim == nil {
			lim = rate.NewLimiter(rate.Every(refill), tries)
			l.all[k] = lim
		}
		allowed = lim.AllowN(now, 1) && allowed
	}
	if !allowed {
		return slow()
	}
	return nil
}

// forget drops limiters that have all their tries again.
func (l *limits) forget(now time.Time) {
	if len(l.all) < mostKey {
		return
	}
	for k, lim := range l.all { // order does not show
		if lim.TokensAt(now) >= tries {
			delete(l.all, k)
		}
	}
}

// clear gives back all tries after a good one.
func (l *limits) clear(keys ...string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, k := range keys {
		delete(l.all, k)
	}
}

func slow() error {
	return fault.New(fault.Denied, "too many wrong tries").WithHint("Wait a minute, then try again.")
}

// address is where a request comes from, without the port.
func address(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}
