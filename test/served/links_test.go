package served

import (
	"io"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

var (
	link = regexp.MustCompile(`(?:href|src)="(/[^"#]*)`)
	id   = regexp.MustCompile(` id="([^"]+)"`)
)

// mostPages is how many pages the walk looks at.
const mostPages = 400

// TestLinks walks from the front page along every link of every page: each
// leads somewhere, and no page uses an ID twice.
func TestLinks(t *testing.T) {
	base := serve(t)
	client := &http.Client{Timeout: 30 * time.Second}
	queue, from := []string{"/"}, map[string]string{"/": ""}
	for i := 0; i < len(queue) && i < mostPages; i++ {
		path := queue[i]
		r, err := client.Get(base + path)
		if err != nil {
			t.Fatal(err)
		}
		body, err := io.ReadAll(r.Body)
		r.Body.Close()
		if err != nil || r.StatusCode != http.StatusOK {
			t.Errorf("%s, linked from %s: %s", path, from[path], r.Status)
			continue
		}
		if !strings.HasPrefix(r.Header.Get("Content-Type"), "text/html") {
			continue
		}
		twice(t, path, string(body))
		for _, m := range link.FindAllStringSubmatch(string(body), -1) {
			to, err := url.QueryUnescape(strings.ReplaceAll(m[1], "&amp;", "&"))
			if err != nil {
				t.Errorf("%s: a link %q that is none", path, m[1])
				continue
			}
			if _, seen := from[to]; !seen && !strings.HasPrefix(to, "/static/") {
				from[to] = path
				queue = append(queue, strings.ReplaceAll(to, " ", "%20"))
			}
		}
	}
	t.Logf("%d pages looked at", min(len(queue), mostPages))
	if len(queue) < 100 {
		t.Errorf("only %d pages were found", len(queue))
	}
}

// twice fails where a page has one ID on two elements.
func twice(t *testing.T, path, body string) {
	var seen []string
	for _, m := range id.FindAllStringSubmatch(body, -1) {
		if slices.Contains(seen, m[1]) {
			t.Errorf("%s: the ID %q stands twice", path, m[1])
		}
		seen = append(seen, m[1])
	}
}
