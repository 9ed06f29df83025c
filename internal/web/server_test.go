package web_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"

	"github.com/a-h/templ"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/unit"
)

// shop is a server with one build, pedlar, and a few routes that go wrong in
// the ways a place can.
type shop struct{}

func (shop) Title(_ context.Context, build string) (web.Title, error) {
	if build != "pedlar" {
		return web.Title{}, fault.New(fault.NotFound, "there is no build %q", build)
	}
	return web.Title{
		Build: "pedlar", Vehicle: "Pedlar van", Revision: 41, Day: unit.Day(2026, 10, 6), Units: "mm",
		Labels: map[string]string{"van": "The Pick-up"},
	}, nil
}

func (shop) Home(context.Context) (string, error) { return "/b/pedlar/van", nil }

// crowd is a gate that takes the role from a header.
type crowd struct{ web.Fixed }

func (crowd) Identify(r *http.Request) (account.Person, bool) {
	role, err := account.ParseRole(r.Header.Get("Test-Role"))
	return account.Person{ID: "1", Code: "MW", Name: "M. Wrenn", Role: role}, err == nil
}

func (crowd) SignIn(back string) string { return "/sign-in?back=" + back }

func text(s string) templ.Component {
	return templ.ComponentFunc(func(_ context.Context, w io.Writer) error {
		_, err := io.WriteString(w, "<p>"+s+"</p>")
		return err
	})
}

func places() []web.Place {
	van := web.Sheet{Place: "van", Shown: "all of it"}
	return []web.Place{
		{Key: "van", Label: "The Van", Path: "/b/{build}/van", Routes: []web.Route{
			{Pattern: "GET /b/{build}/van", Who: web.Guest, Handle: func(r *web.Request) error { return r.Page(van, text("the van")) }},
			{Pattern: "POST /b/{build}/van", Who: web.Crew, Handle: func(r *web.Request) error {
				if _, err := r.Form(); err != nil {
					return err
				}
				r.Kept("recorded finding F32", "01890000-0000-7000-8000-000000000000", "")
				return r.SeeOther("/b/" + r.Build() + "/van")
			}},
			{Pattern: "POST /b/{build}/rules", Who: web.Owner, MaxBody: 1 << 10, Handle: func(r *web.Request) error { return r.JSON(1) }},
			{Pattern: "GET /b/{build}/panic", Who: web.Guest, Handle: func(*web.Request) error { panic("a bolt came loose") }},
			{Pattern: "GET /b/{build}/fault/{kind}", Who: web.Guest, Handle: func(r *web.Request) error {
				var k fault.Kind
				fmt.Sscan(r.Path("kind"), (*uint8)(&k))
				return fault.New(k, "it does not fit").At("row 12").WithHint("Measure again.")
			}},
			{Pattern: "GET /b/{build}/list", Who: web.Guest, Handle: func(r *web.Request) error {
				return r.CSV("list.csv", [][]string{{"what", "h"}, {"=1+1", "-2.5"}})
			}},
		}},
		{Key: "today", Label: "Today", Path: "/b/{build}/today", Helper: true},
	}
}

func newServer() *web.Server {
	return web.New(web.Config{Places: places(), Builds: shop{}, Gate: crowd{}})
}

// ask sends one request as a role and returns the answer with its body.
func ask(t *testing.T, h http.Handler, role, method, path string, body io.Reader, head ...string) (*http.Response, string) {
	t.Helper()
	r := httptest.NewRequest(method, path, body)
	r.Header.Set("Test-Role", role)
	for i := 0; i < len(head); i += 2 {
		r.Header.Set(head[i], head[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result(), w.Body.String()
}

var parameter = regexp.MustCompile(`\{[a-z$]+\}`)

// TestServer_Roles walks every route with every role.
func TestServer_Roles(t *testing.T) {
	s := newServer()
	for _, rt := range s.Routes() {
		method, path, _ := strings.Cut(rt.Pattern, " ")
		path = strings.ReplaceAll(path, "{build}", "pedlar")
		path = parameter.ReplaceAllString(strings.ReplaceAll(path, "{$}", ""), "1")
		if strings.HasSuffix(path, "/live") {
			continue // streams for ever; TestLive covers it
		}
		for _, role := range []web.Role{web.Anyone, web.Guest, web.Crew, web.Owner} {
			res, _ := ask(t, s, role.String(), method, path, nil, "Accept", "application/json")
			refused := res.StatusCode == http.StatusUnauthorized || (res.StatusCode == http.StatusForbidden)
			if want := role < rt.Who; refused != want {
				t.Errorf("%s as %s: status %d, refused %v, want refused %v", rt.Pattern, role, res.StatusCode, refused, want)
			}
			if role == web.Anyone && rt.Who > web.Anyone && res.StatusCode != http.StatusUnauthorized {
				t.Errorf("%s as a stranger: status %d, want 401", rt.Pattern, res.StatusCode)
			}
		}
	}
}

func TestServer_StrangerIsAskedWho(t *testing.T) {
	res, _ := ask(t, newServer(), "", "GET", "/b/pedlar/van", nil, "Accept", "text/html")
	if got, want := res.Header.Get("Location"), "/sign-in?back=/b/pedlar/van"; res.StatusCode != http.StatusSeeOther || got != want {
		t.Errorf("status %d to %q, want 303 to %q", res.StatusCode, got, want)
	}
}

func TestServer_Headers(t *testing.T) {
	res, body := ask(t, newServer(), "guest", "GET", "/b/pedlar/van", nil)
	csp := res.Header.Get("Content-Security-Policy")
	for _, want := range []string{"default-src 'none'", "'strict-dynamic'", "style-src 'self'", "frame-ancestors 'none'", "base-uri 'none'", "form-action 'self'"} {
		if !strings.Contains(csp, want) {
			t.Errorf("policy %q lacks %q", csp, want)
		}
	}
	nonce := regexp.MustCompile(`'nonce-([^']+)'`).FindStringSubmatch(csp)
	if nonce == nil || !strings.Contains(body, `nonce="`+nonce[1]+`"`) {
		t.Errorf("the page's script does not carry the nonce of %q", csp)
	}
	for name, want := range map[string]string{
		"X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin", "Cross-Origin-Opener-Policy": "same-origin",
		"Cross-Origin-Resource-Policy": "same-origin", "Cache-Control": "no-store",
	} {
		if got := res.Header.Get(name); got != want {
			t.Errorf("%s: got %q, want %q", name, got, want)
		}
	}
	again, _ := ask(t, newServer(), "guest", "GET", "/b/pedlar/van", nil)
	if again.Header.Get("Content-Security-Policy") == csp {
		t.Error("two answers share a nonce")
	}
}

func TestServer_TitleBlockAndPlates(t *testing.T) {
	_, body := ask(t, newServer(), "guest", "GET", "/b/pedlar/van", nil)
	for _, want := range []string{"Pedlar van", "<dd>41</dd>", "Tue 6 Oct 2026", "M. Wrenn", "all of it", `href="/b/pedlar/today"`, ">The Pick-up<", `data-theme="day"`} {
		if !strings.Contains(body, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}

func TestServer_CrossSite(t *testing.T) {
	cases := []struct {
		name, header, value string
		want                int
	}{
		{"same origin", "Sec-Fetch-Site", "same-origin", http.StatusSeeOther},
		{"cross site", "Sec-Fetch-Site", "cross-site", http.StatusForbidden},
		{"foreign origin", "Origin", "https://elsewhere.example", http.StatusForbidden},
		{"a program", "X-Nothing", "", http.StatusSeeOther},
	}
	for _, c := range cases {
		res, _ := ask(t, newServer(), "crew", "POST", "/b/pedlar/van", nil, c.header, c.value)
		if res.StatusCode != c.want {
			t.Errorf("%s: got %d, want %d", c.name, res.StatusCode, c.want)
		}
	}
}

func TestServer_Faults(t *testing.T) {
	for _, k := range []fault.Kind{fault.Internal, fault.Invalid, fault.NotFound, fault.Conflict, fault.Denied, fault.TooLarge, fault.Interrupted} {
		path := fmt.Sprintf("/b/pedlar/fault/%d", k)
		res, body := ask(t, newServer(), "guest", "GET", path, nil, "Accept", "application/json")
		var note struct{ Kind, What, Where, Hint, Request string }
		if err := json.Unmarshal([]byte(body), &note); err != nil {
			t.Fatalf("%s: %v in %q", k, err, body)
		}
		if res.StatusCode != k.Status() || note.Kind != k.String() || note.Hint == "" {
			t.Errorf("%s: status %d, note %+v", k, res.StatusCode, note)
		}
		inside := strings.Contains(body, "does not fit")
		if want := k != fault.Internal; inside != want {
			t.Errorf("%s: the person reads what went on inside: %v, want %v", k, inside, want)
		}
		res, body = ask(t, newServer(), "guest", "GET", path, nil, "Accept", "text/html")
		if res.StatusCode != k.Status() || !strings.Contains(body, `role="alert"`) || !strings.Contains(body, "Title block") {
			t.Errorf("%s as a page: status %d, %d bytes", k, res.StatusCode, len(body))
		}
	}
}

func TestServer_Panic(t *testing.T) {
	res, body := ask(t, newServer(), "guest", "GET", "/b/pedlar/panic", nil)
	id := res.Header.Get("X-Request-Id")
	if res.StatusCode != http.StatusInternalServerError || id == "" || !strings.Contains(body, id) {
		t.Errorf("status %d, request %q, named in the page: %v", res.StatusCode, id, strings.Contains(body, id))
	}
	if strings.Contains(body, "bolt") {
		t.Error("the page shows what went on inside")
	}
}

func TestServer_Unknown(t *testing.T) {
	for path, want := range map[string]int{"/nowhere": 404, "/b/no-such/van": 404, "/static/none.css": 404, "/": 303} {
		res, _ := ask(t, newServer(), "guest", "GET", path, nil)
		if res.StatusCode != want {
			t.Errorf("%s: got %d, want %d", path, res.StatusCode, want)
		}
	}
}

// endless counts what is read from it, to show that nothing is.
type endless struct{ read int64 }

func (e *endless) Read(p []byte) (int, error) { e.read += int64(len(p)); return len(p), nil }

func TestServer_UploadLimit(t *testing.T) {
	s := newServer()
	body := &endless{}
	r := httptest.NewRequest("POST", "/b/pedlar/van", body)
	r.ContentLength = 200 << 20
	r.Header.Set("Test-Role", "crew")
	r.Header.Set("Accept", "application/json")
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	if w.Code != http.StatusRequestEntityTooLarge || body.read != 0 || !strings.Contains(w.Body.String(), "32 MB") {
		t.Errorf("status %d after reading %d bytes: %s", w.Code, body.read, w.Body.String())
	}
	unsized := httptest.NewRequest("POST", "/b/pedlar/van", io.LimitReader(body, 40<<20))
	unsized.ContentLength = -1
	unsized.Header.Set("Test-Role", "crew")
	unsized.Header.Set("Content-Type", "multipart/form-data; boundary=x")
	w = httptest.NewRecorder()
	s.ServeHTTP(w, unsized)
	if w.Code != http.StatusRequestEntityTooLarge && w.Code != http.StatusUnprocessableEntity {
		t.Errorf("without a stated length: status %d", w.Code)
	}
	res, _ := ask(t, s, "owner", "POST", "/b/pedlar/rules", bytes.NewReader(make([]byte, 2<<10)))
	if res.StatusCode != http.StatusRequestEntityTooLarge {
		t.Errorf("a route's own limit: status %d, want 413", res.StatusCode)
	}
}

func TestServer_Theme(t *testing.T) {
	for theme, want := range map[string]int{"night": 303, "bright": 303, "day": 303, "plaid": 422} {
		form := strings.NewReader("theme=" + theme + "&back=/b/pedlar/van%3Fx=1")
		res, _ := ask(t, newServer(), "", "POST", "/theme", form, "Content-Type", "application/x-www-form-urlencoded")
		if res.StatusCode != want {
			t.Errorf("%s: got %d, want %d", theme, res.StatusCode, want)
		}
		if want == 303 && res.Header.Get("Location") != "/b/pedlar/van?x=1" {
			t.Errorf("%s: leads to %q", theme, res.Header.Get("Location"))
		}
	}
	_, body := ask(t, newServer(), "guest", "GET", "/b/pedlar/van", nil, "Cookie", "theme=night")
	if !strings.Contains(body, `data-theme="night"`) {
		t.Error("the remembered theme is not in the page")
	}
	form := strings.NewReader("theme=day&back=https://elsewhere.example//x")
	res, _ := ask(t, newServer(), "", "POST", "/theme", form, "Content-Type", "application/x-www-form-urlencoded")
	if got := res.Header.Get("Location"); strings.Contains(got, "elsewhere") || strings.HasPrefix(got, "//") {
		t.Errorf("leads away to %q", got)
	}
}

// TestServer_Kept shows the bar once, on the next page only; a page that only
// brings itself up to date does not take it away.
func TestServer_Kept(t *testing.T) {
	s := newServer()
	res, _ := ask(t, s, "crew", "POST", "/b/pedlar/van", nil)
	var kept string
	for _, c := range res.Cookies() {
		if c.Name == "kept" {
			kept = c.Name + "=" + c.Value
		}
	}
	res, body := ask(t, s, "crew", "GET", "/b/pedlar/van", nil, "Cookie", kept, "Fettle-Refresh", "yes")
	if strings.Contains(body, "recorded finding F32") || strings.Contains(strings.Join(res.Header.Values("Set-Cookie"), " "), "kept=") {
		t.Error("a page that brings itself up to date takes the bar away")
	}
	res, body = ask(t, s, "crew", "GET", "/b/pedlar/van", nil, "Cookie", kept)
	if !strings.Contains(body, "recorded finding F32") || !strings.Contains(body, `action="/b/pedlar/undo"`) {
		t.Error("the next page does not offer to put back")
	}
	gone := false
	for _, c := range res.Cookies() {
		gone = gone || (c.Name == "kept" && c.MaxAge < 0)
	}
	if !gone {
		t.Error("the bar would come again")
	}
}

func TestServer_Device(t *testing.T) {
	res, _ := ask(t, newServer(), "guest", "GET", "/b/pedlar/van", nil)
	found := false
	for _, c := range res.Cookies() {
		found = found || (c.Name == "device" && len(c.Value) == 36 && c.HttpOnly)
	}
	if !found {
		t.Errorf("no device cookie in %v", res.Cookies())
	}
}

func TestRequest_CSV(t *testing.T) {
	res, body := ask(t, newServer(), "guest", "GET", "/b/pedlar/list", nil)
	if want := "what,h\n'=1+1,-2.5\n"; body != want {
		t.Errorf("got %q, want %q", body, want)
	}
	if got := res.Header.Get("Content-Disposition"); !strings.Contains(got, "list.csv") {
		t.Errorf("not a file to keep: %q", got)
	}
}

// TestRequest_SeeOtherAsJSON is what the outbox reads.
func TestRequest_SeeOtherAsJSON(t *testing.T) {
	res, body := ask(t, newServer(), "crew", "POST", "/b/pedlar/van", nil, "Accept", "application/json")
	if res.StatusCode != http.StatusOK || !strings.Contains(body, `"see": "/b/pedlar/van"`) {
		t.Errorf("status %d: %s", res.StatusCode, body)
	}
}
