package folder

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/iotest"
	"time"

	"fettle/fault"
	"fettle/internal/vault"
)

// small is a scan whose hash was worked out with sha256sum.
const (
	small     = "%PDF-1.4\nsmall\n"
	smallHash = "aa5bfc10b7522b6086613b2f56363ab433b780bc909863a61b324a9bdb55ab13"
)

func TestPut_KeepsByContent(t *testing.T) {
	f := fresh(t)
	p := put(t, f, small)
	if want := (vault.Photo{Hash: smallHash, Size: int64(len(small)), Media: vault.PDF}); p != want {
		t.Errorf("Put: got %v, want %v", p, want)
	}
	r, p2, err := f.Open(t.Context(), smallHash)
	check(t, err)
	defer r.Close()
	text, err := io.ReadAll(r)
	if err != nil || string(text) != small || p2 != p {
		t.Errorf("Open: got %q, %v, %v; want what was put", text, p2, err)
	}
	if ok, err := f.Has(t.Context(), smallHash); !ok || err != nil {
		t.Errorf("Has: got %v, %v", ok, err)
	}
	if _, err := os.Stat(filepath.Join(f.dir, smallHash[:2], smallHash[2:4], smallHash)); err != nil {
		t.Errorf("its place: %v", err)
	}
}

func TestPut_Limit(t *testing.T) {
	for _, c := range []struct {
		limit int64
		fits  bool
	}{{int64(len(small)), true}, {1 << 62, true}, {1<<63 - 1, true}, {int64(len(small)) - 1, false}, {1, false}, {0, false}} {
		f := fresh(t)
		_, err := f.Put(t.Context(), strings.NewReader(small), c.limit)
		if c.fits != (err == nil) || err != nil && fault.KindOf(err) != fault.TooLarge {
			t.Errorf("%d bytes into %d: got %v, want it to fit: %v", len(small), c.limit, err, c.fits)
		}
		wantFiles(t, f, map[bool]int{true: 1}[c.fits])
	}
}

// TestPut_EndlessUpload counts what is taken of a stream that never ends.
func TestPut_EndlessUpload(t *testing.T) {
	f := fresh(t)
	const limit = 1 << 20
	taken := &counter{r: io.MultiReader(strings.NewReader(small), zeros{})}
	_, err := f.Put(t.Context(), taken, limit)
	if fault.KindOf(err) != fault.TooLarge {
		t.Errorf("got %v, want TooLarge", err)
	}
	if taken.n > limit+64<<10 {
		t.Errorf("took %d bytes, want hardly more than %d", taken.n, limit)
	}
	wantFiles(t, f, 0)
}

func TestPut_Refuses(t *testing.T) {
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	brokenLine := errors.New("line broken")
	for _, c := range []struct {
		name string
		ctx  context.Context
		r    io.Reader
		want fault.Kind
	}{
		{"nothing", t.Context(), strings.NewReader(""), fault.Invalid},
		{"a page", t.Context(), strings.NewReader("<script>alert(1)</script>"), fault.Invalid},
		{"an ended context", ended, strings.NewReader(small), fault.Interrupted},
		{"a line that breaks at once", t.Context(), iotest.ErrReader(brokenLine), fault.Interrupted},
		{"a line that breaks in the head", t.Context(), breaks(small[:9], io.ErrUnexpectedEOF), fault.Interrupted},
		{"a line that breaks later", t.Context(), breaks(small+strings.Repeat("x", 99_999), brokenLine), fault.Interrupted},
		{"the server's own limit", t.Context(), breaks(small, &http.MaxBytesError{Limit: 15}), fault.TooLarge},
	} {
		f := fresh(t)
		_, err := f.Put(c.ctx, c.r, 1<<20)
		if err == nil || fault.KindOf(err) != c.want {
			t.Errorf("%s: got %v (%v), want %v", c.name, fault.KindOf(err), err, c.want)
		}
		wantFiles(t, f, 0)
	}
}

func TestPut_SlowLine(t *testing.T) {
	f := fresh(t)
	p, err := f.Put(t.Context(), iotest.OneByteReader(strings.NewReader(small)), 99)
	if err != nil || p.Hash != smallHash {
		t.Errorf("byte by byte: got %v, %v", p, err)
	}
}

func TestPut_AtOnce(t *testing.T) {
	f := fresh(t)
	var wg sync.WaitGroup
	for n := range 24 {
		wg.Go(func() {
			if _, err := f.Put(t.Context(), strings.NewReader(fmt.Sprintf("%%PDF-1.4 %d", n%6)), 99); err != nil {
				t.Errorf("Put: %v", err)
			}
		})
	}
	wg.Wait()
	wantFiles(t, f, 6)
	wantWalk(t, f, 6, "")
}

// TestPaths hands in names that lead elsewhere; the file beside the vault must
// stay out of reach.
func TestPaths(t *testing.T) {
	dir := t.TempDir()
	secret := filepath.Join(dir, strings.Repeat("a", 64))
	check(t, os.WriteFile(secret, []byte(small), 0o600))
	f := opened(t, filepath.Join(dir, "vault"))
	for _, hash := range []string{"", ".", "..", "../../../" + strings.Repeat("a", 64), "/etc/passwd", secret,
		strings.Repeat("a", 63) + "/", strings.Repeat("A", 64), strings.Repeat("a", 64) + "\x00", strings.Repeat("a", 64) + "\n", "..\\..\\x"} {
		_, _, err := f.Open(t.Context(), hash)
		if fault.KindOf(err) != fault.Invalid {
			t.Errorf("Open(%q): got %v, want Invalid", hash, err)
		}
		if _, err := f.Has(t.Context(), hash); fault.KindOf(err) != fault.Invalid {
			t.Errorf("Has(%q): got %v, want Invalid", hash, err)
		}
	}
}

// TestPaths_Links plants links out of the vault, as a file and as a folder.
func TestPaths_Links(t *testing.T) {
	dir := t.TempDir()
	outside := filepath.Join(dir, "outside")
	check(t, os.MkdirAll(outside, 0o755))
	secret := strings.Repeat("ab", 32)
	check(t, os.WriteFile(filepath.Join(outside, secret), []byte(small), 0o600))
	f := opened(t, filepath.Join(dir, "vault"))
	check(t, os.MkdirAll(filepath.Join(f.dir, "ab"), 0o755))
	link(t, outside, filepath.Join(f.dir, "ab", "ab"))
	if r, _, err := f.Open(t.Context(), secret); err == nil {
		r.Close()
		t.Error("a linked folder leads out of the vault")
	}
	other := strings.Repeat("cd", 32)
	check(t, os.MkdirAll(filepath.Join(f.dir, "cd", "cd"), 0o755))
	link(t, filepath.Join(outside, secret), filepath.Join(f.dir, "cd", "cd", other))
	if _, _, err := f.Open(t.Context(), other); fault.KindOf(err) != fault.NotFound {
		t.Errorf("a linked file: got %v, want NotFound", err)
	}
	wantWalk(t, f, 0, "this is not a photo of the vault")
}

func TestWalk_Problems(t *testing.T) {
	for _, c := range []struct {
		name   string
		damage func(path string) error
		say    string
	}{
		{"sound", func(string) error { return nil }, ""},
		{"one byte changed", func(p string) error { return os.WriteFile(p, []byte(strings.ToUpper(small)), 0o600) }, "does not match its hash"},
		{"cut short", func(p string) error { return os.Truncate(p, 9) }, "does not match its hash"},
		{"empty", func(p string) error { return os.Truncate(p, 0) }, "is damaged"},
		{"under another's name", func(p string) error {
			return os.Rename(p, p[:len(p)-4]+"0000")
		}, "does not match its hash"},
		{"in the wrong folder", func(p string) error {
			return os.Rename(p, filepath.Join(filepath.Dir(filepath.Dir(p)), filepath.Base(p)))
		}, "not a photo of the vault"},
		{"a stray file", func(p string) error { return os.WriteFile(p+".txt", nil, 0o600) }, "not a photo of the vault"},
	} {
		f := fresh(t)
		put(t, f, "%PDF-1.4 another")
		put(t, f, small)
		check(t, c.damage(filepath.Join(f.dir, filepath.FromSlash(place(smallHash)))))
		t.Run(c.name, func(t *testing.T) { wantWalk(t, f, -1, c.say) })
	}
}

func TestWalk_StopsWithItsVisitor(t *testing.T) {
	f := fresh(t)
	put(t, f, small)
	put(t, f, "%PDF-1.4 another")
	enough, calls := errors.New("enough"), 0
	err := f.Walk(t.Context(), func(vault.Photo, error) error { calls++; return enough })
	if err != enough || calls != 1 {
		t.Errorf("got %v after %d calls, want the visitor's own error after 1", err, calls)
	}
}

// TestPut_Mends puts a photo again whose file was damaged.
func TestPut_Mends(t *testing.T) {
	f := fresh(t)
	put(t, f, small)
	check(t, os.WriteFile(filepath.Join(f.dir, filepath.FromSlash(place(smallHash))), []byte("%PDF-spoiled"), 0o600))
	wantWalk(t, f, 0, "does not match its hash")
	put(t, f, small)
	wantWalk(t, f, 1, "")
}

func TestOpen_SweepsOldParts(t *testing.T) {
	f := fresh(t)
	check(t, os.MkdirAll(filepath.Join(f.dir, parts), 0o755))
	for name, age := range map[string]time.Duration{"old": 25 * time.Hour, "new": time.Hour} {
		path := filepath.Join(f.dir, parts, name)
		check(t, os.WriteFile(path, nil, 0o600))
		at := time.Now().Add(-age)
		check(t, os.Chtimes(path, at, at))
	}
	opened(t, f.dir)
	left, err := os.ReadDir(filepath.Join(f.dir, parts))
	if err != nil || len(left) != 1 || left[0].Name() != "new" {
		t.Errorf("left %v, %v; want new alone", left, err)
	}
}

func TestExplain(t *testing.T) {
	for _, c := range []struct {
		err  error
		want fault.Kind
		say  string
	}{
		{&fs.PathError{Op: "write", Path: "x", Err: syscall.ENOSPC}, fault.Internal, "the disk is full"},
		{&fs.PathError{Op: "open", Path: "x", Err: syscall.EACCES}, fault.Denied, "may not be written"},
		{&fs.PathError{Op: "open", Path: "x", Err: syscall.EROFS}, fault.Denied, "may not be written"},
		{context.Canceled, fault.Interrupted, "stopped"},
		{fault.New(fault.TooLarge, "as it was"), fault.TooLarge, "as it was"},
	} {
		err := explain("/shop/photos", c.err)
		if fault.KindOf(err) != c.want || !strings.Contains(err.Error(), c.say) {
			t.Errorf("%v: got %v: %v, want %v: … %s …", c.err, fault.KindOf(err), err, c.want, c.say)
		}
	}
}

func TestOpen_NotAFolder(t *testing.T) {
	path := filepath.Join(t.TempDir(), "file")
	check(t, os.WriteFile(path, nil, 0o600))
	if f, err := Open(path); err == nil {
		f.Close()
		t.Error("a file opened as a vault")
	}
}

// BenchmarkPut keeps a photo of 4 MB, synchronised with the disk.
func BenchmarkPut(b *testing.B) {
	f := fresh(b)
	photo := append([]byte("\xff\xd8\xff\xe0"), bytes.Repeat([]byte("photo"), 800_000)...)
	b.SetBytes(int64(len(photo)))
	for n := 0; b.Loop(); n++ {
		photo[9], photo[10], photo[11] = byte(n), byte(n>>8), byte(n>>16)
		if _, err := f.Put(b.Context(), bytes.NewReader(photo), 1<<30); err != nil {
			b.Fatal(err)
		}
	}
}

func fresh(t testing.TB) *Folder { return opened(t, filepath.Join(t.TempDir(), "vault")) }

func opened(t testing.TB, dir string) *Folder {
	t.Helper()
	f, err := Open(dir)
	check(t, err)
	t.Cleanup(func() { f.Close() })
	return f
}

func put(t *testing.T, f *Folder, text string) vault.Photo {
	t.Helper()
	p, err := f.Put(t.Context(), strings.NewReader(text), 1<<20)
	check(t, err)
	return p
}

// wantWalk wants so many sound photos (-1: any) and, if say is not empty, a
// problem that says it; otherwise none.
func wantWalk(t *testing.T, f *Folder, sound int, say string) {
	t.Helper()
	var problems []string
	n := 0
	err := f.Walk(t.Context(), func(_ vault.Photo, problem error) error {
		if problem == nil {
			n++
		} else {
			problems = append(problems, problem.Error())
		}
		return nil
	})
	check(t, err)
	if sound >= 0 && n != sound {
		t.Errorf("walk: %d sound photos, want %d", n, sound)
	}
	if got := strings.Join(problems, "\n"); (say == "") != (got == "") || !strings.Contains(got, say) {
		t.Errorf("walk: problems %q, want %q", got, say)
	}
}

func wantFiles(t *testing.T, f *Folder, want int) {
	t.Helper()
	got := 0
	check(t, filepath.WalkDir(f.dir, func(_ string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			got++
		}
		return err
	}))
	if got != want {
		t.Errorf("%d files in the vault, want %d", got, want)
	}
}

func link(t *testing.T, to, at string) {
	t.Helper()
	if err := os.Symlink(to, at); err != nil {
		t.Skipf("this system makes no links: %v", err)
	}
}

func check(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

type counter struct {
	r io.Reader
	n int64
}

func (c *counter) Read(b []byte) (int, error) {
	n, err := c.r.Read(b)
	c.n += int64(n)
	return n, err
}

type zeros struct{}

func (zeros) Read(b []byte) (int, error) { clear(b); return len(b), nil }

// breaks gives text and then the error.
func breaks(text string, err error) io.Reader {
	return io.MultiReader(strings.NewReader(text), iotest.ErrReader(err))
}
