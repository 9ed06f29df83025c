package build

// Start is the first entry of every build: all the facts it begins with.
type Start struct {
	Build Build `json:"build"`
}

// Kind names the act.
func (c *Start) Kind() string { return "start" }

// Say tells what the change does.
func (c *Start) Say(*Build) string { return "Build opened: " + c.Build.Title }

// Apply sets the facts of an empty build.
func (c *Start) Apply(b *Build) error {
	if b.Name != "" {
		return rule(ruleOrder, "the build %s is open already", b.Name)
	}
	if err := c.Build.Validate(); err != nil {
		return err
	}
	*b = c.Build.Clone()
	return nil
}
