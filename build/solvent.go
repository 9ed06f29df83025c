package build

// SolventClassID names a class of the table of solvent limits.
type SolventClassID string

// SolventClass is the most solvent that a class of paint may hold, ready to
// spray.
type SolventClass struct {
	ID     SolventClassID `json:"id"`
	Name   string         `json:"name"`
	Most   float64        `json:"most_g_l"`
	Staged bool           `json:"staged,omitempty"` // base, mid coats and clear are taken as one topcoat
	Note   string         `json:"note,omitempty"`
}

// SolventLimits is the owner's table of solvent limits: the owner's text. No
// rule is known or applied here.
type SolventLimits struct {
	Title   string         `json:"title"`
	Note    string         `json:"note"` // whose rule it is, and since when
	Classes []SolventClass `json:"classes"`
}

// SolventClass returns the class of that ID, or nil.
func (b *Build) SolventClass(id SolventClassID) *SolventClass {
	return find(b.Solvent.Classes, id, func(c *SolventClass) SolventClassID { return c.ID })
}
