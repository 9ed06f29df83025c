package sqlite

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"fettle/fault"
	"fettle/internal/journal"
)

// TestDisk runs against small disks of its own, mounted where only a child
// process sees them; a system that does not allow that skips it.
func TestDisk(t *testing.T) {
	for _, part := range []string{"full", "readonly"} {
		t.Run(part, func(t *testing.T) {
			c := child(t.Context(), part, t.TempDir())
			c.SysProcAttr = &syscall.SysProcAttr{
				Cloneflags:  syscall.CLONE_NEWUSER | syscall.CLONE_NEWNS,
				UidMappings: []syscall.SysProcIDMap{{HostID: os.Getuid(), Size: 1}},
				GidMappings: []syscall.SysProcIDMap{{HostID: os.Getgid(), Size: 1}},
			}
			var said strings.Builder
			c.Stdout, c.Stderr = &said, &said
			err := c.Run()
			if err != nil && c.ProcessState == nil || strings.Contains(said.String(), noMount) {
				t.Skipf("this system gives no disk of its own: %v %s", err, said.String())
			}
			if err != nil {
				t.Errorf("%v: %s", err, said.String())
			}
			t.Log(strings.TrimSpace(said.String()))
		})
	}
}

const noMount = "no mount allowed"

func mount(dir, options string, flags uintptr) error {
	if err := syscall.Mount("journal-test", dir, "tmpfs", flags, options); err != nil {
		return fmt.Errorf("%s: %w", noMount, err)
	}
	return nil
}

// fullDisk fills a disk of 1 MiB: the entry that finds no room is a fault that
// says so, all before it stay, and with room again the store goes on.
func fullDisk(dir string) error {
	if err := mount(dir, "size=1m", 0); err != nil {
		return err
	}
	ctx := context.Background()
	s, err := Open(ctx, filepath.Join(dir, "journal.db"))
	if err != nil {
		return err
	}
	ballast := filepath.Join(dir, "ballast")
	if err := os.WriteFile(ballast, make([]byte, 300<<10), 0o600); err != nil {
		return err
	}
	kept := 0
	for err == nil {
		_, err = s.Append(ctx, "pedlar", int64(kept), []journal.Entry{sample(strings.Repeat("x", 5000))})
		if err == nil {
			kept++
		}
	}
	_, another := Open(ctx, filepath.Join(dir, "another.db"))
	copied := s.Backup(ctx, filepath.Join(dir, "copy.db"))
	for _, err := range []error{err, another, copied} {
		if fault.KindOf(err) != fault.Internal || !strings.Contains(fmt.Sprint(err), "the disk is full") || fault.HintOf(err) == "" {
			return fmt.Errorf("full disk: got %v (hint %q)", err, fault.HintOf(err))
		}
	}
	fmt.Printf("%d entries until: %v; %s\n", kept, err, fault.HintOf(err))
	if err := os.Remove(ballast); err != nil {
		return err
	}
	if _, err := s.Append(ctx, "pedlar", int64(kept), []journal.Entry{sample("room again")}); err != nil {
		return fmt.Errorf("with room again: %w", err)
	}
	if problems, err := s.Check(ctx); err != nil || len(problems) > 0 {
		return fmt.Errorf("check: %v %v", problems, err)
	}
	return s.Close()
}

// readOnlyDisk opens a store on a disk that may only be read: a new one and one
// that is there.
func readOnlyDisk(dir string) error {
	if err := mount(dir, "size=8m", 0); err != nil {
		return err
	}
	ctx := context.Background()
	there := filepath.Join(dir, "there.db")
	s, err := Open(ctx, there)
	if err != nil {
		return err
	}
	if err := s.Close(); err != nil {
		return err
	}
	if err := mount(dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY); err != nil {
		return err
	}
	for _, path := range []string{there, filepath.Join(dir, "new.db")} {
		_, err := Open(ctx, path)
		if fault.KindOf(err) != fault.Denied || fault.HintOf(err) == "" {
			return fmt.Errorf("read-only %s: got %v (%v, hint %q)", filepath.Base(path), err, fault.KindOf(err), fault.HintOf(err))
		}
		fmt.Printf("%v; %s\n", err, fault.HintOf(err))
	}
	return nil
}
