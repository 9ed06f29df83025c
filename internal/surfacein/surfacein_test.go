package surfacein_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"fettle/build"
	"fettle/geom/mesh"
	"fettle/internal/account"
	"fettle/internal/surfacein"
	"fettle/internal/vault"
	"fettle/internal/vault/folder"
	"fettle/internal/web"
)

// taken is what came of a form: the surface, the mesh that the vault gives back
// and what stands against it, by field.
type taken struct {
	Surface build.Surface
	Mesh    mesh.Mesh
	Wrong   map[string]string
}

type nobody struct{}

func (nobody) Title(context.Context, string) (web.Title, error) { return web.Title{}, nil }
func (nobody) Home(context.Context) (string, error)             { return "/", nil }

// send posts a file to a page that takes surfaces in.
func send(t *testing.T, v vault.Vault, name, unit string, data []byte) (out taken) {
	t.Helper()
	take := func(r *web.Request) error {
		f, err := r.Form()
		if err != nil {
			return err
		}
		m := surfacein.Read(f, &out.Surface)
		if f.Err() == nil {
			surfacein.Keep(r, v, f, &out.Surface, m)
		}
		out.Wrong = map[string]string{}
		for _, e := range f.Errors {
			out.Wrong[e.Field] = e.Msg
		}
		if f.Err() != nil {
			return r.JSON("no")
		}
		out.Mesh, err = surfacein.Open(r.Context(), v, out.Surface)
		if err != nil {
			return err
		}
		return r.JSON("yes")
	}
	s := web.New(web.Config{Builds: nobody{}, Gate: web.Fixed(account.Person{ID: "1", Name: "A", Role: web.Owner}), Places: []web.Place{{Key: "m", Label: "M", Path: "/b/{build}/m", Routes: []web.Route{{Pattern: "POST /b/{build}/m", Who: web.Crew, MaxBody: 1 << 20, Handle: take}}}}})
	t.Cleanup(func() { s.Hub().Close() })
	var body bytes.Buffer
	w := multipart.NewWriter(&body)
	_ = w.WriteField("unit", unit)
	if name != "" {
		file, _ := w.CreateFormFile("file", name)
		_, _ = file.Write(data)
	}
	_ = w.Close()
	req := httptest.NewRequest(http.MethodPost, "/b/pedlar/m", &body)
	req.Header.Set("Content-Type", w.FormDataContentType())
	req.Header.Set("Origin", "http://example.com")
	got := httptest.NewRecorder()
	s.ServeHTTP(got, req)
	var said string
	if err := json.Unmarshal(got.Body.Bytes(), &said); err != nil {
		t.Fatalf("%d %.300s", got.Code, got.Body)
	}
	return out
}

// sheet is a square of so many units as OBJ; doubled has every corner of its
// second face again, as scanners write them.
func sheet(long float64, doubled bool) []byte {
	text := fmt.Sprintf("v 0 0 0\nv %[1]g 0 0\nv %[1]g %[1]g 0\nv 0 %[1]g 0\n", long)
	if doubled {
		return []byte(text + fmt.Sprintf("v 0 0 0\nv %[1]g %[1]g 0\nf 1 2 3\nf 5 6 4\n", long))
	}
	return []byte(text + "f 1 2 3\nf 1 3 4\n")
}

func keeps(t *testing.T) vault.Vault {
	t.Helper()
	v, err := folder.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestRead: what a file holds comes back from the vault in millimetres, doubled
// vertices welded, and the facts are those of the mesh.
func TestRead(t *testing.T) {
	for _, c := range []struct {
		name, unit string
		data       []byte
		area       float64 // mm²
	}{
		{"a.obj", "", sheet(300, false), 90_000},
		{"a.obj", "1000", sheet(0.3, false), 90_000},
		{"A.OBJ", "25.4", sheet(10, true), 254 * 254},
		{"a.obj", "10", sheet(30, true), 90_000},
	} {
		got := send(t, keeps(t), c.name, c.unit, c.data)
		s := got.Surface
		if len(got.Wrong) > 0 {
			t.Errorf("%s in %q: %v", c.name, c.unit, got.Wrong)
			continue
		}
		if s.Vertices != 4 || s.Faces != 2 || s.File != c.name || len(s.Scan) != 64 || len(s.Repairs) == 0 {
			t.Errorf("%s in %q: %+v", c.name, c.unit, s)
		}
		if d := got.Mesh.Area() - c.area; d > 1 || d < -1 || float64(s.Area)-c.area > 1 || c.area-float64(s.Area) > 1 {
			t.Errorf("%s in %q: %.1f mm², the fact says %d, want %.0f", c.name, c.unit, got.Mesh.Area(), s.Area, c.area)
		}
	}
}

// TestRead_Refused: what stands against a file is said beside its field.
func TestRead_Refused(t *testing.T) {
	two := strings.Replace(string(sheet(300, false)), "f 1 2 3", "v 900 0 0\nv 950 0 0\nv 950 50 0\nf 5 6 7\nf 1 2 3", 1)
	for _, c := range []struct {
		what, name, unit string
		data             []byte
		field, says      string
	}{
		{"no file", "", "", nil, "file", "is not chosen"},
		{"no mesh", "a.obj", "1", []byte("v 1 2\n"), "file", "is not taken"},
		{"a photo", "a.jpg", "1", []byte("\xff\xd8\xff"), "file", "is not taken"},
		{"metres taken for millimetres", "a.obj", "", sheet(0.3, false), "unit", "is in doubt"},
		{"two parts", "a.obj", "1", []byte(two), "file", "cannot be laid flat yet"},
		{"a unit that is none", "a.obj", "7", sheet(300, false), "unit", "must be one of"},
	} {
		got := send(t, keeps(t), c.name, c.unit, c.data)
		if !strings.Contains(got.Wrong[c.field], c.says) {
			t.Errorf("%s: %v, want %q beside %s", c.what, got.Wrong, c.says, c.field)
		}
	}
	if got := send(t, nil, "a.obj", "1", sheet(300, false)); !strings.Contains(got.Wrong["file"], "keeps no scans") {
		t.Errorf("without a vault: %v", got.Wrong)
	}
}

func TestOpen_NotThere(t *testing.T) {
	one := build.Surface{ID: "U9", Scan: build.ScanHash(strings.Repeat("5c", 32))}
	for _, v := range []vault.Vault{nil, keeps(t)} {
		if _, err := surfacein.Open(t.Context(), v, one); err == nil {
			t.Error("a scan that is not there is opened")
		}
	}
}

func TestVertices(t *testing.T) {
	for text, want := range map[string][]int32{"": nil, " 12  340 ": {12, 340}, "1,2;3\t4": {1, 2, 3, 4}, "0": {0}} {
		if got, err := surfacein.Vertices(text); err != nil || !slices.Equal(got, want) {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"1 x", "-3", "1.5", "99999999999", strings.Repeat("1 ", 2001)} {
		if _, err := surfacein.Vertices(text); err == nil || !strings.Contains(err.Error(), "is no vertex such as 340") {
			t.Errorf("%.10q: %v", text, err)
		}
	}
}
