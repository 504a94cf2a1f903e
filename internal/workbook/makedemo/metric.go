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
		trade: metricTrade(),
	}
	fans := [2]fan{
		{gap: 15, extra: []float64{0, 0.6, -0.8, 0.3, -0.4, 0.9}, rise: []float64{2, -3, 1, 4, -2, 0},
			pitch: []float64{14.1, 13.9, 14.0, 14.2, 14.0, 13.8}, oval: 0.6, ovalAt: 40, mark: []float64{1, 0, -2, 3, 0, 1, -1, 2}, toBlade: 320},
		{gap: 15, extra: []float64{-0.5, 0.2, 0.7, -0.9, 0.4, 0}, rise: []float64{-1, 3, -2, 0, 2, -3},
			pitch: []float64{14.0, 14.2, 13.9, 13.9, 14.1, 14.0}, oval: 0.5, ovalAt: 115, mark: []float64{0, 2, 1, -1, -3, 0, 2, 1}, toBlade: 317},
	}
	head := []any{"Jorun Askvik", "Jorun Askvik", nil, "1", "9 °C", "none", "dry", "off", "none", "cold", "yes", "yes", "Lev Dorrin"}
	t := p.trade
	const d = day("2026-05-04")
	first := cell{number: 1, fan: fans[0], stacks: t.stacksOf(1), works: onDay(d)}
	first.works.ready, first.works.runs = when{"2026-05-07", ""}, []when{{"2026-05-07", "9:15"}, {"2026-05-08", "8:30"}}
	first.now = t.stand(pose{off: 0.7, offAt: 150, tilt: 7, lowest: 45}, [2]float64{0.05, -0.03}, [2]float64{-0.04, 0.05}, 0)
	first.read(t.machine, round{key: "asfound", date: d, hour: 8, accepted: true, blocks: everything, drive: driveBlocks,
		soft: softFirst(d), sheet: "1D", head: head})
	const e = day("2026-05-05")
	second := cell{number: 2, fan: fans[1], stacks: t.stacksOf(2), works: onDay(e)}
	second.works.held, second.works.pinned = [2]when{{e, "12:52"}, {e, "13:37"}}, when{e.plus(1), "8:20"}
	second.works.ready, second.works.runs = when{"2026-05-07", ""}, []when{{"2026-05-07", "14:20"}, {"2026-05-08", "13:45"}}
	second.now = t.stand(pose{off: 3.0, offAt: 200, tilt: 14, lowest: 200}, [2]float64{0.1, 0.05}, [2]float64{-0.08, 0.1}, 0)
	second.read(t.machine, round{key: "asfound", date: e, hour: 8, blocks: everything, drive: driveBlocks, sheet: "2D", soft: softFirst(e),
		stands: []string{"pitch", "track", "cylinderplumb", "cylinderround"}, head: head})
	second.do(t.machine, move{event: "gear reducer shimmed", date: e, at: "12:30", by: "Jorun Askvik",
		detail: "under both feet away from the motor", shims: second.shimmed([4]float64{0, 1.2, 1.2, 0})})
	second.follow(t, 0.02, when{e, "13:05"}, "Jorun Askvik")
	second.read(t.machine, round{key: "asleft", date: e, hour: 14, blocks: afterMove, drive: driveAgain, sheet: "3D",
		soft: [2]when{{e, "12:40"}, {e, "13:27"}}, head: head})
	p.cells = []cell{first, second}
	for i := range p.cells {
		c, n := &p.cells[i], i+1
		c.name, c.track = fmt.Sprintf("K%d", n), 2
		c.motor, c.gear, c.shaft = fmt.Sprintf("M%d", n), fmt.Sprintf("G%d", n), fmt.Sprintf("W%d", n)
		c.hub, c.starter, c.disconnect = fmt.Sprintf("V%d", n), fmt.Sprintf("F%d", n), fmt.Sprintf("Q%d", n)
	}
	return p
}

func metricTower(p plant, f *filler) {
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
	p.geometry(f, metricGeometry())
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
	metricDriveLimits(f, accepted)
	f.row("instruments", 1, "S1", "Steel rule", "INV-1", "300 mm", "0.5 mm", "0.2 mm", number(2), "calibrated", day("2025-09-01"), day("2026-09-01"), "K-1")
	f.row("instruments", 2, "B1", "Tape", "INV-2", "20 m", "1 mm", "1 mm", number(2), "checked", day("2026-02-01"), day("2027-02-01"), "")
	f.row("instruments", 3, "W1", "Digital level", "INV-3", "±90°", "0.1°", "0.1°", number(2), "calibrated", day("2025-10-01"), day("2026-10-01"), "K-2")
	f.row("instruments", 4, "T1", "Dial indicator", "INV-4", "10 mm", "0.01 mm", "0.01 mm", number(2), "calibrated", day("2025-09-01"), day("2026-09-01"), "K-3")
	f.row("instruments", 5, "N1", "Machinist's level", "INV-5", "", "0.02 mm/m", "0.02 mm/m", number(2), "calibrated", day("2025-09-01"), day("2026-09-01"), "K-4")
	f.row("instruments", 6, "D1", "Torque wrench, click", "INV-6", "80 to 400 N·m", nil, nil, nil, "calibrated", day("2025-09-01"), day("2026-09-01"), "K-5", "400 N·m")
	f.row("instruments", 7, "D2", "Torque wrench, click", "INV-7", "20 to 100 N·m", nil, nil, nil, "calibrated", day("2025-09-01"), day("2026-09-01"), "K-6", "100 N·m")
	f.row("instruments", 13, "G1", "Inside micrometer", "INV-13", "5 to 30 mm", "0.01 mm", "0.01 mm", number(2), "calibrated", day("2025-09-01"), day("2026-09-01"), "K-12")
	for i, v := range [][4]string{{"E1", "Clamp meter, true rms", "INV-8", "600 V, 400 A"}, {"I1", "Insulation tester", "INV-9", "500 V, 0.1 to 2000 MΩ"},
		{"O1", "Optical tachometer", "INV-10", "5 to 9999 rpm"}, {"H1", "Contact thermometer", "INV-11", "-40 to 200 °C"},
		{"V1", "Vibration meter", "INV-12", "0.1 to 100 mm/s rms"}} {
		f.row("instruments", 8+i, v[0], v[1], v[2], v[3], nil, nil, nil, "calibrated", day("2025-09-01"), day("2026-09-01"), fmt.Sprintf("K-%d", 7+i))
	}
	f.row("people", 1, "Jorun Askvik", "JA", "Skerry Rotating Services", "Crew lead", "")
	f.row("people", 2, "Lev Dorrin", "LD", "Fennmark Mill", "Owner's engineer", "")
	f.row("roles", 1, nil, "Jorun Askvik", "Skerry Rotating Services")
	f.row("roles", 3, nil, "Lev Dorrin", "Fennmark Mill")
}
