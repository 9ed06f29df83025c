package readin

import (
	"fmt"
	"strings"
	"testing"
)

// BenchmarkPlan reads and plans long lists, the longest that are accepted.
func BenchmarkPlan(b *testing.B) {
	heads := map[Kind]string{
		Findings: "no,panel,what,size,hours,part,price\n", Parts: "no,name,for,price,lead\n",
		Hours: "who,date,task,hours,note\n", Panels: "no,name,side\n",
	}
	rows := map[Kind]string{
		Findings: "F%d,roof skin rear,rust,260x180,\"MW 5, LD 2\",strip,£74.50\n", Parts: "Q%d,strip,T08,£1150.00,3 weeks\n",
		Hours: "MW,2026-10-06,T08,7h30,note %d\n", Panels: "P%d,door,L\n",
	}
	for _, kind := range Kinds() {
		for _, n := range []int{1_000, 10_000, 100_000} {
			b.Run(fmt.Sprintf("%s/n=%d", kind, n), func(b *testing.B) {
				var list strings.Builder
				list.WriteString(heads[kind])
				for i := range n - 1 {
					fmt.Fprintf(&list, rows[kind], i+100)
				}
				for b.Loop() {
					s, err := Open("list.csv", strings.NewReader(list.String()), 0)
					if err != nil {
						b.Fatal(err)
					}
					if res := Plan(shop(), kind, s, Match(kind, s.Heads), Options{}); res.Good != n-1 {
						b.Fatalf("%d good rows of %d, the first bad: %+v", res.Good, n-1, firstBad(res))
					}
				}
			})
		}
	}
}

func firstBad(res Result) Row {
	for _, r := range res.Rows {
		if r.Status != Good {
			return r
		}
	}
	return Row{}
}
