package script

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestPlan_ByteIdentical plans each demo build on three days, over and over,
// each time in a process of its own, on one processor and on two.
func TestPlan_ByteIdentical(t *testing.T) {
	runs := 20
	if testing.Short() {
		runs = 4
	}
	fettle := program(t)
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]string{
		{"pedlar", "2026-10-06"}, {"pedlar", "2026-12-15"}, {"pedlar", "2027-02-01"},
		{"bjelke", "2027-01-20"}, {"bjelke", "2027-01-28"}, {"bjelke", "2027-02-20"},
	} {
		name, day := c[0], c[1]
		t.Run(name+" "+day, func(t *testing.T) {
			data := t.TempDir()
			from := filepath.Join(root, "internal/demo", name+".json")
			output(t, fettle, 2, "new", name, "--from", from, "--until", day, "--data", data)
			want := output(t, fettle, 1, "plan", name, "--json", "--now", day, "--data", data)
			if len(want) < 1000 {
				t.Fatalf("the plan is only %q", want)
			}
			for run := 1; run < runs; run++ {
				if got := output(t, fettle, 1+run%2, "plan", name, "--json", "--now", day, "--data", data); !bytes.Equal(got, want) {
					t.Fatalf("run %d on %d processors differs from byte %d on", run+1, 1+run%2, differs(got, want))
				}
			}
		})
	}
}

// TestPlan_Seed shows that the comparison above can fail.
func TestPlan_Seed(t *testing.T) {
	fettle, data := program(t), t.TempDir()
	output(t, fettle, 2, "new", "pedlar", "--from", "../../internal/demo/pedlar.json", "--until", "2026-10-06", "--data", data)
	one := output(t, fettle, 2, "plan", "pedlar", "--json", "--now", "2026-10-06", "--data", data, "--seed", "1")
	two := output(t, fettle, 2, "plan", "pedlar", "--json", "--now", "2026-10-06", "--data", data, "--seed", "2")
	if bytes.Equal(one, two) {
		t.Error("another seed gives the same plan to the byte")
	}
}

// program builds the program and returns its path.
func program(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "fettle")
	if out, err := exec.Command("go", "build", "-o", path, "fettle/cmd/fettle").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	return path
}

// output runs the program on so many processors.
func output(t *testing.T, fettle string, processors int, args ...string) []byte {
	t.Helper()
	c := exec.Command(fettle, args...)
	c.Env = append(os.Environ(), "GOMAXPROCS="+[]string{"0", "1", "2"}[processors])
	var errs bytes.Buffer
	c.Stderr = &errs
	out, err := c.Output()
	if err != nil {
		t.Fatalf("fettle %s: %v\n%s", strings.Join(args, " "), err, errs.String())
	}
	return out
}

func differs(a, b []byte) int {
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}
