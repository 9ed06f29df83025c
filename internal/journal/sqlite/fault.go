package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"syscall"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"

	"fettle/fault"
)

// verdict is what an error of the database means to a person.
type verdict struct {
	kind      fault.Kind
	msg, hint string
}

// verdictOf sorts the primary result codes of SQLite; the text of the driver is
// never looked at.
func verdictOf(code int) (verdict, bool) {
	switch code & 0xff {
	case lib.SQLITE_NOTADB:
		return verdict{fault.Invalid, "this file is not a journal", "name the right file, or restore a backup"}, true
	case lib.SQLITE_CORRUPT:
		return verdict{fault.Internal, "the journal's file is damaged", "stop, keep a copy of the file, and restore the last backup"}, true
	case lib.SQLITE_FULL:
		return verdict{fault.Internal, "the disk is full; nothing was kept", "make room on the disk, then try again"}, true
	case lib.SQLITE_READONLY, lib.SQLITE_PERM, lib.SQLITE_AUTH:
		return verdict{fault.Denied, "the journal may not be written", "give the program the right to write the file and its folder"}, true
	case lib.SQLITE_CANTOPEN:
		return verdict{fault.Denied, "the journal cannot be opened", "give the program the right to write the file and its folder"}, true
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED:
		return verdict{fault.Interrupted, "another program is writing the journal", "wait a moment, then try again"}, true
	case lib.SQLITE_INTERRUPT:
		return verdict{fault.Interrupted, "stopped before it was done", ""}, true
	case lib.SQLITE_IOERR:
		return verdict{fault.Internal, "the disk did not answer as it should", "look at the disk and its cable, and make a backup"}, true
	}
	return verdict{}, false
}

// fault turns any error into a fault with the journal's path; a fault stays as
// it is.
func (s *Store) fault(err error, attempted string) error {
	if err == nil {
		return nil
	}
	if f, ok := errors.AsType[*fault.Fault](err); ok {
		return f
	}
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) || errors.Is(err, sql.ErrTxDone) {
		return fault.Wrap(fault.Interrupted, err, attempted)
	}
	if e, ok := errors.AsType[*sqlite.Error](err); ok {
		if v, ok := verdictOf(e.Code()); ok {
			return &fault.Fault{Kind: v.kind, Where: s.path, Msg: v.msg, Hint: v.hint, Cause: err}
		}
	}
	return fault.Wrap(fault.Internal, err, attempted)
}

// barred turns an error of the file system into the fault SQLite's own would be.
func barred(path string, err error) error {
	code := lib.SQLITE_IOERR
	switch {
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		code = lib.SQLITE_READONLY
	case errors.Is(err, syscall.ENOSPC):
		code = lib.SQLITE_FULL
	}
	v, _ := verdictOf(code)
	return &fault.Fault{Kind: v.kind, Where: path, Msg: v.msg, Hint: v.hint, Cause: err}
}
