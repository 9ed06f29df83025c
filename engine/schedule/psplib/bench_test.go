package psplib

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"fettle/engine/schedule/project"
	"fettle/fault"
)

func packed(t *testing.T, names ...string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	w := tar.NewWriter(z)
	for _, name := range names {
		if err := w.WriteHeader(&tar.Header{Name: name, Typeflag: tar.TypeReg, Size: int64(len(small))}); err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(small)); err != nil {
			t.Fatal(err)
		}
	}
	w.Close()
	z.Close()
	return b.Bytes()
}

func TestOpen(t *testing.T) {
	file := &fstest.MapFile{Data: []byte(small)}
	fsys := fstest.MapFS{
		"set/a1_10.sm": file, "set/a1_2.sm": file, "set/notes.txt": file, "set/a10_1.sm": file,
		"set.tar.gz": &fstest.MapFile{Data: packed(t, "a/a10_1.sm", "a/a1_10.sm", "a/a1_2.sm", "a/notes.txt")},
		"bad.tar.gz": file, "none/notes.txt": file,
	}
	for _, name := range []string{"set", "set.tar.gz"} {
		set, err := Open(fsys, name)
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, in := range set {
			names = append(names, in.Name)
		}
		if got := strings.Join(names, " "); got != "a1_2 a1_10 a10_1" {
			t.Errorf("%s: got %s", name, got)
		}
	}
	for name, want := range map[string]fault.Kind{"bad.tar.gz": fault.Invalid, "none": fault.NotFound, "gone": fault.NotFound, "gone.tar.gz": fault.NotFound} {
		_, err := Open(fsys, name)
		if f, ok := errors.AsType[*fault.Fault](err); !ok || f.Kind != want {
			t.Errorf("%s: got %v, want kind %v", name, err, want)
		}
	}
}

func TestReadKnown(t *testing.T) {
	got, err := ReadKnown(strings.NewReader("instance,best_known,cp_lower_bound,is_optimal\na,8,5,1\nb,,5,0\n"))
	if want := (Known{Best: 8, CriticalPath: 5, Optimal: true}); err != nil || len(got) != 1 || got["a"] != want {
		t.Errorf("got %v, %v", got, err)
	}
	for text, want := range map[string]string{
		"":                                     "the table of best known is empty",
		"instance,best_known,cp_lower_bound\n": "the table of best known has no column is_optimal",
		"instance,best_known,cp_lower_bound,is_optimal\na,eight,5,1\n": "line 2: a makespan is not a number",
	} {
		if _, err := ReadKnown(strings.NewReader(text)); err == nil || err.Error() != want {
			t.Errorf("%q: got %v, want %s", text, err, want)
		}
	}
}

// The two jobs of the small file need 5 units of 4, one after the other: 8.
func TestBench_AddsUp(t *testing.T) {
	p, err := ReadSM(strings.NewReader(small))
	if err != nil {
		t.Fatal(err)
	}
	set := []Instance{{"a", p}, {"b", p}}
	got, err := Bench(context.Background(), set, map[string]Known{"a": {Best: 8}}, project.Options{Schedules: 10})
	if err != nil {
		t.Fatal(err)
	}
	if got.AbovePath != 60 || got.AboveBest != 0 || got.Met != 1 || got.Proved != 2 || len(got.Rows) != 2 || got.Schedules < 2 {
		t.Errorf("got %+v", got)
	}
}

// shared opens a public set that lies beside the checkout, if it does.
func shared(t testing.TB, name string) ([]Instance, map[string]Known) {
	t.Helper()
	dir := filepath.Join("..", "..", "..", "..", "shared", "data", "rcpsp")
	if _, err := os.Stat(dir); err != nil {
		t.Skipf("skipped: the public test set %s is not beside the checkout", name)
	}
	set, err := Open(os.DirFS(dir), name+".tar.gz")
	if err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(filepath.Join(dir, "best_known_"+name+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	known, err := ReadKnown(f)
	if err != nil {
		t.Fatal(err)
	}
	return set, known
}

func every(set []Instance, nth int) []Instance {
	var some []Instance
	for i := 0; i < len(set); i += nth {
		some = append(some, set[i])
	}
	return some
}

// Limits are what seed 1 gives now and a tenth of a point or so; whole sets are
// in docs/engine/schedule-search.md.
func TestBench_PublicSets(t *testing.T) {
	for _, c := range []struct {
		set            string
		nth, schedules int
		best           float64 // at most, in percent above best known
	}{
		{"j30", 8, 5000, 0.15},
		{"j60", 10, 1000, 0.7},
		{"j120", 20, 1000, 3.0},
	} {
		t.Run(c.set, func(t *testing.T) {
			set, known := shared(t, c.set)
			got, err := Bench(context.Background(), every(set, c.nth), known, project.Options{Seed: 1, Schedules: c.schedules})
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%s, every %dth, %d schedules: %.2f %% above the critical path, %.2f %% above best known, %d of %d met, %d proved",
				c.set, c.nth, c.schedules, got.AbovePath, got.AboveBest, got.Met, len(got.Rows), got.Proved)
			if got.AboveBest > c.best {
				t.Errorf("%.2f %% above best known, want at most %.2f", got.AboveBest, c.best)
			}
			for _, r := range got.Rows {
				againstTable(t, r)
			}
		})
	}
}

// againstTable: no bound above a best known, no proof of something longer.
func againstTable(t *testing.T, r Row) {
	t.Helper()
	if r.CriticalPath != r.Known.CriticalPath {
		t.Errorf("%s: critical path %d, published %d", r.Name, r.CriticalPath, r.Known.CriticalPath)
	}
	if r.Result.LowerBound > r.Known.Best {
		t.Errorf("%s: bound %d above best known %d", r.Name, r.Result.LowerBound, r.Known.Best)
	}
	if r.Known.Optimal && r.Result.Makespan < r.Known.Best {
		t.Errorf("%s: makespan %d below the optimum %d", r.Name, r.Result.Makespan, r.Known.Best)
	}
}

// One budget of 1,000 schedules on hard instances, so that schedules a second
// are those of the whole search.
func BenchmarkSearch(b *testing.B) {
	for _, name := range []string{"j30", "j60", "j120"} {
		set, known := shared(b, name)
		set = every(set, 40)
		b.Run(name, func(b *testing.B) {
			schedules, above := 0, 0.0
			for b.Loop() {
				t, err := Bench(context.Background(), set, known, project.Options{Seed: 1, Schedules: 1000})
				if err != nil {
					b.Fatal(err)
				}
				schedules, above = schedules+t.Schedules, t.AboveBest
			}
			b.ReportMetric(float64(schedules)/b.Elapsed().Seconds(), "schedules/s")
			b.ReportMetric(above, "%above-best")
		})
	}
}

func ExampleReadKnown() {
	known, err := ReadKnown(strings.NewReader("instance,best_known,cp_lower_bound,is_optimal\nj301_1,43,38,1\n"))
	fmt.Println(known["j301_1"].Best, err)
	// Output: 43 <nil>
}
