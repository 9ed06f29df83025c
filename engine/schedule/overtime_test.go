package schedule

import (
	"slices"
	"testing"
)

// Five days and an hour of work: on Monday week at 09:00, or on the Saturday
// that is bought, or four hours of it on the Saturday and evening before.
func TestOvertime(t *testing.T) {
	p := shopOf(2, labour("a", 5*480+60, 0))
	saturday := Overtime{Person: 0, Window: Window{clockTime(5, 8, 0), clockTime(5, 12, 0)}, Price: 300}
	evening := Overtime{Person: 0, Window: Window{clockTime(0, 16, 0), clockTime(0, 16, 30)}, Price: 20}
	other := Overtime{Person: 1, Window: saturday.Window, Price: 1000}
	cases := []struct {
		name   string
		offers []Overtime
		finish Minute
		bought []int
		price  int64
	}{
		{"none", nil, clockTime(7, 9, 0), nil, 0},
		{"a Saturday", []Overtime{saturday}, clockTime(5, 9, 0), []int{0}, 300},
		{"somebody else's is not worked in, so not paid", []Overtime{other, saturday}, clockTime(5, 9, 0), []int{1}, 300},
		{"an evening that touches the day", []Overtime{saturday, evening}, clockTime(5, 8, 30), []int{0, 1}, 320},
		{"later than needed", []Overtime{{Person: 0, Window: Window{clockTime(12, 8, 0), clockTime(12, 9, 0)}, Price: 5}}, clockTime(7, 9, 0), nil, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p.Overtime = c.offers
			for _, res := range both(t, p, clockTime(0, 8, 0)) {
				if res.Makespan != c.finish || !slices.Equal(res.Bought, c.bought) || res.Price != c.price {
					t.Errorf("finish %s, bought %v for %d", moment(res.Makespan), res.Bought, res.Price)
				}
			}
		})
	}
}

// What is bought opens and closes without room being made for it again.
func TestBuy_AllocatesNothingOnceWarm(t *testing.T) {
	p := shopOf(2, labour("a", 600, 0), labour("b", 600, 1))
	for d := range Minute(4) {
		p.Overtime = append(p.Overtime, Overtime{Person: int(d) % 2, Window: Window{clockTime(5+d/2*7, 8, 0), clockTime(5+d/2*7, 12, 0)}})
	}
	n, err := compile(p)
	if err != nil {
		t.Fatal(err)
	}
	r := newRun(n)
	r.list(natural(2))
	sets := [][]bool{{true, true, true, true}, {false, true, false, false}, {false, false, false, false}, {true, false, false, true}}
	used := testing.AllocsPerRun(20, func() {
		for _, s := range sets {
			r.buy(s)
			r.parallel()
		}
	})
	if used > 0 {
		t.Errorf("%v allocations", used)
	}
	if r.buy(sets[2]); r.clocks[0].open(clockTime(5, 8, 0)) != clockTime(7, 8, 0) {
		t.Error("a Saturday that was given back is still open")
	}
}
