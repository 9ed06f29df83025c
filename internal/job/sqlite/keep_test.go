package sqlite

import (
	"database/sql"
	"log/slog"
	"testing"
)

// TestKeeper_KeepsWhatCannotBeStored: work is not done before its result is
// stored, and the result is not given up.
func TestKeeper_KeepsWhatCannotBeStored(t *testing.T) {
	db, err := sql.Open("sqlite", ":memory:")
	if err != nil {
		t.Fatal(err)
	}
	db.Close()
	k := &keeper{q: &Queue{write: db, c: Config{Log: slog.New(slog.DiscardHandler)}}, key: "k", number: 1, end: make(chan struct{})}
	k.report([]byte("7"))
	if err := k.close(); err == nil || string(k.best) != "7" {
		t.Errorf("closed with %v, %q is left", err, k.best)
	}
}
