package cli

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"text/tabwriter"

	"fettle/fault"
)

// publishedNest holds published densities in percent, by case and column.
type publishedNest struct {
	columns []string
	cases   map[string]map[string]float64
}

func (p publishedNest) of(name string) map[string]float64 { return p.cases[name] }

// published reads the table. Its first column names the case, up to a space;
// columns with "mean" in their name count, and one that ends in "_best".
func (c *benchNestCmd) published() (publishedNest, error) {
	path := c.Published
	if path == "" {
		path = filepath.Join(filepath.Dir(filepath.Clean(c.Dir)), "published.csv")
	}
	in, err := os.Open(path)
	if err != nil {
		if c.Published == "" {
			return publishedNest{}, nil
		}
		return publishedNest{}, fault.New(fault.NotFound, "cannot be opened: %v", err).At("--published")
	}
	defer in.Close()
	rows, err := csv.NewReader(in).ReadAll()
	if err != nil || len(rows) == 0 {
		return publishedNest{}, fault.New(fault.Invalid, "not a table: %v", err).At(path)
	}
	p := publishedNest{cases: map[string]map[string]float64{}}
	for k, head := range rows[0] {
		if k == 0 || !strings.Contains(head, "mean") && (!strings.HasSuffix(head, "_best") || strings.HasPrefix(head, "prev")) {
			continue
		}
		p.columns = append(p.columns, head)
		for _, row := range rows[1:] {
			name, _, _ := strings.Cut(row[0], " ")
			if p.cases[name] == nil {
				p.cases[name] = map[string]float64{}
			}
			if v, err := strconv.ParseFloat(row[k], 64); err == nil {
				p.cases[name][head] = v
			}
		}
	}
	return p, nil
}

// printNestTable prints a line a case, published figures beside ours, and on
// how many cases our mean is ahead of each.
func printNestTable(out io.Writer, table []benchedNest, columns []string) error {
	w := tabwriter.NewWriter(out, 0, 4, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(w, "case\tpieces\tmean %\tleast\tmost\tCPU s\tsteps\tevaluations/CPU s\tpeak MB\t")
	for _, head := range columns {
		fmt.Fprintf(w, "%s\t", head)
	}
	fmt.Fprintln(w)
	for _, b := range table {
		fmt.Fprintf(w, "%s\t%d\t%.2f\t%.2f\t%.2f\t%.1f\t%d\t%.0f\t%.0f\t",
			b.Case, b.Pieces, b.Mean, b.Least, b.Most, b.CPUSeconds, b.Runs[len(b.Runs)-1].Steps, b.Evaluations, b.PeakMB)
		for _, head := range columns {
			if v, ok := b.Published[head]; ok {
				fmt.Fprintf(w, "%.2f\t", v)
			} else {
				fmt.Fprint(w, "\t")
			}
		}
		fmt.Fprintln(w)
	}
	if err := w.Flush(); err != nil {
		return err
	}
	for _, head := range columns {
		ahead, of, apart := 0, 0, 0.0
		for _, b := range table {
			if v, ok := b.Published[head]; ok {
				of++
				apart += b.Mean - v
				if math.Round(100*b.Mean) > math.Round(100*v) {
					ahead++
				}
			}
		}
		if of > 0 {
			fmt.Fprintf(out, "%s: ahead on %d of %d, on average %+.2f points\n", head, ahead, of, apart/float64(of))
		}
	}
	return nil
}
