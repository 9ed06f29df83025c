package static

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func TestHandler(t *testing.T) {
	h := Handler("/static/")
	cases := []struct {
		path string
		want int
		keep string
	}{
		{Href("fettle.css"), 200, "immutable"},
		{Href("shell.js"), 200, "immutable"},
		{"/static/fonts/barlow-400.woff2", 200, "max-age=86400"},
		{"/static/fettle.0000000000.css", 404, ""},
		{"/static/../static.go", 404, ""},
		{"/static/", 404, ""},
	}
	for _, c := range cases {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest("GET", c.path, nil))
		if w.Code != c.want || !strings.Contains(w.Header().Get("Cache-Control"), c.keep) {
			t.Errorf("%s: status %d, %q; want %d, %q", c.path, w.Code, w.Header().Get("Cache-Control"), c.want, c.keep)
		}
	}
}

func TestHandler_PackedAndUnchanged(t *testing.T) {
	h, path := Handler("/static/"), Href("shell.js")
	plain := httptest.NewRecorder()
	h.ServeHTTP(plain, httptest.NewRequest("GET", path, nil))
	r := httptest.NewRequest("GET", path, nil)
	r.Header.Set("Accept-Encoding", "gzip, br")
	packed := httptest.NewRecorder()
	h.ServeHTTP(packed, r)
	z, err := gzip.NewReader(packed.Body)
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := io.ReadAll(z); !bytes.Equal(got, plain.Body.Bytes()) {
		t.Error("the packed script is not the plain one: run the bundler")
	}
	r.Header.Set("If-None-Match", plain.Header().Get("ETag"))
	again := httptest.NewRecorder()
	h.ServeHTTP(again, r)
	if again.Code != 304 || again.Body.Len() != 0 {
		t.Errorf("unchanged: status %d with %d bytes, want 304 with none", again.Code, again.Body.Len())
	}
}

// TestScriptBudget holds the script of a page other than the drawn vehicle to
// 60 kB, packed or not, and leaves islands some of it.
func TestScriptBudget(t *testing.T) {
	if got := Size("shell.js"); got == 0 || got > 55_000 {
		t.Errorf("the shared script has %d bytes, want at most 55,000", got)
	}
	for _, page := range [][]string{{"shell.js", "keypad.js"}, {"light.js", "layout.js"}} {
		sum := 0
		for _, name := range page {
			sum += Size(name)
		}
		if sum > 60_000 {
			t.Errorf("a page of %q loads %d bytes of script, want at most 60,000", page, sum)
		}
	}
}

// TestStyle_Fonts looks for every font the style names, and for its licence.
func TestStyle_Fonts(t *testing.T) {
	css := string(assets()["fettle.css"].plain)
	fonts := regexp.MustCompile(`/static/(fonts/[a-z0-9-]+\.woff2)`).FindAllStringSubmatch(css, -1)
	if len(fonts) < 4 {
		t.Fatalf("the style names %d fonts, want 4", len(fonts))
	}
	for _, f := range fonts {
		if Size(f[1]) == 0 {
			t.Errorf("%s is not built in", f[1])
		}
	}
	if !strings.Contains(string(assets()["fonts/barlow-licence.txt"].plain), "SIL OPEN FONT LICENSE") {
		t.Error("the fonts' licence does not lie beside them")
	}
}

// TestStyle_Fresh finds a class of every part in the built style, so that a
// part whose style was not bundled shows.
func TestStyle_Fresh(t *testing.T) {
	css := string(assets()["fettle.css"].plain)
	parts, err := filepath.Glob("../ui/*/*.css")
	if err != nil || len(parts) < 10 {
		t.Fatalf("found %d parts with a style, %v", len(parts), err)
	}
	class := regexp.MustCompile(`\.[a-z][a-z-]+`)
	for _, p := range parts {
		text, err := os.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range class.FindAllString(string(text), -1) {
			if !strings.Contains(css, c) {
				t.Errorf("%s of %s is not in the built style: run the bundler", c, p)
			}
		}
	}
}
