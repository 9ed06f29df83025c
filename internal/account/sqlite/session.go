package sqlite

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"time"
)

// Sessions keeps the sessions of tablets, for the session manager
// alexedwards/scs, whose contract its methods follow.
type Sessions struct {
	write, read *sql.DB
	now         func() time.Time
}

// NewSessions returns a session store over the same pools as New; now nil is
// the clock.
func NewSessions(write, read *sql.DB, now func() time.Time) *Sessions {
	if now == nil {
		now = time.Now
	}
	return &Sessions{write: write, read: read, now: now}
}

func key(token string) []byte {
	sum := sha256.Sum256([]byte(token))
	return sum[:]
}

// FindCtx returns what a session holds, and whether it exists and has not ended.
func (s *Sessions) FindCtx(ctx context.Context, token string) (data []byte, found bool, err error) {
	err = s.read.QueryRowContext(ctx, "SELECT data FROM session WHERE token = $1 AND ends > $2",
		key(token), s.now().UnixMilli()).Scan(&data)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, false, nil
	}
	return data, err == nil, wrap(err, "find the session")
}

// CommitCtx keeps a session and sweeps out those that have ended.
func (s *Sessions) CommitCtx(ctx context.Context, token string, data []byte, ends time.Time) error {
	_, err := s.write.ExecContext(ctx, `INSERT INTO session (token, data, ends) VALUES ($1, $2, $3)
		ON CONFLICT (token) DO UPDATE SET data = excluded.data, ends = excluded.ends`, key(token), data, ends.UnixMilli())
	if err == nil {
		_, err = s.write.ExecContext(ctx, "DELETE FROM session WHERE ends <= $1", s.now().UnixMilli())
	}
	return wrap(err, "keep the session")
}

// DeleteCtx ends a session.
func (s *Sessions) DeleteCtx(ctx context.Context, token string) error {
	_, err := s.write.ExecContext(ctx, "DELETE FROM session WHERE token = $1", key(token))
	return wrap(err, "end the session")
}

// Find is FindCtx without a context.
func (s *Sessions) Find(token string) ([]byte, bool, error) {
	return s.FindCtx(context.Background(), token)
}

// Commit is CommitCtx without a context.
func (s *Sessions) Commit(token string, data []byte, ends time.Time) error {
	return s.CommitCtx(context.Background(), token, data, ends)
}

// Delete is DeleteCtx without a context.
func (s *Sessions) Delete(token string) error { return s.DeleteCtx(context.Background(), token) }
