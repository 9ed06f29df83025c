package psplib

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"

	"fettle/engine/schedule/project"
	"fettle/fault"
)

// Known is what is published on an instance, in its slots.
type Known struct {
	Best         int32 // shortest makespan known
	CriticalPath int32
	Optimal      bool // nothing is shorter than Best
}

// ReadKnown reads a table with the columns instance, best_known,
// cp_lower_bound and is_optimal, in any order, by instance. Rows without a best
// known are left out. A column that is missing or a figure that is not a number
// is a fault of kind Invalid that names the line.
func ReadKnown(r io.Reader) (map[string]Known, error) {
	rows, err := csv.NewReader(r).ReadAll()
	if err != nil {
		return nil, fault.Wrap(fault.Invalid, err, "read the table of best known")
	}
	if len(rows) == 0 {
		return nil, fault.New(fault.Invalid, "the table of best known is empty")
	}
	var at [4]int
	for i, name := range []string{"instance", "best_known", "cp_lower_bound", "is_optimal"} {
		if at[i] = slices.Index(rows[0], name); at[i] < 0 {
			return nil, fault.New(fault.Invalid, "the table of best known has no column %s", name)
		}
	}
	known := map[string]Known{}
	for line, row := range rows[1:] {
		if row[at[1]] == "" {
			continue
		}
		best, err1 := strconv.ParseInt(row[at[1]], 10, 32)
		path, err2 := strconv.ParseInt(row[at[2]], 10, 32)
		if err1 != nil || err2 != nil {
			return nil, fault.New(fault.Invalid, "a makespan is not a number").At(fmt.Sprintf("line %d", line+2))
		}
		known[row[at[0]]] = Known{Best: int32(best), CriticalPath: int32(path), Optimal: row[at[3]] == "1"}
	}
	return known, nil
}

// Row is one instance solved.
type Row struct {
	Name         string
	CriticalPath int32
	Known        Known // zero where the table has none
	Result       project.Result
}

// Table is a set solved. Means are in percent.
type Table struct {
	Rows      []Row
	AbovePath float64 // mean above the critical path
	AboveBest float64 // mean above the best known, of the rows that have one
	Met       int     // rows at or below the best known
	Proved    int     // rows proved best
	Schedules int     // generated in all
}

// Bench solves every instance with the same options and adds up. Each result
// has passed project.Check. The context ends it with a fault of kind
// Interrupted: a table of half a set compares with nothing.
func Bench(ctx context.Context, set []Instance, known map[string]Known, o project.Options) (Table, error) {
	t := Table{}
	rated := 0
	for _, in := range set {
		row, err := solve(ctx, in, o)
		if err != nil {
			return Table{}, err
		}
		if best, ok := known[in.Name]; ok {
			row.Known = best
			rated++
			t.AboveBest += above(row.Result.Makespan, best.Best)
			if row.Result.Makespan <= best.Best {
				t.Met++
			}
		}
		if row.Result.Status == project.ProvedBest {
			t.Proved++
		}
		t.AbovePath += above(row.Result.Makespan, row.CriticalPath)
		t.Schedules += row.Result.Stats.Schedules
		t.Rows = append(t.Rows, row)
	}
	t.AbovePath /= float64(max(1, len(set)))
	t.AboveBest /= float64(max(1, rated))
	return t, nil
}

func solve(ctx context.Context, in Instance, o project.Options) (Row, error) {
	path, err := project.LongestPath(in.Problem)
	if err != nil {
		return Row{}, fault.Wrap(fault.Invalid, err, "solve "+in.Name)
	}
	res, err := project.Solve(ctx, in.Problem, o)
	if err != nil {
		return Row{}, fault.Wrap(fault.Internal, err, "solve "+in.Name)
	}
	if res.Status == project.Interrupted {
		return Row{}, fault.New(fault.Interrupted, "stopped at %s", in.Name)
	}
	return Row{Name: in.Name, CriticalPath: path, Result: res}, nil
}

func above(makespan, base int32) float64 {
	if base == 0 {
		return 0
	}
	return 100 * float64(makespan-base) / float64(base)
}
