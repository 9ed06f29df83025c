package paint

import (
	"fettle/build"
	"fettle/takeoff/sprayout"
)

// CoatsToHide returns the fewest coats of a product that hide an undercoat, by
// its cards. Faults are those of sprayout: no card, flakes, an undercoat that
// nobody read.
func CoatsToHide(b *build.Build, id, under build.ProductID) (int, error) {
	return sprayout.Read(b).ToHide(id, under)
}
