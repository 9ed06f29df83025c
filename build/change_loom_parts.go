package build

import "fmt"

// SetConsumer enters a consumer, or enters it anew.
type SetConsumer struct {
	Consumer Consumer `json:"consumer"`
}

// Kind names the act.
func (c *SetConsumer) Kind() string { return "set-consumer" }

// Say tells what the change does.
func (c *SetConsumer) Say(*Build) string {
	return fmt.Sprintf("%s: %s", c.Consumer.Name, takes(c.Consumer))
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetConsumer) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Consumers = put(b.Loom.Consumers, c.Consumer, (*Consumer).key) })
}

// SetBattery enters a battery, or enters it anew.
type SetBattery struct {
	Battery Battery `json:"battery"`
}

// Kind names the act.
func (c *SetBattery) Kind() string { return "set-battery" }

// Say tells what the change does.
func (c *SetBattery) Say(*Build) string {
	return fmt.Sprintf("%s: %g Ah", c.Battery.Name, c.Battery.AmpHours)
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetBattery) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Batteries = put(b.Loom.Batteries, c.Battery, (*Battery).key) })
}

// SetAlternator enters an alternator or dynamo, or enters it anew.
type SetAlternator struct {
	Alternator Alternator `json:"alternator"`
}

// Kind names the act.
func (c *SetAlternator) Kind() string { return "set-alternator" }

// Say tells what the change does.
func (c *SetAlternator) Say(*Build) string {
	return fmt.Sprintf("%s: %g A", c.Alternator.Name, c.Alternator.Rated)
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetAlternator) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Alternators = put(b.Loom.Alternators, c.Alternator, (*Alternator).key) })
}

// SetFuseBox enters a fuse box, or enters it anew.
type SetFuseBox struct {
	FuseBox FuseBox `json:"box"`
}

// Kind names the act.
func (c *SetFuseBox) Kind() string { return "set-fuse-box" }

// Say tells what the change does.
func (c *SetFuseBox) Say(*Build) string {
	return fmt.Sprintf("%s: %s", c.FuseBox.Name, counted(c.FuseBox.Ways, "way", "ways"))
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetFuseBox) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Boxes = put(b.Loom.Boxes, c.FuseBox, (*FuseBox).key) })
}

// SetSwitch enters a switch, or enters it anew.
type SetSwitch struct {
	Switch Switch `json:"switch"`
}

// Kind names the act.
func (c *SetSwitch) Kind() string { return "set-switch" }

// Say tells what the change does.
func (c *SetSwitch) Say(*Build) string {
	return fmt.Sprintf("%s: %s", c.Switch.Name, counted(len(c.Switch.Positions), "position", "positions"))
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetSwitch) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Switches = put(b.Loom.Switches, c.Switch, (*Switch).key) })
}

// SetRelay enters a relay, or enters it anew.
type SetRelay struct {
	Relay Relay `json:"relay"`
}

// Kind names the act.
func (c *SetRelay) Kind() string { return "set-relay" }

// Say tells what the change does.
func (c *SetRelay) Say(*Build) string {
	return fmt.Sprintf("%s entered", c.Relay.Name)
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetRelay) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Relays = put(b.Loom.Relays, c.Relay, (*Relay).key) })
}

// SetConnector enters a connector, or enters it anew.
type SetConnector struct {
	Connector Connector `json:"connector"`
}

// Kind names the act.
func (c *SetConnector) Kind() string { return "set-connector" }

// Say tells what the change does.
func (c *SetConnector) Say(*Build) string {
	return fmt.Sprintf("%s: %s", c.Connector.Name, counted(c.Connector.Cavities, "cavity", "cavities"))
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetConnector) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Connectors = put(b.Loom.Connectors, c.Connector, (*Connector).key) })
}

// SetJoint enters a splice or an earth point, or enters it anew.
type SetJoint struct {
	Joint Joint `json:"joint"`
}

// Kind names the act.
func (c *SetJoint) Kind() string { return "set-joint" }

// Say tells what the change does.
func (c *SetJoint) Say(*Build) string {
	return fmt.Sprintf("%s: %s", c.Joint.Name, c.Joint.Kind)
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetJoint) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Joints = put(b.Loom.Joints, c.Joint, (*Joint).key) })
}

// SetWire enters a wire between two terminals, or enters it anew.
type SetWire struct {
	Wire Wire `json:"wire"`
}

// Kind names the act.
func (c *SetWire) Kind() string { return "set-wire" }

// Say tells what the change does.
func (c *SetWire) Say(*Build) string {
	return fmt.Sprintf("Wire %s: %s to %s, %s", c.Wire.ID, c.Wire.From, c.Wire.To, c.Wire.Length)
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetWire) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Wires = put(b.Loom.Wires, c.Wire, (*Wire).key) })
}

// SetCable enters a table of cable, or enters it anew.
type SetCable struct {
	Cable Cable `json:"cable"`
}

// Kind names the act.
func (c *SetCable) Kind() string { return "set-cable" }

// Say tells what the change does.
func (c *SetCable) Say(*Build) string {
	return fmt.Sprintf("Cable %s: %s, %s", c.Cable.Name, counted(len(c.Cable.Sizes), "size", "sizes"), c.Cable.Says)
}

// Apply adds it or takes the place of the one that goes by the same name.
func (c *SetCable) Apply(b *Build) error {
	return b.tryWired(func(next *Build) { next.Loom.Cables = put(b.Loom.Cables, c.Cable, (*Cable).key) })
}

func takes(c Consumer) string {
	text := fmt.Sprintf("%g W", c.Watts)
	if c.Amps > 0 {
		text = fmt.Sprintf("%g A", c.Amps)
	}
	if c.Volts > 0 {
		text += fmt.Sprintf(" at %g V", c.Volts)
	}
	return text
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}
