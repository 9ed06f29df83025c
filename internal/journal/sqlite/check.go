package sqlite

import (
	"context"
	"database/sql"
	"fmt"

	"fettle/internal/journal"
)

// Check reads the whole store in one view and returns what is wrong with it:
// pages and indexes (PRAGMA integrity_check), references, sequences with gaps,
// entries whose content does not match its digest or breaks a rule of form.
// None means sound. An error means that the check could not be finished.
func (s *Store) Check(ctx context.Context) ([]journal.Problem, error) {
	tx, err := s.read.BeginTx(ctx, nil)
	if err != nil {
		return nil, s.fault(err, "check the journal")
	}
	defer tx.Rollback()
	var all []journal.Problem
	for _, check := range []func(context.Context, *sql.Tx) ([]journal.Problem, error){
		checkPages, checkReferences, checkSequences, checkEntries,
	} {
		found, err := check(ctx, tx)
		all = append(all, found...)
		if err != nil {
			return all, s.fault(err, "check the journal")
		}
	}
	return all, nil
}

func checkPages(ctx context.Context, tx *sql.Tx) ([]journal.Problem, error) {
	rows, err := tx.QueryContext(ctx, "PRAGMA integrity_check")
	lines, err := collect(rows, err, func(scan scanner) (line string, err error) {
		return line, scan(&line)
	})
	var out []journal.Problem
	for _, line := range lines {
		if line != "ok" {
			out = append(out, journal.Problem{Where: "database file", What: line})
		}
	}
	return out, err
}

func checkReferences(ctx context.Context, tx *sql.Tx) ([]journal.Problem, error) {
	rows, err := tx.QueryContext(ctx, "PRAGMA foreign_key_check")
	return collect(rows, err, func(scan scanner) (journal.Problem, error) {
		var table, parent string
		var row, key sql.NullInt64
		err := scan(&table, &row, &parent, &key)
		return journal.Problem{
			Where: fmt.Sprintf("table %s, row %d", table, row.Int64),
			What:  "refers to a row of " + parent + " that is not there",
		}, err
	})
}

func checkSequences(ctx context.Context, tx *sql.Tx) ([]journal.Problem, error) {
	rows, err := tx.QueryContext(ctx, `SELECT build, before, seq FROM
		(SELECT build, seq, LAG(seq, 1, 0) OVER (PARTITION BY build ORDER BY seq) AS before FROM entry)
		WHERE seq <> before + 1 ORDER BY build, seq`)
	return collect(rows, err, func(scan scanner) (journal.Problem, error) {
		var build string
		var before, seq int64
		err := scan(&build, &before, &seq)
		return journal.Problem{
			Where: fmt.Sprintf("%s, entry %d", build, seq),
			What:  fmt.Sprintf("%d entries before it are missing", seq-before-1),
		}, err
	})
}

func checkEntries(ctx context.Context, tx *sql.Tx) ([]journal.Problem, error) {
	rows, err := tx.QueryContext(ctx, "SELECT "+columns+" FROM entry ORDER BY build, seq")
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []journal.Problem
	for rows.Next() {
		e, err := scanSealed(rows.Scan)
		if err != nil {
			return out, err
		}
		if what := unsound(e); what != "" {
			out = append(out, journal.Problem{Where: fmt.Sprintf("%s, entry %d", e.Build, e.Seq), What: what})
		}
	}
	return out, rows.Err()
}

func unsound(e journal.Sealed) string {
	if journal.Seal(e.Entry).Digest != e.Digest {
		return "its content does not match its digest: it was changed or damaged after it was kept"
	}
	if err := e.Validate(); err != nil {
		return err.Error()
	}
	return ""
}
