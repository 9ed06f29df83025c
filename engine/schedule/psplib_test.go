package schedule

import (
	"archive/tar"
	"bufio"
	"compress/gzip"
	"context"
	"encoding/csv"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fettle/engine/schedule/activitylist"
)

// library reads the single-mode instances of a public test set, every nth by
// name, as problems: jobs are passive on the wall clock, resources are places.
func library(t testing.TB, set string, nth int) (names []string, problems map[string]Problem) {
	t.Helper()
	dir := filepath.Join("..", "..", "..", "shared", "data", "rcpsp")
	f, err := os.Open(filepath.Join(dir, set+".tar.gz"))
	if errors.Is(err, os.ErrNotExist) {
		t.Skipf("skipped: the public test set %s is not beside the checkout", set)
	}
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	problems = map[string]Problem{}
	for r := tar.NewReader(z); ; {
		h, err := r.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if name, ok := strings.CutSuffix(filepath.Base(h.Name), ".sm"); ok && h.Typeflag == tar.TypeReg {
			names, problems[name] = append(names, name), parseInstance(r)
		}
	}
	slices.Sort(names)
	var kept []string
	for i := 0; i < len(names); i += nth {
		kept = append(kept, names[i])
	}
	return kept, problems
}

func parseInstance(r io.Reader) Problem {
	p, section := Problem{}, ""
	for s := bufio.NewScanner(r); s.Scan(); {
		line := s.Text()
		if i := strings.IndexByte(line, ':'); i > 0 && line[0] != ' ' || strings.HasPrefix(line, "RESOURCEAVAIL") {
			section = line
			continue
		}
		n := numbers(line)
		switch {
		case n == nil:
		case strings.HasPrefix(section, "PRECEDENCE"):
			for _, to := range n[3:] {
				p.Links = append(p.Links, Link{From: n[0] - 1, To: to - 1, Calendar: -1})
			}
		case strings.HasPrefix(section, "REQUESTS"):
			a := Activity{ID: strconv.Itoa(n[0]), Kind: Passive, Work: Minute(n[2]), Calendar: -1}
			for q, u := range n[3:] {
				if u > 0 {
					a.Uses = append(a.Uses, Use{Place: q, Units: u})
				}
			}
			p.Activities = append(p.Activities, a)
		case strings.HasPrefix(section, "RESOURCEAVAIL"):
			for q, u := range n {
				p.Places = append(p.Places, Place{ID: "R" + strconv.Itoa(q+1), Units: u})
			}
		}
	}
	return p
}

// numbers are the fields of a line when all are whole numbers, else nil.
func numbers(line string) []int {
	var list []int
	for _, f := range strings.Fields(line) {
		n, err := strconv.Atoi(f)
		if err != nil {
			return nil
		}
		list = append(list, n)
	}
	return list
}

// known are the best-known makespans and critical-path bounds of a set.
func known(t testing.TB, set string) map[string][2]Minute {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "..", "shared", "data", "rcpsp", "best_known_"+set+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	best := map[string][2]Minute{}
	for _, row := range rows[1:] {
		ub, _ := strconv.Atoi(row[1])
		cp, _ := strconv.Atoi(row[2])
		best[row[0]] = [2]Minute{Minute(ub), Minute(cp)}
	}
	return best
}

// latest is the list by latest finish, the rule the reference figures used.
func latest(p Problem) []int {
	n, err := compile(p)
	if err != nil {
		panic(err)
	}
	r := newRun(n)
	rules := newRules(r, newRun(n.mirrored()), lowerBound(r), natural(len(p.Activities)))
	list := natural(len(p.Activities))
	activitylist.NewSampler[int](len(list), bias).List(n.graph(), rules.all[0].value, nil, list)
	return list
}

func TestSolve_NeverBelowBestKnown(t *testing.T) {
	names, problems := library(t, "j30", 1)
	best := known(t, "j30")
	above, met := 0.0, 0
	for _, name := range names {
		res, err := Solve(context.Background(), problems[name], Options{Schedules: 200})
		if err != nil {
			t.Fatal(name, err)
		}
		ub, cp := best[name][0], best[name][1]
		if res.Makespan < ub || res.LowerBound < cp || res.LowerBound > ub || res.Status == ProvedBest && res.Makespan != ub {
			t.Errorf("%s: makespan %d, bound %d, status %d; best known %d, critical path %d", name, res.Makespan, res.LowerBound, res.Status, ub, cp)
		}
		above += float64(res.Makespan-ub) / float64(ub)
		if res.Makespan == ub {
			met++
		}
	}
	mean := 100 * above / float64(len(names))
	t.Logf("j30, 200 schedules, seed 0: %.2f %% above best known, %d of %d met", mean, met, len(names))
	if mean > 1.5 {
		t.Errorf("mean %.2f %% above best known, want at most 1.5", mean)
	}
}

// The reference figures of a plain program of the same two rules, in percent
// above the critical path: serial 18.1, parallel 17.5.
func TestGeneration_SinglePassDeviation(t *testing.T) {
	names, problems := library(t, "j60", 1)
	best := known(t, "j60")
	var serial, parallel float64
	for _, name := range names {
		p := problems[name]
		n, err := compile(p)
		if err != nil {
			t.Fatal(err)
		}
		r := newRun(n)
		r.list(latest(p))
		cp := float64(best[name][1])
		r.serial()
		serial += float64(r.makespan())/cp - 1
		r.parallel()
		parallel += float64(r.makespan())/cp - 1
	}
	serial, parallel = 100*serial/float64(len(names)), 100*parallel/float64(len(names))
	t.Logf("j60, one pass, latest finish: serial %.1f %%, parallel %.1f %% above the critical path", serial, parallel)
	if serial < 16.1 || serial > 20.1 || parallel < 15.5 || parallel > 19.5 {
		t.Errorf("serial %.1f, parallel %.1f; want within 2 of 18.1 and 17.5", serial, parallel)
	}
}
