package compose

import (
	"strings"

	"asleft/internal/field"
)

// noPlace stands for texts that come from another file than the workbook.
var noPlace field.Ref

// formBlock is the block of the form in which a part of the data file was
// typed.
var formBlock = map[string]string{
	"project": "project", "tower": "tower", "geometry": "geometry", "feet": "feet", "positions": "positions",
	"limits": "limits", "instruments": "instruments", "people": "people", "roles": "roles", "waivers": "waivers",
	"deviations": "deviations", "openItems": "openitems", "attachments": "attachments",
	"moves": "moves", "stock": "stock", "stacks": "stacks", "stuck": "stuck", "motorStacks": "motorstacks", "fasteners": "fasteners", "pins": "pins", "preStart": "prestart",
	"startUps": "startup", "entries": "identity",
}

// formLine is the line of the form where its key is not that of the entry with
// small letters.
var formLine = map[string]string{
	"head.neighborsRunning": "neighbors", "head.gearReducer": "warmth", "head.holdDownsFinal": "holddowns",
	"head.clampsFinal":    "clamps",
	"tower.crewDirection": "direction", "tower.crewFirst": "first",
	"limits.quantityMin": "min", "limits.quantityNominal": "nominal", "limits.quantityMax": "max",
	"limits.quantityTolerance": "tolerance", "limits.angleNominal": "nominal", "limits.angleTolerance": "tolerance",
	"limits.slope": "max", "limits.criterion": "judged",
	"instruments.angleResolution": "resolution", "instruments.slopeResolution": "resolution",
	"instruments.angleExpanded": "expanded", "instruments.slopeExpanded": "expanded",
	"startup.airTemperature": "air", "startup.frequency": "hertz", "startup.rotationOK": "rotation",
	"startup.windingType": "winding", "startup.oilLevelOK": "oillevel", "startup.oilTemperature": "oiltemp",
	"startup.reverseOK": "reverse", "startup.switchSetPoint": "setpoint", "startup.switchTrip": "trip",
}

// whereText names the place of a change, from the large to the small.
func (b *book) whereText(x change) string {
	if x.keys[0] == "cells" {
		return b.whereInCell(x)
	}
	switch {
	case len(x.keys) == 1 && formBlock[x.keys[0]] != "":
		return b.say("form.block." + formBlock[x.keys[0]])
	case len(x.keys) == 1:
		return b.say("changes.place." + x.keys[0])
	case x.keys[0] == "limits":
		return join(", ", b.say("check."+x.keys[1]), b.entryWord("limits", x.keys[2:]))
	case x.keys[0] == "feet" || x.keys[0] == "positions" || x.keys[0] == "stock":
		return join(", ", b.say("form.block."+formBlock[x.keys[0]]), x.keys[1], b.entryWord(formBlock[x.keys[0]], x.keys[2:]))
	}
	block := formBlock[x.keys[0]]
	title := b.say("form.block." + block)
	if isNumber(x.keys[1]) { // a row of a list
		row := b.clean(x.name, noPlace)
		if row == "" {
			row = b.say("changes.row", "n", ordinal(x.keys[1]))
		}
		return join(", ", title, row, b.entryWord(block, x.keys[2:]))
	}
	return join(", ", title, b.entryWord(block, x.keys[1:]))
}

func (b *book) whereInCell(x change) string {
	return join(", ", b.say("cell.number", "number", x.keys[1]), b.belowCell(x.keys[2:]))
}

// belowCell names what is part of a cell, by the keys below it.
func (b *book) belowCell(rest []string) string {
	var parts []string
	switch {
	case len(rest) == 0:
	case rest[0] == "checks" && len(rest) > 1:
		parts = append(parts, b.say("check."+rest[1]), b.whereInCheck(rest[1], rest[2:]))
	case rest[0] == "blocks" && len(rest) > 1:
		parts = append(parts, b.say("check."+rest[1]), b.entryWord(rest[1], rest[2:]))
	case rest[0] == "entries":
		parts = append(parts, b.entryWord("identity", rest[1:]))
	case rest[0] == "state" || rest[0] == "inPackage":
		parts = append(parts, b.say("changes.place."+rest[0]))
	case len(rest) > 1 && formBlock[rest[0]] != "":
		parts = append(parts, b.rowOf(rest[0], rest[1]), b.entryWord(formBlock[rest[0]], rest[2:]))
	default:
		parts = append(parts, strings.Join(rest, " "))
	}
	return join(", ", parts...)
}

// rowOf names a row of a cell's table by its key.
func (b *book) rowOf(part, key string) string {
	code, again, _ := strings.Cut(key, "-")
	for _, words := range []string{"check." + code, "prestart." + code} {
		if b.in.Words.Has(words) {
			return join(" ", b.say(words), again)
		}
	}
	title := b.say("form.block." + formBlock[part])
	switch {
	case part == "startUps":
		return b.roundWord(key)
	case part == "stacks":
		return b.say("moved.foot", "n", key)
	case part == "moves":
		return join(", ", title, b.say("changes.row", "n", ordinal(key)))
	}
	return join(", ", title, key)
}

// whereInCheck is a place below a check: a round, a reading of it, its head.
func (b *book) whereInCheck(check string, rest []string) string {
	if len(rest) < 2 || rest[0] != "rounds" {
		return ""
	}
	parts := []string{b.roundWord(rest[1])}
	if rest = rest[2:]; len(rest) == 0 {
		return parts[0]
	}
	switch rest[0] {
	case "head":
		parts = append(parts, b.entryWord("head", rest[1:]))
	case "return":
		parts = append(parts, b.say("changes.place.return"))
	case "readings":
		if len(rest) > 1 {
			parts = append(parts, b.readingWord(check, rest[1]))
		}
	case "blade":
		parts = append(parts, b.say("form.head.blade"))
	}
	return join(", ", parts...)
}

// readingWord names a reading by its number.
func (b *book) readingWord(check, index string) string {
	switch {
	case byPosition(check):
		return b.say("form.position", "n", index)
	case inGroup(groupFan, check):
		return b.say("form.blade", "n", index)
	}
	return b.say("changes.reading", "n", index)
}

// entryWord is the label that an entry has in the form.
func (b *book) entryWord(block string, keys []string) string {
	if len(keys) == 0 || keys[0] == "entries" && len(keys) == 1 {
		return ""
	}
	entry := keys[len(keys)-1]
	base, number, _ := strings.Cut(entry, "-")
	line := formLine[block+"."+base]
	if line == "" {
		line = strings.ToLower(base)
	}
	for _, key := range []string{"form." + block + "." + line, "form.schedule." + line, "form.vibration." + strings.TrimPrefix(line, "vibration"), "form.head." + line} {
		if b.in.Words.Has(key) {
			return join(" ", b.say(key), number)
		}
	}
	return join(" ", b.say("changes.value"), number)
}

// codeWord is the word of a value that is a code: a choice of the form, a check,
// an event.
func (b *book) codeWord(x change, code string) string {
	switch last := x.keys[len(x.keys)-1]; last {
	case "true", "false":
	case "event", "check", "round":
		if b.in.Words.Has(last + "." + code) {
			return b.say(last + "." + code)
		}
	default:
		if list := choiceOf[last]; list != "" && b.in.Words.Has("choice."+list+"."+code) {
			return b.say("choice." + list + "." + code)
		}
	}
	if code == "yes" || code == "no" || code == "true" || code == "false" {
		yes := code == "yes" || code == "true"
		return b.say("choice.yesno." + map[bool]string{true: "yes", false: "no"}[yes])
	}
	return ""
}

// choiceOf is the list of choices that an entry takes its codes from.
var choiceOf = map[string]string{
	"driveType": "drivetype", "fanRotation": "rotation", "sense": "sense", "units": "units", "decision": "decision",
	"surface": "surface", "water": "water", "gearReducer": "warmth", "class": "class", "kind": "attachment",
	"status": "status", "authority": "authority", "shimmed": "shimmed", "stood": "stood", "reference": "reference",
	"criterion": "criterion", "lubricant": "lubricant", "material": "material", "lockingTime": "lockingtime",
	"where": "pinplace", "windingType": "winding",
}

func isNumber(key string) bool { return strings.Trim(key, "0123456789") == "" && key != "" }

// ordinal counts an index from 1.
func ordinal(index string) string { return itoa(cellKey(index) + 1) }
