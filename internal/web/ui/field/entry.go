package field

import "github.com/google/uuid"

// NewEntry makes the ID of an entry that is about to be filled in. A form that
// carries it counts once however often it is sent.
func NewEntry() string { return uuid.Must(uuid.NewV7()).String() }
