// Package static holds the built style, scripts and fonts inside the program
// and serves them under names that carry a hash of their content, so that a
// browser may keep them for ever. The built folder is written by the bundler
// in tool/bundle and committed.
package static

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"
	"sync"
)

//go:embed built
var built embed.FS

// asset is one file with its packed twin.
type asset struct {
	name, hash, kind string
	plain, packed    []byte
}

var assets = sync.OnceValue(func() map[string]asset {
	all := map[string]asset{}
	_ = fs.WalkDir(built, "built", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasSuffix(p, ".gz") {
			return err
		}
		a := load(p)
		all[a.name] = a
		return nil
	})
	return all
})

func load(p string) asset {
	plain, _ := built.ReadFile(p)
	packed, _ := built.ReadFile(p + ".gz")
	sum := sha256.Sum256(plain)
	return asset{
		name: strings.TrimPrefix(p, "built/"), hash: hex.EncodeToString(sum[:5]),
		kind: kindOf(p), plain: plain, packed: packed,
	}
}

// kindOf does not ask the machine's own table, which differs between machines.
func kindOf(p string) string {
	switch path.Ext(p) {
	case ".css":
		return "text/css; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".woff2":
		return "font/woff2"
	case ".svg":
		return "image/svg+xml"
	case ".webmanifest":
		return "application/manifest+json"
	}
	return "text/plain; charset=utf-8"
}

// Href is the address of a built file, such as /static/fettle.1a2b3c4d5e.css
// for fettle.css. A file that was never built gets an address that answers 404.
func Href(name string) string {
	a, ok := assets()[name]
	if !ok {
		return "/static/" + name
	}
	ext := path.Ext(name)
	return "/static/" + strings.TrimSuffix(name, ext) + "." + a.hash + ext
}

// Size is the length in bytes of a built file, 0 for none.
func Size(name string) int { return len(assets()[name].plain) }

// Handler serves files under a prefix. With the right hash in the name they
// may be kept for ever; without one, as fonts named by the style are, for a day.
func Handler(prefix string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(r.URL.Path, prefix)
		if a, ok := assets()[name]; ok {
			serve(w, r, a, "public, max-age=86400")
			return
		}
		bare, hash := split(name)
		a, ok := assets()[bare]
		if !ok || a.hash != hash {
			http.NotFound(w, r)
			return
		}
		serve(w, r, a, "public, max-age=31536000, immutable")
	})
}

// split takes fettle.1a2b3c4d5e.css apart into fettle.css and 1a2b3c4d5e.
func split(name string) (bare, hash string) {
	ext := path.Ext(name)
	stem := strings.TrimSuffix(name, ext)
	i := strings.LastIndexByte(stem, '.')
	if i < 0 {
		return name, ""
	}
	return stem[:i] + ext, stem[i+1:]
}

// File serves one file under a name without a hash, always asked for anew, as
// a service worker must be.
func File(name string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		a, ok := assets()[name]
		if !ok {
			http.NotFound(w, r)
			return
		}
		serve(w, r, a, "no-cache")
	})
}

func serve(w http.ResponseWriter, r *http.Request, a asset, keep string) {
	h := w.Header()
	h.Set("Content-Type", a.kind)
	h.Set("Cache-Control", keep)
	h.Set("ETag", `"`+a.hash+`"`)
	h.Set("Vary", "Accept-Encoding")
	if r.Header.Get("If-None-Match") == `"`+a.hash+`"` {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	body := a.plain
	if len(a.packed) > 0 && strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		h.Set("Content-Encoding", "gzip")
		body = a.packed
	}
	h.Set("Content-Length", strconv.Itoa(len(body)))
	if r.Method != http.MethodHead {
		_, _ = w.Write(body)
	}
}
