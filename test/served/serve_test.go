package served

import (
	"bufio"
	"io"
	"net/url"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// serve builds the program, opens the demo build in it and returns its
// address, such as http://127.0.0.1:41234.
func serve(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "fettle")
	if out, err := exec.Command("go", "build", "-o", path, "fettle/cmd/fettle").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	c := exec.Command(path, "demo", "--no-open", "--addr", "127.0.0.1:0")
	pipe, err := c.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Process.Kill(); c.Wait() })
	lines := bufio.NewReader(pipe)
	for {
		line, err := lines.ReadString('\n')
		if err != nil {
			t.Fatalf("the program ended before it listened: %v", err)
		}
		if _, at, ok := strings.Cut(line, "fettle: open "); ok {
			u, err := url.Parse(strings.TrimSpace(at))
			if err != nil {
				t.Fatal(err)
			}
			go io.Copy(io.Discard, lines)
			return u.Scheme + "://" + u.Host
		}
	}
}
