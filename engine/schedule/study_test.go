package schedule

import ("testing";"context";"fmt")

func TestStudy(t *testing.T) {
	for _, after := range []bool{false,true} {
	for _, short := range []bool{false,true} {
	for _, b := range []int{0,200,2000} {
		d := newDemo(t, shop{after: after, short: short})
		res, err := Solve(context.Background(), d.Problem, Options{Schedules: b})
		if err != nil { t.Fatal(err) }
		fmt.Println("after",after,"short",short,"budget",b, res.Status, moment(res.Makespan), "LB", moment(res.LowerBound), res.Stats)
		if !after && b==0 {
		d2 := newDemo(t, shop{after: after, short: short})
		for j := range d2.Activities { if d2.Activities[j].Group=="T33" {_ = j} }
		}
		for _, k := range []string{"T05","T08","T09","T10","T11","T12","T15","T17","T18","T19","T23","T30","T31","T33","O2"} {
			fmt.Print("  ",k," ",moment(res.Times[d.milestone[k]].Finish))
		}
		fmt.Println()
	}}}
}
