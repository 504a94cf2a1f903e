package workbook

import (
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/templates"
)

// initial is what a new form already holds in a named cell, "" for blank. A
// word is written where the cell is a choice.
func (b *builder) initial(name string) string {
	switch name {
	case "project_units":
		return b.say("choice.units." + b.o.Units.String())
	case "project_paper":
		return b.say("choice.paper." + b.o.Paper)
	case "project_language":
		return b.o.Words.Tag()
	case "tower_drivetype":
		if b.o.DriveType != "" {
			return b.say("choice.drivetype." + b.o.DriveType)
		}
	case "tower_blades":
		return itoa(b.o.Blades)
	case "tower_direction":
		if b.o.Direction == field.CounterClockwise {
			return b.say("choice.rotation.ccw")
		}
		return b.say("choice.rotation.cw")
	case "tower_first":
		return degreeText(b.o.First)
	}
	return ""
}

// signOffRoles are the signature blocks a new form asks for.
var signOffRoles = []string{"crewlead", "engineer", "owner"}

// initialColumn is what a new form already holds in a table's column.
func (b *builder) initialColumn(k block, s slot) []string {
	if k.key == "waivers" {
		return b.waived(s)
	}
	if k.key != "roles" || s.key != "title" && s.key != "meaning" {
		return nil
	}
	var column []string
	for _, role := range signOffRoles {
		column = append(column, b.say("form.role."+role+"."+s.key))
	}
	return column
}

// startingLimits are the prefilled cells of the limits sheet by check and
// column. Each such row is marked as not from the contract.
func startingLimits(o FormOptions) (map[string]map[string]string, error) {
	limits, err := templates.StartingLimits()
	if err != nil {
		return nil, err
	}
	cells := map[string]map[string]string{}
	for _, l := range limits {
		row := map[string]string{"authority": o.Words.Say("choice.authority.start")}
		for key, value := range map[string]string{"min": l.Min, "nominal": l.Nominal,
			"max": l.Max, "tolerance": l.Tolerance} {
			row[key] = startingValue(value, o.Units)
		}
		cells[l.Check] = row
	}
	return cells, nil
}

// startingValue is a starting value as a form in these units holds it: always
// with its unit, so that it cannot be taken for another.
func startingValue(typed string, u measure.Unit) string {
	length, unit, err := measure.ParseLength(typed, measure.UnitNone)
	if err != nil || unit == u {
		return typed
	}
	return length.In(u) + " " + u.String()
}
