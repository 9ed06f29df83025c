package sqlite

import (
	"context"
	"database/sql"
	"fmt"
	"net/url"
	"path/filepath"
	"strings"

	_ "modernc.org/sqlite" // the driver named "sqlite"

	"fettle/fault"
)

// The parameters of the two pools. The driver ignores unknown keys without a
// word; testPragmas reads back what matters.
const (
	common   = "_pragma=busy_timeout(5000)&_pragma=foreign_keys(1)&_pragma=synchronous(FULL)&_error_rc=1&_dqs=0"
	writing  = "_pragma=journal_mode(WAL)&_txlock=immediate&" + common
	reading  = "mode=rw&_pragma=query_only(1)&" + common
	looking  = "mode=rw&_pragma=busy_timeout(5000)&_error_rc=1" // changes nothing in a file that may not be ours
	claiming = "_error_rc=1"
)

func pool(path, params string, size int) (*sql.DB, error) {
	name, err := address(path, params)
	if err != nil {
		return nil, err
	}
	db, err := sql.Open("sqlite", name)
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "open the journal")
	}
	db.SetMaxOpenConns(size)
	db.SetMaxIdleConns(size)
	return db, nil
}

// address writes a path as the file URI SQLite reads, with the letters that
// mean something in a URI escaped.
func address(path, params string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", fault.Wrap(fault.Invalid, err, "find the journal")
	}
	p := filepath.ToSlash(abs)
	if !strings.HasPrefix(p, "/") {
		p = "/" + p // C:/shop becomes /C:/shop
	}
	return (&url.URL{Scheme: "file", Path: p}).String() + "?" + params, nil
}

// pragma is a setting that durability or safety rests on, read back at start-up.
type pragma struct{ name, want string }

func (s *Store) testPragmas(ctx context.Context) error {
	always := []pragma{
		{"journal_mode", "wal"}, {"synchronous", "2"}, {"foreign_keys", "1"}, {"busy_timeout", "5000"},
	}
	if err := s.test(ctx, s.write, append(always, pragma{"query_only", "0"})); err != nil {
		return err
	}
	return s.test(ctx, s.read, append(always, pragma{"query_only", "1"}))
}

func (s *Store) test(ctx context.Context, db *sql.DB, want []pragma) error {
	for _, p := range want {
		var got string
		if err := db.QueryRowContext(ctx, "PRAGMA "+p.name).Scan(&got); err != nil {
			return s.fault(err, "test the journal's settings")
		}
		if got != p.want {
			return fault.New(fault.Internal, "the journal's %s is %s and must be %s", p.name, got, p.want).
				At(s.path).WithHint(fmt.Sprintf("keep the journal on a local disk: some network disks cannot hold %s", p.name))
		}
	}
	return nil
}
