package cli

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"fettle/fault"
)

// flattenPeers are others' figures for one surface, 0 where there is none. One
// that solves once keeps angles; one that iterates goes for lengths. Symmetric
// Dirichlet counts only where no face is turned over.
type flattenPeers struct {
	ConformalBest    float64 `json:"conformal_best_symmetric_dirichlet"`
	ConformalFastest float64 `json:"conformal_fastest_cpu_seconds"`
	IsometricBest    float64 `json:"best_symmetric_dirichlet"`
	IsometricSlowest float64 `json:"slowest_cpu_seconds"`
}

// readFlattenPeers reads the table at a path, or that of a folder of surfaces.
func readFlattenPeers(dir, path string) (map[string]flattenPeers, error) {
	tables := []string{path}
	if path == "" {
		tables = []string{filepath.Join(dir, "peer_results.tsv"), filepath.Join(filepath.Dir(filepath.Clean(dir)), "peer_results.tsv")}
	}
	for _, name := range tables {
		in, err := os.Open(name)
		if err != nil {
			continue
		}
		defer in.Close()
		peers, err := parseFlattenPeers(bufio.NewScanner(in))
		return peers, within(err, name)
	}
	if path != "" {
		return nil, fault.New(fault.NotFound, "%s cannot be opened", path).At("--peers")
	}
	return nil, nil
}

func parseFlattenPeers(lines *bufio.Scanner) (map[string]flattenPeers, error) {
	if !lines.Scan() {
		return nil, fault.New(fault.Invalid, "there is no table in it")
	}
	head := strings.Split(lines.Text(), "\t")
	mesh := slices.Index(head, "mesh")
	var at [4]int
	for i, name := range [4]string{"cpu_s", "iters", "flips", "symDirichlet"} {
		if at[i] = slices.Index(head, name); at[i] < 0 || mesh < 0 {
			return nil, fault.New(fault.Invalid, "the columns mesh and %s are wanted", name).At("line 1")
		}
	}
	peers := map[string]flattenPeers{}
	for n := 2; lines.Scan(); n++ {
		cells := strings.Split(lines.Text(), "\t")
		if len(cells) != len(head) {
			return nil, fault.New(fault.Invalid, "%d cells where the heading has %d", len(cells), len(head)).At(fmt.Sprintf("line %d", n))
		}
		var v [4]float64
		for i := range v {
			var err error
			if v[i], err = strconv.ParseFloat(cells[at[i]], 64); err != nil {
				return nil, fault.New(fault.Invalid, "%.20q is no number", cells[at[i]]).At(fmt.Sprintf("line %d, %s", n, head[at[i]]))
			}
		}
		peers[cells[mesh]] = peers[cells[mesh]].with(v[0], v[1], v[2], v[3])
	}
	return peers, lines.Err()
}

// with adds a peer's figures.
func (p flattenPeers) with(cpu, iterations, flips, dirichlet float64) flattenPeers {
	best := &p.IsometricBest
	if iterations <= 1 {
		best = &p.ConformalBest
		if p.ConformalFastest == 0 || cpu < p.ConformalFastest {
			p.ConformalFastest = cpu
		}
	} else {
		p.IsometricSlowest = max(p.IsometricSlowest, cpu)
	}
	if flips == 0 && (*best == 0 || dirichlet < *best) {
		*best = dirichlet
	}
	return p
}
