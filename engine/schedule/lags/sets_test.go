//go:build unix

package lags

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"syscall"
	"testing"
)

var sets = []string{"j10", "j20", "ubo20", "ubo50"}

// library reads the public sets as problems by set/file; it skips the test when
// they are not beside the checkout.
func library(t testing.TB) map[string]Problem {
	t.Helper()
	f, err := os.Open(data("rcpsp_max.tar.gz"))
	if errors.Is(err, os.ErrNotExist) {
		t.Skip("skipped: the public test sets are not beside the checkout")
	}
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	problems := map[string]Problem{}
	for r := tar.NewReader(z); ; {
		h, err := r.Next()
		if err == io.EOF {
			return problems
		}
		if err != nil {
			t.Fatal(err)
		}
		if h.Typeflag != tar.TypeReg || path.Ext(h.Name) != ".sch" {
			continue
		}
		p, err := Read(r)
		if err != nil {
			t.Fatal(h.Name, err)
		}
		problems[path.Join(path.Base(path.Dir(h.Name)), path.Base(h.Name))] = p
	}
}

func data(name string) string {
	return filepath.Join("..", "..", "..", "..", "shared", "data", "rcpsp", name)
}

// verdict is a row of the table of best known results.
type verdict struct {
	name        string
	infeasible  bool
	best, bound int // best known makespan and lower bound
}

// verdicts are the rows of a set, every nth.
func verdicts(t testing.TB, set string, nth int) []verdict {
	t.Helper()
	text, err := os.ReadFile(data("best_known_rcpsp_max.csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var list []verdict
	for _, row := range rows {
		if row[0] != set {
			continue
		}
		best, _ := strconv.Atoi(row[2])
		bound, _ := strconv.Atoi(row[6])
		list = append(list, verdict{path.Join(set, row[1]), row[7] == "infeasible", best, bound})
	}
	var kept []verdict
	for i := 0; i < len(list); i += nth {
		kept = append(kept, list[i])
	}
	return kept
}

// tally is a row of the table in docs/engine/schedule-lags.md.
type tally struct {
	files, feasible, infeasible, proved, below int
	proofs                                     [Exhausted + 1]int
	gap, cpu                                   float64
}

func (y *tally) String() string {
	return fmt.Sprintf("%d files, %d with a schedule, %d without (by proof %v), %d proved best, %d below best known, mean %+.3f %% to best known, %.1f CPU s",
		y.files, y.feasible, y.infeasible, y.proofs, y.proved, y.below, 100*y.gap/float64(max(1, y.feasible)), y.cpu)
}

func seconds() float64 {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}

// add solves one file and holds it against its row.
func (y *tally) add(t testing.TB, p Problem, v verdict, o Options) {
	before := seconds()
	r, err := Solve(context.Background(), p, o)
	y.cpu += seconds() - before
	y.files++
	switch {
	case err != nil:
		t.Error(v.name, err)
	case r.Status == Unknown:
		t.Errorf("%s: no verdict in %d steps", v.name, r.Stats.Steps)
	case (r.Status == Infeasible) != v.infeasible:
		t.Errorf("%s: status %d, but infeasible is %t in the table", v.name, r.Status, v.infeasible)
	case r.Status == Infeasible:
		y.infeasible++
		y.proofs[r.Why.Proof]++
	default:
		y.compare(t, p, v, r)
	}
}

func (y *tally) compare(t testing.TB, p Problem, v verdict, r Result) {
	if err := Check(p, r.Starts); err != nil {
		t.Error(v.name, err)
	}
	if r.Makespan < v.bound || r.LowerBound > v.best || r.Status == ProvedBest && r.Makespan > v.best {
		t.Errorf("%s: makespan %d, bound %d, status %d; the table says %d to %d", v.name, r.Makespan, r.LowerBound, r.Status, v.bound, v.best)
	}
	y.feasible++
	y.gap += float64(r.Makespan-v.best) / float64(v.best)
	if r.Status == ProvedBest {
		y.proved++
	} else {
		t.Logf("%s: not proved, %d to %d; the table says %d to %d", v.name, r.LowerBound, r.Makespan, v.bound, v.best)
	}
	if r.Makespan < v.best {
		y.below++
	}
}

// A sample by default; FETTLE_LAGS_STEPS=100000 runs all files with that budget.
func TestSolve_PublicSets(t *testing.T) {
	problems := library(t)
	nth, o := 5, Options{Steps: 10000, Seed: 0}
	if v := os.Getenv("FETTLE_LAGS_STEPS"); v != "" {
		steps, err := strconv.Atoi(v)
		if err != nil {
			t.Fatal(err)
		}
		nth, o.Steps = 1, steps
	}
	for _, set := range sets {
		y := &tally{}
		for _, v := range verdicts(t, set, nth) {
			y.add(t, problems[v.name], v, o)
		}
		t.Logf("%s, %d steps, seed %d: %v", set, o.Steps, o.Seed, y)
		if y.gap > 0.01*float64(y.feasible) {
			t.Errorf("%s: more than 1 %% above best known on average", set)
		}
	}
}

func TestSolve_Deterministic(t *testing.T) {
	p := library(t)["ubo50/psp3.sch"]
	first, err := Solve(context.Background(), p, Options{Seed: 7, Steps: 5000})
	if err != nil {
		t.Fatal(err)
	}
	again, _ := Solve(context.Background(), p, Options{Seed: 7, Steps: 5000})
	if first.Stats != again.Stats || !slices.Equal(first.Starts, again.Starts) || first.LowerBound != again.LowerBound {
		t.Errorf("same seed and steps: %+v, then %+v", first.Stats, again.Stats)
	}
}

func BenchmarkSolve(b *testing.B) {
	problems := library(b)
	for _, name := range []string{"j20/psp154.sch", "ubo50/psp3.sch", "ubo50/psp82.sch"} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			var r Result
			for b.Loop() {
				r, _ = Solve(context.Background(), problems[name], Options{Steps: 5000})
			}
			b.ReportMetric(float64(r.Makespan), "makespan")
			b.ReportMetric(float64(r.LowerBound), "bound")
			b.ReportMetric(float64(r.Stats.Steps), "steps")
		})
	}
}
