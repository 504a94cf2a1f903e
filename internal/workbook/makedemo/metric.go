package main

import (
	"fmt"

	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/workbook"
)

// metric is a small invented plant whose crew reads millimeters, counts
// counter-clockwise and begins at 90°.
func metric() plant {
	p := plant{
		file: "metric.xlsx",
		form: workbook.FormOptions{Cells: 2, Blades: 6, Positions: 8, Rounds: 2, Units: measure.UnitMillimeter,
			Direction: field.CounterClockwise, First: 90 * measure.Degree},
		tower: metricTower,
		noise: 0.15, step: 0.5, rough: 1,
		tapes: [3]string{"S1", "B1", "W1"},
		place: "position 2, from the deck", arm: "2800 mm", spot: "2000 mm",
	}
	steady := fan{gap: 15, extra: []float64{0, 0.6, -0.8, 0.3, -0.4, 0.9}, rise: []float64{2, -3, 1, 4, -2, 0},
		pitch: []float64{14.1, 13.9, 14.0, 14.2, 14.0, 13.8}, oval: 0.6, ovalAt: 40,
		mark: []float64{1, 0, -2, 3, 0, 1, -1, 2}, toBlade: 320}
	head := []any{"Jorun Askvik", "Jorun Askvik", nil, "1", "9 °C", "none", "dry", "off", "none", "cold", "yes", "yes", "Lev Dorrin"}
	p.cells = []cell{
		{fan: steady, rounds: []round{{key: "asfound", date: "2026-05-04", hour: 9, accepted: true,
			pose: pose{off: 0.7, offAt: 150, tilt: 7, lowest: 45}, blocks: everything, head: head}}},
		{fan: steady, rounds: []round{
			{key: "asfound", date: "2026-05-05", hour: 8, pose: pose{off: 0.8, offAt: 20, tilt: 31, lowest: 200}, blocks: everything,
				stands: []string{"pitch", "track"}, head: head},
			{key: "asleft", date: "2026-05-05", hour: 14, pose: pose{off: 1.2, offAt: 30, tilt: 9, lowest: 190}, blocks: afterMove, head: head}},
			moves: [][]any{{"gear reducer shimmed", 1, day("2026-05-05"), clock("12:30"),
				"2.0 mm under both feet away from the motor", nil, nil, "Jorun Askvik"}}},
	}
	for i := range p.cells {
		c, n := &p.cells[i], i+1
		c.name, c.track = fmt.Sprintf("K%d", n), 2
		c.motor, c.gear, c.shaft = fmt.Sprintf("M%d", n), fmt.Sprintf("G%d", n), fmt.Sprintf("W%d", n)
		c.hub, c.starter, c.disconnect = fmt.Sprintf("V%d", n), fmt.Sprintf("F%d", n), fmt.Sprintf("Q%d", n)
	}
	return p
}

func metricTower(f *filler) {
	for _, v := range [][2]string{
		{"plant", "Fennmark Mill (invented)"}, {"owner", "Fennmark Mill (invented)"},
		{"contractor", "Skerry Rotating Services (invented)"}, {"document", "FM-K-001"}, {"revision", "A"},
		{"timezone", "+01:00"}, {"notice", "DEMONSTRATION: the plant, the people and all readings are invented."},
	} {
		f.set("project_"+v[0], v[1])
	}
	f.set("project_issuedate", day("2026-05-11"))
	for _, v := range [][2]string{{"tag", "K"}, {"location", "Roof"}, {"drivetype", "right-angle gear reducer"},
		{"fandiameter", "6 m"}, {"fanrotation", "counter-clockwise"}, {"sidename", "harbor"}} {
		f.set("tower_"+v[0], v[1])
	}
	f.set("tower_segments", 10)
	accepted := []any{"contract", "Order 77 (invented)", "2", "A", "Lev Dorrin", "Fennmark Mill", day("2026-04-01")}
	limit := func(row int, values ...any) {
		f.row("limits", row, append(append([]any{nil}, values...), accepted...)...)
	}
	limit(1, nil, nil, "20 mm", nil, nil)
	limit(2, nil, nil, "10 mm", nil, nil)
	limit(3, nil, nil, nil, "3 mm", nil)
	limit(4, nil, "15 mm", nil, "3 mm", nil)
	limit(5, nil, nil, "20 mm", nil, nil)
	limit(6, nil, "14", nil, "0.5", nil)
	limit(7, nil, nil, "0.6", nil, nil)
	f.row("instruments", 1, "S1", "Steel rule", "INV-1", "300 mm", "0.5 mm", "0.2 mm", number(2), "calibrated", day("2025-09-01"), day("2026-09-01"), "K-1")
	f.row("instruments", 2, "B1", "Tape", "INV-2", "5 m", "1 mm", "1 mm", number(2), "checked", day("2026-02-01"), day("2027-02-01"), "")
	f.row("instruments", 3, "W1", "Digital level", "INV-3", "±90°", "0.1°", "0.1°", number(2), "calibrated", day("2025-10-01"), day("2026-10-01"), "K-2")
	f.row("people", 1, "Jorun Askvik", "JA", "Skerry Rotating Services", "Crew lead", "")
	f.row("people", 2, "Lev Dorrin", "LD", "Fennmark Mill", "Owner's engineer", "")
	f.row("roles", 1, nil, "Jorun Askvik", "Skerry Rotating Services")
	f.row("roles", 3, nil, "Lev Dorrin", "Fennmark Mill")
}
