package schedule

// idea is a part of the search that a measurement can leave out.
type idea uint8

const (
	ruleLists idea = 1 << iota // lists by priority rules
	wayGene                    // the generation as a gene; without it all is serial
	peaks                      // peak crossover; without it two points
	pushing                    // children inherit from the plan pushed to the end; without it from the plan
	emptyEnd                   // of equal plans the one with the emptier end
	windows                    // windows laid anew
	inFull                     // small problems searched in full
)

func (i *island) has(x idea) bool { return i.without&x == 0 }
