package gallery_test

import (
	"context"
	"net/http/httptest"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"fettle/internal/account"
	"fettle/internal/web"
	"fettle/internal/web/gallery"
	"fettle/unit"
)

type builds struct{}

func (builds) Title(context.Context, string) (web.Title, error) {
	return web.Title{Build: "pedlar", Vehicle: "Pedlar van", Revision: 7, Day: unit.Day(2026, 10, 6), Units: "mm"}, nil
}

func (builds) Home(context.Context) (string, error) { return "/gallery", nil }

func page(t *testing.T, path, theme string) *html.Node {
	t.Helper()
	s := web.New(web.Config{Places: []web.Place{gallery.Place()}, Builds: builds{}, Gate: web.Fixed(account.Person{ID: "1", Name: "L", Role: web.Owner})})
	r := httptest.NewRequest("GET", path, nil)
	r.Header.Set("Cookie", "theme="+theme)
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	if w.Code != 200 {
		t.Fatalf("%s: status %d", path, w.Code)
	}
	doc, err := html.Parse(w.Body)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return doc
}

func attr(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

// TestGallery checks on every page what a browser would forgive and a person
// with a screen reader, or the content policy, would not.
func TestGallery(t *testing.T) {
	for _, path := range []string{"/gallery", "/gallery/slip", "/b/pedlar/gallery"} {
		for _, theme := range []string{"day", "bright", "night"} {
			doc := page(t, path, theme)
			ids := map[string]int{}
			for n := range doc.Descendants() {
				if id := attr(n, "id"); id != "" {
					ids[id]++
				}
			}
			for id, n := range ids {
				if n > 1 {
					t.Errorf("%s: the id %q stands %d times", path, id, n)
				}
			}
			for n := range doc.Descendants() {
				if n.Type == html.ElementNode {
					element(t, path, n, ids)
				}
				if n.Data == "html" && n.Type == html.ElementNode && attr(n, "data-theme") != theme {
					t.Errorf("%s: theme %q, want %q", path, attr(n, "data-theme"), theme)
				}
			}
		}
	}
}

func element(t *testing.T, path string, n *html.Node, ids map[string]int) {
	t.Helper()
	for _, a := range n.Attr {
		if a.Key == "style" || strings.HasPrefix(a.Key, "on") {
			t.Errorf("%s: <%s %s> would be refused by the policy", path, n.Data, a.Key)
		}
	}
	for _, name := range []string{"for", "popovertarget", "aria-labelledby", "aria-describedby"} {
		for _, id := range strings.Fields(attr(n, name)) {
			if ids[id] == 0 {
				t.Errorf("%s: <%s %s=%q> points at nothing", path, n.Data, name, id)
			}
		}
	}
	switch n.Data {
	case "script":
		if attr(n, "nonce") == "" || n.FirstChild != nil {
			t.Errorf("%s: a script without nonce, or inline", path)
		}
	case "svg":
		if attr(n, "aria-hidden") == "" && (attr(n, "role") != "img" || attr(n, "aria-label") == "") {
			t.Errorf("%s: a drawing that says nothing", path)
		}
	case "p":
		for c := range n.Descendants() {
			if c.Data == "div" || c.Data == "table" {
				t.Errorf("%s: a <%s> inside a <p>", path, c.Data)
			}
		}
	}
}
