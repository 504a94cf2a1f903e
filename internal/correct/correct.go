package correct

import (
	"asleft/internal/assess"
	"asleft/internal/field"
)

// Codes of the record that matter here.
const unitMetric = "mm"

// Correct says what to move in every cell that is in the package, in order of the
// cells. It changes neither argument; asked lists checks to be improved although
// they are within.
func Correct(r field.Record, a assess.Assessment, rules assess.Rules, asked ...string) []Moves {
	var out []Moves
	tilt, clearance := returnPairs(r)
	for _, c := range a.Cells {
		for _, f := range r.Cells {
			if f.Number != c.Number || !c.InPackage {
				continue
			}
			out = append(out, CellPlan(CellInput{
				Cell: c, Record: f, Geometry: r.Tower.Geometry, Blades: r.Tower.Blades.Value, Segments: r.Tower.Segments.Value,
				Diameter: r.Tower.FanDiameter.Value, Metric: r.Project.Units.Value == unitMetric, Rules: rules, Asked: asked,
				TiltPairs: tilt, ClearancePairs: clearance,
			}))
			break
		}
	}
	return out
}

// returnPairs counts the sets whose first reading was read again, over the tower.
func returnPairs(r field.Record) (tilt, clearance int) {
	for _, c := range r.Cells {
		for _, s := range c.Tilt.Rounds {
			tilt += returned(s)
		}
		for _, s := range c.Clearance.Rounds {
			clearance += returned(s.Series)
		}
	}
	return tilt, clearance
}

func returned(s field.Series[field.Length]) int {
	if s.Return.Set && len(s.Readings) > 0 && s.Readings[0].Value.Set {
		return 1
	}
	return 0
}
