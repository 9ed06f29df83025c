package build

// loomKinds lists the kinds of change of circuits and of the loom.
func loomKinds() []Kind {
	return []Kind{
		{"set-circuit", 1, func() Change { return &SetCircuit{} }},
		{"set-consumer", 1, func() Change { return &SetConsumer{} }},
		{"set-battery", 1, func() Change { return &SetBattery{} }},
		{"set-alternator", 1, func() Change { return &SetAlternator{} }},
		{"set-fuse-box", 1, func() Change { return &SetFuseBox{} }},
		{"set-fuse", 1, func() Change { return &SetFuse{} }},
		{"set-switch", 1, func() Change { return &SetSwitch{} }},
		{"set-relay", 1, func() Change { return &SetRelay{} }},
		{"set-connector", 1, func() Change { return &SetConnector{} }},
		{"set-joint", 1, func() Change { return &SetJoint{} }},
		{"set-wire", 1, func() Change { return &SetWire{} }},
		{"set-cable", 1, func() Change { return &SetCable{} }},
		{"set-never-together", 1, func() Change { return &SetExclusive{} }},
		{"set-waypoint", 1, func() Change { return &SetWaypoint{} }},
		{"set-stretch", 1, func() Change { return &SetStretch{} }},
		{"set-hole", 1, func() Change { return &SetHole{} }},
		{"drill-hole", 1, func() Change { return &DrillHole{} }},
		{"set-loom", 1, func() Change { return &SetLoom{} }},
		{"cover-supply", 1, func() Change { return &CoverSupply{} }},
		{"meter-circuit", 1, func() Change { return &MeterCircuit{} }},
		{"test-crimp", 1, func() Change { return &TestCrimp{} }},
		{"print-labels", 1, func() Change { return &PrintLabels{} }},
		{"drop-wired", 1, func() Change { return &DropWired{} }},
	}
}
