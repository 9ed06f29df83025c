package sqlite

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"testing"
)

// Some tests need a process of their own: to be killed, or to have a disk of
// its own. They start the test binary again with this variable set.
const childVar = "FETTLE_JOURNAL_CHILD"

// TestMain runs a child's part instead of the tests when it is asked to.
func TestMain(m *testing.M) {
	part := map[string]func(path string) error{
		"append": appendForEver, "open": openForEver, "full": fullDisk, "readonly": readOnlyDisk,
	}[os.Getenv(childVar)]
	if part == nil {
		os.Exit(m.Run())
	}
	if err := part(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// child is the test binary, ready to play a part on a path.
func child(ctx context.Context, part, path string) *exec.Cmd {
	c := exec.CommandContext(ctx, os.Args[0], path)
	c.Env = append(os.Environ(), childVar+"="+part)
	c.Stderr = os.Stderr
	return c
}
