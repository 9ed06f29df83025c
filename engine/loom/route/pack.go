package route

import (
	"cmp"
	"context"
	"encoding/binary"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"fettle/engine/loom/circles"
	"fettle/geom"
)

// packs packs bundles, each set of diameters once.
type packs struct {
	starts int
	known  map[string]packed
}

type packed struct {
	diameter float64
	at       []geom.Point // of diameters in falling order
}

// bundle is what a set of wires is packed as.
type bundle struct {
	d     []float64 // diameters in falling order
	place []int     // of each in the set
	key   string    // under which the packing is kept
}

func (g *given) bundle(wires []int) bundle {
	b := bundle{d: make([]float64, len(wires)), place: make([]int, len(wires))}
	for i := range b.place {
		b.place[i] = i
	}
	outside := func(i int) float64 { return g.p.Wires[wires[i]].Outside }
	slices.SortStableFunc(b.place, func(x, y int) int { return cmp.Compare(outside(y), outside(x)) })
	key := make([]byte, 0, 8*len(wires))
	for i, at := range b.place {
		b.d[i] = outside(at)
		key = binary.BigEndian.AppendUint64(key, math.Float64bits(b.d[i]))
	}
	b.key = string(key)
	return b
}

// pack returns the diameter of a bundle, and where each of its wires lies, in
// rising order of the wires.
func (k *packs) pack(b bundle) (float64, []geom.Point, error) {
	got, ok := k.known[b.key]
	if !ok {
		p, err := circles.Pack(b.d, circles.Options{Starts: k.starts})
		if err != nil {
			return 0, nil, err
		}
		got = packed{p.Diameter, p.At}
		k.known[b.key] = got
	}
	at := make([]geom.Point, len(b.d))
	for i, j := range b.place {
		at[j] = got.at[i]
	}
	return got.diameter, at, nil
}

// packers is how many bundles are packed side by side.
const packers = 2

// ahead packs those of many bundles that are new, side by side. What cannot be
// packed is left to pack, which says why.
func (k *packs) ahead(ctx context.Context, all []bundle) {
	var todo []bundle
	asked := map[string]bool{}
	for _, b := range all {
		if _, ok := k.known[b.key]; !ok && !asked[b.key] {
			asked[b.key] = true
			todo = append(todo, b)
		}
	}
	got := make([]packed, len(todo))
	var next atomic.Int64
	var wait sync.WaitGroup
	for range packers {
		wait.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(todo)) && ctx.Err() == nil; i = next.Add(1) - 1 {
				if p, err := circles.Pack(todo[i].d, circles.Options{Starts: k.starts}); err == nil {
					got[i] = packed{p.Diameter, p.At}
				}
			}
		})
	}
	wait.Wait()
	for i, b := range todo {
		if got[i].at != nil {
			k.known[b.key] = got[i]
		}
	}
}
