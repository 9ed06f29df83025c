package outside

import (
	"archive/tar"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/engine/schedule/lags"
	"fettle/engine/schedule/project"
	"fettle/engine/schedule/psplib"
)

const library = "../../../shared/data/rcpsp"

// needLibrary skips where the public sets are not beside the checkout.
func needLibrary(t *testing.T) {
	t.Helper()
	if _, err := os.Stat(library); errors.Is(err, fs.ErrNotExist) {
		t.Skip("the public test sets are not beside the checkout")
	}
}

// arc says that to starts at least so long after the start of from.
type arc struct{ from, to, least int }

// plainModel writes a project with lags from start to start.
func plainModel(duration []int, demand [][]int, capacity []int, arcs []arc) string {
	var b strings.Builder
	sum := 1
	for _, d := range duration {
		sum += d
	}
	for _, a := range arcs {
		sum += max(0, a.least)
	}
	fmt.Fprintf(&b, "include \"cumulative.mzn\";\nint: T = %d;\narray[0..%d] of var 0..T: s;\nvar 0..2*T: last;\n", sum, len(duration)-1)
	for _, a := range arcs {
		fmt.Fprintf(&b, "constraint s[%d] >= s[%d] + %d;\n", a.to, a.from, a.least)
	}
	for k, units := range capacity {
		var starts, longs, uses []string
		for j := range duration {
			if demand[j][k] > 0 && duration[j] > 0 {
				starts, longs, uses = append(starts, fmt.Sprintf("s[%d]", j)), append(longs, fmt.Sprint(duration[j])), append(uses, fmt.Sprint(demand[j][k]))
			}
		}
		if len(starts) > 0 {
			fmt.Fprintf(&b, "constraint cumulative([%s], [%s], [%s], %d);\n", strings.Join(starts, ", "), strings.Join(longs, ", "), strings.Join(uses, ", "), units)
		}
	}
	for j, d := range duration {
		fmt.Fprintf(&b, "constraint last >= s[%d] + %d;\n", j, d)
	}
	return b.String() + "solve minimize last;\n"
}

// TestProjects_AgainstASolver holds engine/schedule/project to the solver on
// eight files of j30.
func TestProjects_AgainstASolver(t *testing.T) {
	needSolver(t)
	needLibrary(t)
	set, err := psplib.Open(os.DirFS(library), "j30.tar.gz")
	if err != nil {
		t.Fatal(err)
	}
	var table strings.Builder
	for i := 0; i < len(set); i += 60 {
		p := set[i].Problem
		var arcs []arc
		for j, list := range p.Succ {
			for _, to := range list {
				arcs = append(arcs, arc{j, int(to), int(p.Duration[j])})
			}
		}
		var demand [][]int
		for _, row := range p.Demand {
			demand = append(demand, ints(row))
		}
		out := ask(t, plainModel(ints(p.Duration), demand, ints(p.Capacity), arcs), 2*time.Minute)
		r, err := project.Solve(context.Background(), p, project.Options{Seed: 1, Schedules: 5000})
		if err != nil || project.Check(p, r.Starts) != nil {
			t.Fatal(err)
		}
		best := out.values["last"]
		fmt.Fprintf(&table, "| %s | %d, %s | %d, %s | %.1f |\n", set[i].Name, best, out.status, r.Makespan, r.Status, out.took.Seconds())
		proved := out.status == "OPTIMAL_SOLUTION"
		if proved && (int(r.Makespan) < best || int(r.LowerBound) > best || r.Status == project.ProvedBest && int(r.Makespan) != best) {
			t.Errorf("%s: %d, bound %d, %s; the solver proves %d", set[i].Name, r.Makespan, r.LowerBound, r.Status, best)
		}
	}
	t.Logf("\n| file | solver | engine | solver, s |\n|---|---|---|---|\n%s", table.String())
}

func ints(list []int32) []int {
	var out []int
	for _, x := range list {
		out = append(out, int(x))
	}
	return out
}

// TestLags_AgainstASolver holds engine/schedule/lags to the solver on eight
// files of j10 and four of ubo20, with their verdicts of no schedule.
func TestLags_AgainstASolver(t *testing.T) {
	needSolver(t)
	needLibrary(t)
	set := withLags(t)
	var table strings.Builder
	for _, name := range []string{
		"j10/psp1.sch", "j10/psp40.sch", "j10/psp80.sch", "j10/psp119.sch", "j10/psp160.sch", "j10/psp200.sch", "j10/psp230.sch", "j10/psp260.sch",
		"ubo20/psp1.sch", "ubo20/psp30.sch", "ubo20/psp60.sch", "ubo20/psp90.sch",
	} {
		p, ok := set[name]
		if !ok {
			t.Fatalf("there is no %s", name)
		}
		var arcs []arc
		for _, l := range p.Lags {
			arcs = append(arcs, arc{l.From, l.To, l.Min})
		}
		out := ask(t, plainModel(p.Duration, p.Demand, p.Capacity, arcs), 2*time.Minute)
		r, err := lags.Solve(context.Background(), p, lags.Options{Seed: 1, Steps: 20000})
		if err != nil {
			t.Fatal(err)
		}
		words := [...]string{lags.Unknown: "unknown", lags.Feasible: "best found", lags.ProvedBest: "proved best", lags.Infeasible: "infeasible"}
		fmt.Fprintf(&table, "| %s | %d, %s | %d, %s | %.1f |\n", name, out.values["last"], out.status, r.Makespan, words[r.Status], out.took.Seconds())
		switch out.status {
		case "OPTIMAL_SOLUTION":
			if best := out.values["last"]; r.Status == lags.Infeasible || r.Starts != nil && r.Makespan < best || r.Status == lags.ProvedBest && r.Makespan != best || r.LowerBound > best {
				t.Errorf("%s: %s %d; the solver proves %d", name, words[r.Status], r.Makespan, best)
			}
		case "UNSATISFIABLE":
			if r.Starts != nil {
				t.Errorf("%s: a schedule of %d where the solver finds none", name, r.Makespan)
			}
		}
	}
	t.Logf("\n| file | solver | engine | solver, s |\n|---|---|---|---|\n%s", table.String())
}

// withLags reads the public files with maximum lags by set and name.
func withLags(t *testing.T) map[string]lags.Problem {
	t.Helper()
	f, err := os.Open(library + "/rcpsp_max.tar.gz")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	problems := map[string]lags.Problem{}
	for r := tar.NewReader(z); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return problems
		}
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Contains([]string{"j10", "ubo20"}, path.Base(path.Dir(h.Name))) || path.Ext(h.Name) != ".sch" {
			continue
		}
		p, err := lags.Read(r)
		if err != nil {
			t.Fatal(h.Name, err)
		}
		problems[path.Join(path.Base(path.Dir(h.Name)), path.Base(h.Name))] = p
	}
}
