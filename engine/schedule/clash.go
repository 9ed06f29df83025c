package schedule

// air is the state of one clash in a parallel generation: until when dust is
// made and clean work runs, 0 by what was open and 1 by what had started before
// now, of which two may stand against each other.
type air struct {
	dirty, clean [2]Minute
	calm         bool   // an earlier clean activity waits for the air and for nothing else
	due          Minute // when it gets it; Never while dust is being made
}

const noDust = -limit - 1 // before anything could have been dirty

// vent lists the clashes of every activity.
func (n *net) vent() {
	if len(n.Clashes) == 0 {
		return
	}
	n.dirty, n.clean = make([][]int, len(n.Activities)), make([][]int, len(n.Activities))
	for c, k := range n.Clashes {
		for _, j := range k.Dirty {
			n.dirty[j] = append(n.dirty[j], c)
		}
		for _, j := range k.Clean {
			n.clean[j] = append(n.clean[j], c)
		}
	}
}

// aired says that an activity makes dust or needs clean air.
func (n *net) aired(j int) bool {
	return n.dirty != nil && len(n.dirty[j])+len(n.clean[j]) > 0
}

// settled is when the air is clean after dust that was over at a moment.
func (n *net) settled(c int, over Minute) Minute {
	if over == noDust {
		return over
	}
	return n.clock(n.Clashes[c].Calendar).after(over, n.Clashes[c].Settle)
}

// ventilate begins with the dust of what is done.
func (r *run) ventilate() {
	for c := range r.air {
		r.air[c] = air{dirty: [2]Minute{noDust, noDust}, clean: [2]Minute{noDust, noDust}}
		for _, j := range r.n.Clashes[c].Dirty {
			if a := &r.n.Activities[j]; a.State == Done && a.Finish > a.Start {
				r.air[c].dirty[1] = max(r.air[c].dirty[1], a.Finish)
			}
		}
	}
}

// stale forgets who waits for the air; the next look at the list finds out.
func (r *run) stale() {
	for c := range r.air {
		r.air[c].calm = false
	}
}

// breathe returns t when the air lets j begin, or the next moment worth a look.
// A clean activity that waits for the air only keeps those after it in the list
// from making dust that would hold it up longer.
func (r *run) breathe(j int, t Minute) Minute {
	a, wake := &r.n.Activities[j], t
	if a.Work == 0 && !a.Extra.given() {
		return t
	}
	for _, c := range r.n.dirty[j] {
		v := &r.air[c]
		if until := last(v.clean, a.State); until > t {
			wake = max(wake, until)
		}
		if v.calm && a.State == Open && (v.due >= Never || r.n.settled(c, r.expected(j, t)) > v.due) {
			hold := v.due
			if hold >= Never { // nobody knows how long the dust will take
				hold = last(v.dirty, Open)
			}
			wake = max(wake, hold)
		}
	}
	for _, c := range r.n.clean[j] {
		v := &r.air[c]
		over := last(v.dirty, a.State)
		free := over
		if over <= t && a.State == Open {
			free = r.n.settled(c, over)
		}
		if free <= t {
			continue
		}
		wake = max(wake, free)
		if over > t {
			v.calm, v.due = true, Never
		} else if free < Never {
			v.calm, v.due = true, free
		}
	}
	return wake
}

// last is the later end: a fact does not look at facts.
func last(until [2]Minute, s State) Minute {
	if s == Open {
		return max(until[0], until[1])
	}
	return until[0]
}

// exhale notes that j fills the air until end.
func (r *run) exhale(j int, end Minute) {
	fact := 0
	if r.n.Activities[j].State != Open {
		fact = 1
	}
	for _, c := range r.n.dirty[j] {
		r.air[c].dirty[fact] = max(r.air[c].dirty[fact], end)
	}
	for _, c := range r.n.clean[j] {
		r.air[c].clean[fact] = max(r.air[c].clean[fact], end)
	}
}

// spoils says that j, begun at t, could foul the air for q when q is due, or
// need it clean when q will make dust.
func (r *run) spoils(q, j int, end Minute) bool {
	if r.n.dirty == nil {
		return false
	}
	for _, c := range r.n.dirty[j] {
		if has(r.n.clean[q], c) && r.n.settled(c, end) > r.ready[q] {
			return true
		}
	}
	for _, c := range r.n.clean[j] {
		if has(r.n.dirty[q], c) && end > r.ready[q] {
			return true
		}
	}
	return false
}

func has(list []int, x int) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}

// lungs is what breathe is for serial generation: it returns t when j may run
// from t to end among what is placed, or a later moment to try.
func (r *run) lungs(j int, t, end Minute) Minute {
	if r.n.dirty == nil || t == end {
		return t
	}
	for _, c := range r.n.dirty[j] {
		for _, q := range r.n.Clashes[c].Clean {
			if r.apart(j, q) {
				continue
			}
			if r.resume[q] < end && t < r.finish[q] || r.resume[q] >= end && r.n.Activities[q].State == Open && r.n.settled(c, end) > r.resume[q] {
				return r.finish[q]
			}
		}
	}
	for _, c := range r.n.clean[j] {
		for _, d := range r.n.Clashes[c].Dirty {
			if r.apart(j, d) || r.resume[d] >= end {
				continue
			}
			if t < r.finish[d] {
				return r.finish[d]
			}
			if at := r.n.settled(c, r.finish[d]); at > t && r.n.Activities[j].State == Open {
				return at
			}
		}
	}
	return t
}

// apart says that two activities of a clash cannot meet: one is not placed or
// takes no time, or both are facts.
func (r *run) apart(j, i int) bool {
	facts := r.n.Activities[j].State != Open && r.n.Activities[i].State != Open
	return facts || r.finish[i] >= Never || r.resume[i] == r.finish[i]
}

// byAir blames the dust before a clean start, and the clean work before a dirty one.
func (r *run) byAir(j int, b *Binding) {
	if r.n.dirty == nil || r.resume[j] == r.finish[j] {
		return
	}
	blame := func(i int, at Minute) {
		if !r.apart(j, i) && at > b.At && at <= r.resume[j] {
			*b = Binding{Cause: ByAir, Activity: i, Link: -1, Person: -1, Place: -1, At: at}
		}
	}
	for _, c := range r.n.dirty[j] {
		for _, q := range r.n.Clashes[c].Clean {
			blame(q, r.finish[q])
		}
	}
	for _, c := range r.n.clean[j] {
		for _, d := range r.n.Clashes[c].Dirty {
			if r.finish[d] < Never {
				blame(d, r.n.settled(c, r.finish[d]))
			}
		}
	}
}
