package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/unit"
)

// withForm runs a check inside a handler that was sent the values.
func withForm(t *testing.T, values url.Values, check func(*web.Form)) {
	t.Helper()
	s := web.New(web.Config{Builds: shop{}, Gate: web.Fixed(account.Person{Role: web.Owner}), Places: []web.Place{{Routes: []web.Route{
		{Pattern: "POST /form", Who: web.Guest, Handle: func(r *web.Request) error {
			f, err := r.Form()
			if err != nil {
				return err
			}
			check(f)
			return r.JSON("done")
		}},
	}}}})
	res, body := ask(t, s, "", "POST", "/form", strings.NewReader(values.Encode()), "Content-Type", "application/x-www-form-urlencoded")
	if res.StatusCode != http.StatusOK {
		t.Fatalf("status %d: %s", res.StatusCode, body)
	}
}

func TestForm(t *testing.T) {
	cases := []struct {
		name, value string
		read        func(*web.Form) any
		want        any
		wrong       string
	}{
		{"decimal", "12.5", func(f *web.Form) any { return f.Decimal("v", 1, 0, 1000) }, int64(125), ""},
		{"decimal comma", " 12,5 ", func(f *web.Form) any { return f.Decimal("v", 1, 0, 1000) }, int64(125), ""},
		{"negative size", "-3", func(f *web.Form) any { return f.Decimal("v", 0, 0, 9) }, int64(0), "must be from 0 to 9"},
		{"no number", "12abc", func(f *web.Form) any { return f.Decimal("v", 1, 0, 9) }, int64(0), "is not a number"},
		{"empty number", "", func(f *web.Form) any { return f.Int("v", 0, 9) }, int64(0), "is empty"},
		{"huge number", "99999999999999999999", func(f *web.Form) any { return f.Int("v", 0, 9) }, int64(0), "is not a number"},
		{"text", "  rotten ", func(f *web.Form) any { return f.Text("v", 1, 9) }, "rotten", ""},
		{"empty text", " ", func(f *web.Form) any { return f.Text("v", 1, 9) }, "", "is empty"},
		{"long text", "0123456789", func(f *web.Form) any { return f.Text("v", 1, 9) }, "", "is too long"},
		{"choice", "b", func(f *web.Form) any { return f.Choice("v", "a", "b") }, "b", ""},
		{"other choice", "c", func(f *web.Form) any { return f.Choice("v", "a", "b") }, "", "must be one of"},
		{"date", "2026-10-06", func(f *web.Form) any { return f.Date("v") }, unit.Day(2026, 10, 6), ""},
		{"bad date", "6.10.26", func(f *web.Form) any { return f.Date("v") }, unit.Date(0), "is not a day"},
	}
	for _, c := range cases {
		withForm(t, url.Values{"v": {c.value}}, func(f *web.Form) {
			got := c.read(f)
			if got != c.want {
				t.Errorf("%s: got %v, want %v", c.name, got, c.want)
			}
			if msg := f.Errors.Of("v"); (msg == "") != (c.wrong == "") || !strings.Contains(msg, c.wrong) {
				t.Errorf("%s: message %q, want %q", c.name, msg, c.wrong)
			}
		})
	}
}

func TestForm_EntryID(t *testing.T) {
	const made = "01890000-0000-7000-8000-000000000001"
	withForm(t, url.Values{"entry": {made}}, func(f *web.Form) {
		if id, err := f.EntryID(); id != made || err != nil {
			t.Errorf("got %q, %v; want the one the tablet made", id, err)
		}
	})
	withForm(t, url.Values{}, func(f *web.Form) {
		if id, err := f.EntryID(); len(id) != 36 || id[14] != '7' || err != nil {
			t.Errorf("got %q, %v; want a fresh UUIDv7", id, err)
		}
	})
	withForm(t, url.Values{"entry": {"drop table"}}, func(f *web.Form) {
		if _, err := f.EntryID(); err == nil {
			t.Error("a text that is no UUID was taken")
		}
	})
}

func TestAsked_ReadsTheAddressAsAForm(t *testing.T) {
	s := web.New(web.Config{Builds: shop{}, Gate: web.Fixed(account.Person{Role: web.Owner}), Places: []web.Place{{Routes: []web.Route{
		{Pattern: "GET /asked", Who: web.Guest, Handle: func(r *web.Request) error {
			f := r.Asked()
			if n := f.Decimal("metal", 1, 0, 400); n != 185 || len(f.All("panel")) != 2 || f.Has("coats") {
				t.Errorf("metal %d, panels %v, coats sent: %v", n, f.All("panel"), f.Has("coats"))
			}
			if f.Decimal("rh", 0, 0, 100); f.Errors.Of("rh") != "must be from 0 to 100" {
				t.Errorf("4500 %%: %q", f.Errors.Of("rh"))
			}
			return r.JSON("done")
		}},
	}}}})
	ask(t, s, "", "GET", "/asked?metal=18,5&panel=P11&panel=P12&rh=4500", nil)
}
