package sqlite_test

import (
	"path/filepath"
	"testing"
	"time"

	"fettle/fault"
	"fettle/internal/account"
	"fettle/internal/account/sqlite"
	journal "fettle/internal/journal/sqlite"
)

func open(t *testing.T) *journal.Store {
	t.Helper()
	j, err := journal.Open(t.Context(), filepath.Join(t.TempDir(), "journal.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
	return j
}

var then = time.Date(2026, 10, 6, 8, 10, 0, 0, time.UTC)

func made(id, code string, role account.Role) account.Account {
	return account.Account{Person: account.Person{ID: id, Code: code, Name: "Person " + id, Role: role, PIN: true}, Hash: "h-" + id, Changed: then}
}

func kind(err error) string {
	if err == nil {
		return "good"
	}
	return fault.KindOf(err).String()
}

func TestStore(t *testing.T) {
	j := open(t)
	s := sqlite.New(j.Write(), j.Read())
	ctx := t.Context()
	steps := []struct {
		name string
		do   func() error
		want string
	}{
		{"nobody yet", func() error { _, err := s.Account(ctx, "1"); return err }, "not found"},
		{"first", func() error { return s.First(ctx, made("1", "LD", account.Owner)) }, "good"},
		{"a second first", func() error { return s.First(ctx, made("9", "XX", account.Owner)) }, "conflict"},
		{"crew", func() error { return s.Add(ctx, made("2", "MW", account.Crew)) }, "good"},
		{"same initials", func() error { return s.Add(ctx, made("3", "MW", account.Crew)) }, "conflict"},
		{"same ID", func() error { return s.Add(ctx, made("2", "PT", account.Crew)) }, "conflict"},
		{"no role", func() error { return s.Add(ctx, made("4", "PT", account.Anyone)) }, "invalid"},
		{"last owner", func() error { return s.Remove(ctx, "1") }, "conflict"},
		{"unknown", func() error { return s.Remove(ctx, "8") }, "not found"},
		{"new PIN", func() error { return s.SetHash(ctx, "2", "new", true, then.Add(time.Hour)) }, "good"},
		{"PIN of nobody", func() error { return s.SetHash(ctx, "8", "new", true, then) }, "not found"},
	}
	for _, st := range steps {
		if got := kind(st.do()); got != st.want {
			t.Errorf("%s: got %s, want %s", st.name, got, st.want)
		}
	}
	a, err := s.Account(ctx, "2")
	want := made("2", "MW", account.Crew)
	want.Hash, want.Changed = "new", then.Add(time.Hour)
	if err != nil || a != want {
		t.Errorf("got %+v, %v, want %+v", a, err, want)
	}
	people, err := s.People(ctx)
	if err != nil || len(people) != 2 || people[0].ID != "1" || people[1].ID != "2" {
		t.Errorf("people by name: %+v, %v", people, err)
	}
	if err := s.Remove(ctx, "2"); err != nil {
		t.Error(err)
	}
}

func TestSessions(t *testing.T) {
	j := open(t)
	now := then
	s := sqlite.NewSessions(j.Write(), j.Read(), func() time.Time { return now })
	ctx := t.Context()
	if err := s.CommitCtx(ctx, "token", []byte("a"), then.Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	if err := s.CommitCtx(ctx, "token", []byte("b"), then.Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	if data, found, err := s.FindCtx(ctx, "token"); string(data) != "b" || !found || err != nil {
		t.Errorf("got %q, %v, %v", data, found, err)
	}
	var plain int
	if err := j.Read().QueryRow("SELECT count(*) FROM session WHERE token = $1", []byte("token")).Scan(&plain); err != nil || plain != 0 {
		t.Errorf("the token stands in the file as it is: %d, %v", plain, err)
	}
	now = then.Add(2 * time.Hour)
	if _, found, _ := s.FindCtx(ctx, "token"); found {
		t.Error("an ended session was found")
	}
	if err := s.CommitCtx(ctx, "other", nil, now.Add(time.Hour)); err == nil {
		t.Error("a session without data was kept")
	}
	if err := s.CommitCtx(ctx, "other", []byte("c"), now.Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	var left int
	if err := j.Read().QueryRow("SELECT count(*) FROM session").Scan(&left); err != nil || left != 1 {
		t.Errorf("%d sessions left, want the ended one swept out", left)
	}
	if err := s.DeleteCtx(ctx, "other"); err != nil {
		t.Error(err)
	}
	if _, found, _ := s.FindCtx(ctx, "other"); found {
		t.Error("a deleted session was found")
	}
}
