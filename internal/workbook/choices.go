package workbook

// A list is a closed choice: codes in the record, words in the form. The words
// stand under "choice." + key + "." + code.
type list struct {
	key   string
	codes []string
	words string // prefix of the words, where they are shared with other pages
}

// say is the words key of a code.
func (l *list) say(code string) string {
	if l.words != "" {
		return l.words + code
	}
	return "choice." + l.key + "." + code
}

// The closed choices of the form.
func yesNo() *list     { return &list{key: "yesno", codes: []string{"yes", "no"}} }
func driveType() *list { return &list{key: "drivetype", codes: driveTypes()} }
func rotation() *list  { return &list{key: "rotation", codes: []string{"cw", "ccw"}} }
func sense() *list     { return &list{key: "sense", codes: []string{"down", "up"}} }
func units() *list     { return &list{key: "units", codes: []string{"in", "mm"}} }
func paper() *list     { return &list{key: "paper", codes: []string{"Letter", "A4"}} }
func decision() *list  { return &list{key: "decision", codes: []string{"simple", "guarded"}} }
func surface() *list   { return &list{key: "surface", codes: []string{"dry", "wet", "ice"}} }
func water() *list     { return &list{key: "water", codes: []string{"on", "off"}} }
func warmth() *list    { return &list{key: "warmth", codes: []string{"hot", "cold"}} }
func class() *list     { return &list{key: "class", codes: []string{"calibrated", "checked"}} }
func waiver() *list    { return &list{key: "waiver", codes: []string{"notrequired", "byothers"}} }
func status() *list    { return &list{key: "status", codes: []string{"open", "closed"}} }
func round() *list {
	return &list{key: "round", codes: append(append([]string{}, allRounds...), runKeys()...), words: "round."}
}
func check() *list     { return &list{key: "check", codes: checkKeys(), words: "check."} }
func authority() *list { return &list{key: "authority", codes: authorities()} }
func event() *list     { return &list{key: "event", codes: eventKeys(), words: "event."} }

// name is the defined name of the list on the guide sheet, where it is too long
// for a drop-down of its own.
func (l *list) name() string { return "form_" + l.key + "s" }

func driveTypes() []string {
	return []string{"rightangle", "direct", "closecoupled", "belt", "twopiece", "horizontal"}
}

func authorities() []string { return []string{"contract", "manual", "standard", "start"} }

// checkKeys are the checks of the job, in the order of the limits sheet.
func checkKeys() []string {
	return append([]string{"tilt", "track", "tipradius", "clearance", "clearanceall", "pitch", "pitchspread"},
		driveCheckKeys()...)
}

// eventKeys are the events of the move log: those of the rule set that somebody
// logs in a cell, in its order (a test compares them). An instrument that is
// found out has a table of its own.
func eventKeys() []string {
	return []string{"gear.shim", "gear.slide", "gear.loosen", "support.shim", "support.slide",
		"support.loosen", "motor.shim", "motor.slide", "motor.loosen", "cylinder.adjust", "blade.move",
		"blade.replace", "blade.pitch", "blade.loosen", "blade.torque", "hub.open", "coupling.open",
		"guard.off", "holddown.torque"}
}
