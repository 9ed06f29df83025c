package outside

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"fettle/engine/schedule"
)

const solver = "../../tool/outside/solve.cjs"

// needSolver skips where the constraint solver is not asked for or not there.
func needSolver(t *testing.T) {
	t.Helper()
	if os.Getenv("FETTLE_OUTSIDE") == "" {
		t.Skip("the outside solver runs with FETTLE_OUTSIDE=1; tool/outside/README.md says how to fetch it")
	}
	if _, err := os.Stat("../../tool/outside/node_modules"); err != nil {
		t.Skip("the outside solver is not there: run npm ci in tool/outside")
	}
	if _, err := exec.LookPath("node"); err != nil {
		t.Skip("there is no Node to run the outside solver")
	}
}

// answer is what the solver said: the last solution, and whether it is the best.
type answer struct {
	values map[string]int
	status string
	took   time.Duration
}

// ask solves a model in a process of its own.
func ask(t *testing.T, model string, limit time.Duration) answer {
	t.Helper()
	began := time.Now()
	cmd := exec.Command("node", solver, fmt.Sprint(limit.Milliseconds()))
	cmd.Stdin = strings.NewReader(model)
	var says bytes.Buffer
	cmd.Stderr = &says
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s\n%s\n%s", err, out, says.String(), model)
	}
	a := answer{took: time.Since(began)}
	lines := bufio.NewScanner(bytes.NewReader(out))
	for lines.Buffer(nil, 1<<20); lines.Scan(); {
		var m struct {
			Type, Status string
			Output       struct{ JSON map[string]json.RawMessage }
		}
		if err := json.Unmarshal(lines.Bytes(), &m); err != nil {
			t.Fatal(err)
		}
		switch m.Type {
		case "solution":
			a.values = map[string]int{}
			for name, raw := range m.Output.JSON {
				var x int
				if json.Unmarshal(raw, &x) == nil {
					a.values[name] = x
				}
			}
		case "status":
			a.status = m.Status
		case "error":
			t.Fatalf("%s\n%s", lines.Text(), model)
		}
	}
	return a
}

// TestShop_AgainstASolver holds engine and slow method to the optimum that the
// solver proves on forty small problems.
func TestShop_AgainstASolver(t *testing.T) {
	needSolver(t)
	var table strings.Builder
	equal, cases := 0, 0
	for seed := uint64(1); cases < 40; seed++ {
		p := small(rand.New(rand.NewPCG(seed, 29)), parts{crews: true, clashes: true})
		res, err := schedule.Solve(context.Background(), p, schedule.Options{Seed: 1, Schedules: 5000})
		if err != nil || res.Status == schedule.OutOfHours {
			continue
		}
		s, wrong := takeIn(&p, res)
		if wrong != "" {
			t.Fatalf("seed %d: %s", seed, wrong)
		}
		got := s.value(len(s.at))
		best, nodes := optimum(&p, got)
		out := ask(t, model(&p), time.Minute)
		if out.status != "OPTIMAL_SOLUTION" {
			t.Errorf("seed %d: the solver says %q", seed, out.status)
			continue
		}
		cases++
		proved := value{late: out.values["late"], remedial: out.values["missed"], last: out.values["last"]}
		if nodes <= mostNodes && best != proved {
			t.Errorf("seed %d: every plan tried gives %+v, the solver %+v\n%+v\n%s", seed, best, proved, p, model(&p))
		}
		if got.less(proved) || res.Status == schedule.ProvedBest && got != proved {
			t.Errorf("seed %d: the engine gives %+v, status %d; the solver %+v", seed, got, res.Status, proved)
		}
		if int(res.LowerBound) > proved.last*hour {
			t.Errorf("seed %d: lower bound %d, the solver's plan ends at %d", seed, res.LowerBound, proved.last*hour)
		}
		mark := "no"
		if got == proved {
			mark, equal = "yes", equal+1
		}
		fmt.Fprintf(&table, "| %d | %d | %d/%d/%d | %d/%d/%d | %s | %.1f |\n", seed, len(p.Activities),
			proved.late, proved.remedial, proved.last, got.late, got.remedial, got.last, mark, out.took.Seconds())
	}
	t.Logf("%d of %d equal\n| seed | activities | solver: late/missed/end, h | engine | equal | solver, s |\n|---|---|---|---|---|---|\n%s", equal, cases, table.String())
	if equal*100 < 85*cases {
		t.Errorf("the engine is as good as the solver on %d of %d", equal, cases)
	}
}
