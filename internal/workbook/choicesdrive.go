package workbook

// The closed choices of the drive line, the fasteners and the start-up. Codes of
// checks, sets, lockings, lubricants and lines are those of the judging part,
// which this package does not know; a test compares them.
func reference() *list   { return &list{key: "reference", codes: []string{"deck", "cylinder"}} }
func shimmed() *list     { return &list{key: "shimmed", codes: []string{"gear", "support"}} }
func stood() *list       { return &list{key: "stood", codes: []string{"motor", "gear"}} }
func criterion() *list   { return &list{key: "criterion", codes: []string{"range", "plane", "total"}} }
func fastenerSet() *list { return &list{key: "set", codes: setKeys(), words: "check."} }
func locking() *list     { return &list{key: "locking", codes: lockingKeys(), words: "locking."} }
func lubricant() *list   { return &list{key: "lubricant", codes: lubricantKeys()} }
func pinPlace() *list    { return &list{key: "pinplace", codes: []string{"gear", "motor", "support"}} }
func stuckWay() *list {
	return &list{key: "stuckway", codes: []string{"toward", "away", "ninety", "other", "shims"}}
}
func motorEnd() *list { return &list{key: "motorend", codes: []string{"front", "rear"}} }
func axis() *list     { return &list{key: "axis", codes: []string{"h", "v", "a"}} }
func detector() *list { return &list{key: "detector", codes: []string{"rms", "peak"}} }
func winding() *list  { return &list{key: "winding", codes: []string{"random", "form", "old"}} }
func material() *list {
	return &list{key: "material", codes: []string{"steel", "galvanized", "stainless"}}
}
func lockingTime() *list { return &list{key: "lockingtime", codes: []string{"before", "after"}} }

// driveCheckKeys are the checks beyond the fan, in the order of judging.
func driveCheckKeys() []string {
	return []string{"couplinggear", "couplingmotor", "shaftends", "gearlevel", "motorlevel", "cylinderplumb",
		"cylinderround", "softfootgear", "softfootmotor", "guardend", "guardaround",
		"fasteners", "locking", "pins", "prestart",
		"rotation", "voltunbalance", "ampunbalance", "ampload", "insulation", "oillevel", "oiltemp", "bearingtemp",
		"vibration", "vibrationswitch", "speedratio", "tipspeed", "runtime", "reverse"}
}

func setKeys() []string {
	return []string{"gear.holddown", "motor.holddown", "support.holddown", "cylinder.bolts", "hub.bolts",
		"blade.clamp", "coupling.gear", "coupling.motor", "guard.bolts", otherSet}
}

// otherSet is the code of a set that is named in words.
const otherSet = "other"

func lockingKeys() []string {
	return []string{"none", "nylon", "washer", "liquid", "wicking", "tab"}
}

func lubricantKeys() []string { return []string{"dry", "zinc", "oiled", "cadmium", "antiseize"} }

func preStartKeys() []string {
	return []string{"blocks.out", "tools.out", "people.out", "guards.on", "bypasses.out", "oil.proved", "rotation.clear"}
}

// runKeys are the rounds of a start-up record.
func runKeys() []string {
	var keys []string
	for n := 1; n <= MaxRounds; n++ {
		keys = append(keys, "run"+itoa(n))
	}
	return keys
}
