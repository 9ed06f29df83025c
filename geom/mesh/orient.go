package mesh

import "slices"

// Turned says what Orient did.
type Turned struct {
	Faces     []int32 // that were turned over to agree with the more of their component
	InsideOut int     // closed components that were turned as a whole
	Place     Vec     // of the first of those
	OneSided  []int32 // half-edges at which no turning helps, as on a Möbius band
}

// Orient makes the faces of every component run one way: that of the more of
// them, or outside out where the component is closed. Only edges of two faces
// tie a component together.
func (m Mesh) Orient() (Mesh, Turned) {
	a := m.Adjacency()
	across := make([]int32, len(a.Tail)) // whichever way they run
	for h := range across {
		across[h] = None
	}
	a.eachEdge(func(edge []int32) {
		if len(edge) == 2 && edge[0]/3 != edge[1]/3 {
			across[edge[0]], across[edge[1]] = edge[1], edge[0]
		}
	})
	o := orienter{a: a, across: across, turn: make([]int8, len(m.Faces))}
	out := Mesh{Points: m.Points, Faces: slices.Clone(m.Faces)}
	for f := range m.Faces {
		if o.turn[f] == 0 {
			o.component(int32(f), out)
		}
	}
	slices.Sort(o.did.Faces)
	return out, o.did
}

type orienter struct {
	a      Adjacency
	across []int32
	turn   []int8 // by face: 1 as it is, -1 turned over, 0 not yet known
	did    Turned
}

// component turns the faces that hang together with f.
func (o *orienter) component(f int32, m Mesh) {
	faces, turned, closed := []int32{f}, 0, true
	o.turn[f] = 1
	for i := 0; i < len(faces); i++ {
		f := faces[i]
		if o.turn[f] < 0 {
			turned++
		}
		for h := 3 * f; h < 3*f+3; h++ {
			g := o.across[h]
			if g == None {
				closed = false
				continue
			}
			want := o.turn[f]
			if o.a.Tail[g] == o.a.Tail[h] {
				want = -want
			}
			switch o.turn[g/3] {
			case 0:
				o.turn[g/3] = want
				faces = append(faces, g/3)
			case -want:
				o.did.OneSided, closed = append(o.did.OneSided, h), false
			}
		}
	}
	less := int8(-1)
	if 2*turned > len(faces) {
		less = 1
	}
	var did []int32
	for _, f := range faces {
		if o.turn[f] == less {
			m.Faces[f] = m.Faces[f].Flip()
			did = append(did, f)
		}
	}
	if part := (Mesh{m.Points, pick(m.Faces, faces)}); closed && part.Volume() < 0 {
		for _, f := range faces {
			m.Faces[f] = m.Faces[f].Flip()
		}
		if o.did.InsideOut++; o.did.InsideOut == 1 {
			o.did.Place = m.centre(m.Faces[f])
		}
	}
	o.did.Faces = append(o.did.Faces, did...)
}

func pick(all []Face, which []int32) []Face {
	list := make([]Face, len(which))
	for i, f := range which {
		list[i] = all[f]
	}
	return list
}
