package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"io/fs"

	"github.com/pressly/goose/v3"

	"fettle/fault"
)

//go:embed migration/*.sql
var migrations embed.FS

// versions is the table in which the applied migrations are noted.
const versions = "migration"

// attempts lets processes that start at once on a new file settle who makes
// it: the losers find the work done on their next look.
const attempts = 5

// migrate applies what is missing, each migration in a transaction of its own.
func migrate(ctx context.Context, db *sql.DB) error {
	p, err := provider(db)
	if err != nil {
		return err
	}
	for range attempts {
		if _, err = p.Up(ctx); err == nil || ctx.Err() != nil {
			return err
		}
	}
	return err
}

func provider(db *sql.DB) (*goose.Provider, error) {
	files, err := fs.Sub(migrations, "migration")
	if err != nil {
		return nil, fault.Wrap(fault.Internal, err, "read the migrations")
	}
	return goose.NewProvider(goose.DialectSQLite3, db, files,
		goose.WithTableName(versions), goose.WithDisableGlobalRegistry(true), goose.WithLogger(goose.NopLogger()))
}

// newest is the number of the last migration this program knows.
func newest() (int64, error) {
	files, err := fs.Glob(migrations, "migration/*.sql")
	if err != nil || len(files) == 0 {
		return 0, fault.New(fault.Internal, "the program holds no migrations")
	}
	return goose.NumericComponent(files[len(files)-1])
}
