package memory_test

import (
	"testing"

	"fettle/internal/journal"
	"fettle/internal/journal/memory"
	"fettle/internal/journal/storetest"
)

func TestStore(t *testing.T) {
	storetest.Run(t, func(*testing.T) journal.Store { return memory.New() })
	storetest.RunPhotos(t, func(*testing.T) journal.Photos { return memory.New() })
}
