package trim_test

import (
	"context"
	"fettle/build"
	"fettle/stage/trim"
	"fmt"
	"os"
	"strconv"
	"testing"
	"time"
)

func TestZZ(t *testing.T) {
	b := morning(t, october)
	st, _ := strconv.Atoi(os.Getenv("STEPS"))
	for _, without := range [][]build.HideID{nil, {"H3"}} {
		s, err := trim.SetOf(&b, trim.Asked{Material: "tan leather", Without: without})
		if err != nil {
			t.Fatal(err)
		}
		in, err := s.Order(1, st)
		if err != nil {
			t.Fatal(err)
		}
		os.WriteFile("/tmp/exp/order.json", in, 0o644)
		t0 := time.Now()
		out, err := trim.Lay(context.Background(), in, nil, func(d []byte) {})
		if err != nil {
			t.Fatal(err)
		}
		l, _ := trim.Read(out)
		n := map[build.HideID]int{}
		for _, p := range l.Placed {
			n[p.Hide]++
		}
		fmt.Println(without, len(l.Placed), l.Missing, l.Status, l.Verified, l.Gap, n, time.Since(t0))
	}
}
