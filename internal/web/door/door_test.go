package door_test

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"fettle/internal/account/sqlite"
	journal "fettle/internal/journal/sqlite"
	"fettle/internal/web"
	"fettle/internal/web/door"
)

// clock is a time that a test moves.
type clock struct {
	mu sync.Mutex
	at time.Time
}

func (c *clock) now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.at
}

func (c *clock) pass(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.at = c.at.Add(d)
}

type builds struct{}

func (builds) Title(context.Context, string) (web.Title, error) {
	return web.Title{Build: "pedlar"}, nil
}
func (builds) Home(context.Context) (string, error) { return "/people", nil }

// shop is a server with a door, and the first-run code it printed.
type shop struct {
	url, code string
	clock     *clock
}

func newShop(t *testing.T) shop {
	t.Helper()
	j, err := journal.Open(t.Context(), filepath.Join(t.TempDir(), "journal.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
	c := &clock{at: time.Now()}
	var printed bytes.Buffer
	d, err := door.New(t.Context(), door.Config{
		Accounts: sqlite.New(j.Write(), j.Read()), Sessions: sqlite.NewSessions(j.Write(), j.Read(), nil),
		Announce: &printed, Now: c.now,
	})
	if err != nil {
		t.Fatal(err)
	}
	place := web.Place{Routes: []web.Route{{Pattern: "GET /crew", Who: web.Crew, Handle: func(r *web.Request) error { return r.JSON(r.Person().Code) }}}}
	srv := httptest.NewServer(web.New(web.Config{Places: []web.Place{d.Place(), place}, Builds: builds{}, Gate: d, Now: c.now}))
	t.Cleanup(srv.Close)
	return shop{url: srv.URL, code: regexp.MustCompile(`\d{4}-\d{4}`).FindString(printed.String()), clock: c}
}

// tablet keeps its cookies and does not follow redirects.
type tablet struct {
	t   *testing.T
	url string
	c   *http.Client
}

func (s shop) tablet(t *testing.T) tablet {
	jar, _ := cookiejar.New(nil)
	return tablet{t, s.url, &http.Client{Jar: jar, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}}
}

func (b tablet) get(path string) (int, string) {
	b.t.Helper()
	res, err := b.c.Get(b.url + path)
	return b.read(res, err)
}

func (b tablet) post(path string, fields ...string) (int, string) {
	b.t.Helper()
	v := url.Values{}
	for i := 0; i < len(fields); i += 2 {
		v.Set(fields[i], fields[i+1])
	}
	res, err := b.c.PostForm(b.url+path, v)
	return b.read(res, err)
}

func (b tablet) read(res *http.Response, err error) (int, string) {
	b.t.Helper()
	if err != nil {
		b.t.Fatal(err)
	}
	defer res.Body.Close()
	body, _ := io.ReadAll(res.Body)
	return res.StatusCode, string(body) + res.Header.Get("Location")
}

const password = "three rusty hinges"

func (s shop) own(t *testing.T) tablet {
	t.Helper()
	b := s.tablet(t)
	if got, body := b.post("/first-run", "start", s.code, "name", "L. Dunmore", "code", "LD", "password", password, "again", password); got != http.StatusSeeOther {
		t.Fatalf("first run: status %d %s", got, body)
	}
	return b
}

func TestFirstRun(t *testing.T) {
	s := newShop(t)
	if s.code == "" {
		t.Fatal("no code was printed")
	}
	b := s.tablet(t)
	if got, to := b.get("/sign-in"); got != http.StatusSeeOther || to[len(to)-10:] != "/first-run" {
		t.Errorf("sign-in before the first run: %d to %s", got, to)
	}
	cases := []struct{ name, code, password, again, wrong string }{
		{"wrong code", "0000-0000x", password, password, "is not the one"},
		{"short password", s.code, "short", "short", "must have 10"},
		{"another password", s.code, password, password + "!", "is not the same"},
	}
	for _, c := range cases {
		got, body := b.post("/first-run", "start", c.code, "name", "X", "code", "X", "password", c.password, "again", c.again)
		if got != http.StatusUnprocessableEntity || !strings.Contains(body, c.wrong) {
			t.Errorf("%s: status %d, says it %v", c.name, got, strings.Contains(body, c.wrong))
		}
	}
	owner := s.own(t)
	if got, _ := owner.get("/people"); got != http.StatusOK {
		t.Errorf("the owner is not let in after the first run: %d", got)
	}
	if got, _ := s.tablet(t).post("/first-run", "start", s.code, "name", "Y", "code", "Y", "password", password, "again", password); got != http.StatusConflict {
		t.Errorf("a second first run: status %d, want 409", got)
	}
}

// TestFirstRun_Guessing cannot try codes one after the other.
func TestFirstRun_Guessing(t *testing.T) {
	s := newShop(t)
	b := s.tablet(t)
	var last int
	for range 6 {
		last, _ = b.post("/first-run", "start", "1111-1111", "name", "X", "code", "X", "password", password, "again", password)
	}
	if last != http.StatusTooManyRequests {
		t.Errorf("the sixth guess: status %d, want 429", last)
	}
}

var plate = regexp.MustCompile(`/sign-in/([0-9a-f-]{36})\?`)

// add lets the owner add somebody and returns their ID.
func add(t *testing.T, owner tablet, name, code, role, pin string) string {
	t.Helper()
	if got, body := owner.post("/people", "name", name, "code", code, "role", role, "pin", pin); got != http.StatusSeeOther {
		t.Fatalf("add %s: status %d %s", name, got, body)
	}
	_, body := owner.get("/sign-in")
	at := strings.Index(body, name)
	ids := plate.FindAllStringSubmatch(body[:at], -1)
	return ids[len(ids)-1][1]
}

func TestSignIn(t *testing.T) {
	s := newShop(t)
	owner := s.own(t)
	id := add(t, owner, "M. Wrenn", "MW", "crew", "4071")
	b := s.tablet(t)
	if got, _ := b.get("/crew"); got != http.StatusSeeOther {
		t.Errorf("a stranger: status %d, want to be asked who", got)
	}
	if got, body := b.get("/sign-in/" + id); got != http.StatusOK || !strings.Contains(body, `data-keypad="secret"`) {
		t.Errorf("no keypad: status %d", got)
	}
	if got, _ := b.post("/sign-in/"+id, "secret", "4072"); got != http.StatusUnauthorized {
		t.Errorf("wrong PIN: status %d, want 401", got)
	}
	before := session(b)
	if got, to := b.post("/sign-in/"+id, "secret", "4071", "back", "/crew?x=1"); got != http.StatusSeeOther || to != "/crew?x=1" {
		t.Errorf("right PIN: status %d to %q", got, to)
	}
	if session(b) == before {
		t.Error("the token was not renewed at sign-in")
	}
	if got, body := b.get("/crew"); got != http.StatusOK || !strings.Contains(body, "MW") {
		t.Errorf("signed in: status %d %s", got, body)
	}
	if got, _ := b.get("/people"); got != http.StatusForbidden {
		t.Errorf("crew among the people: status %d, want 403", got)
	}
	b.post("/sign-out")
	if got, _ := b.get("/crew"); got != http.StatusSeeOther {
		t.Errorf("after signing out: status %d", got)
	}
	if _, to := b.post("/sign-in/"+id, "secret", "4071", "back", "//elsewhere.example"); to != "/" {
		t.Errorf("sign-in leads away to %q", to)
	}
}

func session(b tablet) string {
	u, _ := url.Parse(b.url)
	for _, c := range b.c.Jar.Cookies(u) {
		if c.Name == "fettle" {
			return c.Value
		}
	}
	return ""
}

func TestSignIn_Limit(t *testing.T) {
	s := newShop(t)
	owner := s.own(t)
	id := add(t, owner, "M. Wrenn", "MW", "crew", "4071")
	b := s.tablet(t)
	var got []int
	for range 7 {
		status, body := b.post("/sign-in/"+id, "secret", "9999")
		got = append(got, status)
		if status == 429 && !strings.Contains(body, "Wait a minute") {
			t.Errorf("the refusal does not say what to do: %s", body)
		}
	}
	want := []int{401, 401, 401, 401, 401, 429, 429}
	for i := range want {
		if got[i] != want[i] {
			t.Fatalf("tries: got %v, want %v", got, want)
		}
	}
	if status, _ := b.post("/sign-in/"+id, "secret", "4071"); status != http.StatusTooManyRequests {
		t.Errorf("the right PIN while waiting: status %d, want 429", status)
	}
	s.clock.pass(3 * time.Minute)
	if status, _ := b.post("/sign-in/"+id, "secret", "4071"); status != http.StatusSeeOther {
		t.Errorf("the right PIN after waiting: status %d, want 303", status)
	}
}

// TestSignIn_LimitByAddress tries one PIN on one person after another.
func TestSignIn_LimitByAddress(t *testing.T) {
	s := newShop(t)
	s.own(t)
	b := s.tablet(t)
	var last int
	for i := range 6 {
		last, _ = b.post("/sign-in/nobody-"+string(rune('a'+i)), "secret", "4071")
	}
	if last != http.StatusTooManyRequests {
		t.Errorf("the sixth person tried: status %d, want 429", last)
	}
}

// TestPeople_NewPINEndsSessions asks again wherever the person was signed in.
func TestPeople_NewPINEndsSessions(t *testing.T) {
	s := newShop(t)
	owner := s.own(t)
	id := add(t, owner, "M. Wrenn", "MW", "crew", "4071")
	b := s.tablet(t)
	b.post("/sign-in/"+id, "secret", "4071")
	s.clock.pass(time.Second)
	if got, _ := owner.post("/people/"+id+"/pin", "pin", "1111"); got != http.StatusUnprocessableEntity {
		t.Errorf("an easy PIN: status %d, want 422", got)
	}
	if got, _ := owner.post("/people/"+id+"/pin", "pin", "5082"); got != http.StatusSeeOther {
		t.Errorf("a new PIN: status %d", got)
	}
	if got, _ := b.get("/crew"); got != http.StatusSeeOther {
		t.Errorf("the old session still holds: status %d", got)
	}
	b.post("/sign-in/"+id, "secret", "5082")
	owner.post("/people/" + id + "/remove")
	if got, _ := b.get("/crew"); got != http.StatusSeeOther {
		t.Errorf("a removed person is still let in: status %d", got)
	}
}

// TestPeople_IDs keeps the fields of one person apart from those of another.
func TestPeople_IDs(t *testing.T) {
	s := newShop(t)
	owner := s.own(t)
	add(t, owner, "M. Wrenn", "MW", "crew", "4071")
	_, body := owner.get("/people")
	seen := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(body, -1) {
		if seen[m[1]] {
			t.Errorf("the id %q stands twice", m[1])
		}
		seen[m[1]] = true
	}
}

func TestPeople_Refused(t *testing.T) {
	s := newShop(t)
	owner := s.own(t)
	cases := []struct{ name, code, role, pin, wrong string }{
		{"", "MW", "crew", "4071", "name"}, {"M", "M W", "crew", "4071", "letters or digits"},
		{"M", "MW", "boss", "4071", "must be one of"}, {"M", "MW", "crew", "12", "4 to 8 digits"},
		{"M", "LD", "crew", "4071", "has these initials"},
	}
	for _, c := range cases {
		got, body := owner.post("/people", "name", c.name, "code", c.code, "role", c.role, "pin", c.pin)
		if got != http.StatusUnprocessableEntity || !strings.Contains(body, c.wrong) {
			t.Errorf("%+v: status %d", c, got)
		}
		if strings.Contains(body, `value="4071"`) {
			t.Errorf("%+v: the PIN stands in the answer", c)
		}
	}
}
