package journal

import (
	"context"
	"regexp"
	"time"

	"fettle/fault"
)

// Photo is the record of a photo or scan in the vault.
type Photo struct {
	Hash   string    `json:"hash"` // SHA-256 in lower-case hex
	Size   int64     `json:"size"` // bytes
	Media  string    `json:"media"`
	Kept   time.Time `json:"kept"` // when it was first kept, millisecond UTC
	Person string    `json:"person"`
}

// Photos keeps the records of photos; the photos themselves are in the vault.
type Photos interface {
	// SavePhoto keeps a record; one that is there already stays as it was.
	// Kept is filled in when it is zero.
	SavePhoto(ctx context.Context, p Photo) error
	// Photo returns a record, or NotFound.
	Photo(ctx context.Context, hash string) (Photo, error)
	// Photos lists all records by hash.
	Photos(ctx context.Context) ([]Photo, error)
}

var hashForm = regexp.MustCompile(`^[0-9a-f]{64}$`)

// Validate checks a photo's hash, size, media type and person.
func (p Photo) Validate() error {
	switch {
	case !hashForm.MatchString(p.Hash):
		return fault.New(fault.Invalid, "%q is not a SHA-256 in lower-case hex", clip(p.Hash)).At("hash")
	case p.Size < 1:
		return fault.New(fault.Invalid, "a photo of %d bytes is empty", p.Size).At("size")
	case p.Media == "" || brokenLine(p.Media) != "":
		return fault.New(fault.Invalid, "%q is not a media type", clip(p.Media)).At("media")
	case brokenPerson(p.Person) != "":
		return fault.New(fault.Invalid, "%s", brokenPerson(p.Person)).At("person")
	}
	return nil
}

// Problem is something a check of a store found wrong.
type Problem struct {
	Where string `json:"where"` // such as "pedlar, entry 12"
	What  string `json:"what"`  // one sentence for a person
}
