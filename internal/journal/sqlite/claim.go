package sqlite

import (
	"context"
	"errors"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"
)

// Claim claims a task of the machine, such as its long work, for this process:
// of all that have this journal open, one at a time has it. ok is false while
// another has it. It is let go of by release, and by the system when the
// process ends, however it ends. The lock lies in a file of that name beside
// the journal, which stays.
func (s *Store) Claim(ctx context.Context, task string) (release func(), ok bool, err error) {
	db, err := pool(s.path+"-"+task, claiming, 1)
	if err != nil {
		return nil, false, err
	}
	conn, err := db.Conn(ctx)
	if err == nil {
		// The transaction lasts as long as the claim and writes nothing.
		_, err = conn.ExecContext(ctx, "BEGIN EXCLUSIVE")
	}
	if err == nil {
		return func() { conn.Close(); db.Close() }, true, nil
	}
	if conn != nil {
		conn.Close()
	}
	db.Close()
	if e, is := errors.AsType[*sqlite.Error](err); is && e.Code()&0xff == lib.SQLITE_BUSY {
		return nil, false, nil
	}
	return nil, false, s.fault(err, "claim the "+task)
}
