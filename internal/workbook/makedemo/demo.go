package main

import (
	"fmt"

	"asleft/internal/workbook"
)

// demo is an invented plant with six cells: one clean, one shimmed into its
// limit, one still off center, one with a short blade that somebody accepted,
// one not finished, and one that was shimmed again after its last readings.
func demo() plant {
	p := plant{
		file:  "demo.xlsx",
		form:  workbook.FormOptions{Cells: 6, Blades: 8, Positions: 12, Rounds: 3},
		tower: demoTower,
		noise: 0.006, step: 1.0 / 32, rough: 1.0 / 16,
		tapes: [3]string{"R-1", "T-1", "L-1"},
		place: "position 4, from a mark on the cylinder's rim",
		arm:   "160 in", spot: "10 ft",
		trade: demoTrade(),
	}
	t := p.trade
	p.cells = []cell{cleanCell(t), shimmedCell(t), offCenterCell(t), shortBladeCell(t), unfinishedCell(t), overtakenCell(t)}
	for i := range p.cells {
		c, n := &p.cells[i], i+1
		c.name = fmt.Sprintf("CT-2/%d", n)
		c.motor = fmt.Sprintf("M-20%d, serial INV-4410%d", n, n)
		c.gear = fmt.Sprintf("G-20%d, serial INV-77%d2", n, n)
		c.shaft = fmt.Sprintf("DS-20%d", n)
		c.hub = fmt.Sprintf("F-20%d, blades 1 to 8 of set %c", n, 'A'+i)
		c.starter, c.disconnect = fmt.Sprintf("MCC-7 bucket %dC", n), fmt.Sprintf("DISC-20%d", n)
		c.track = 4
	}
	return p
}

func demoTower(p plant, f *filler) {
	for _, v := range [][2]string{
		{"plant", "Larkmoor Works (invented)"}, {"owner", "Larkmoor Works (invented)"},
		{"ownercontact", "Utilities office, Larkmoor Works"}, {"contractor", "Tarn & Sedge Field Services (invented)"},
		{"contractoraddress", "12 Invented Lane, Larkmoor"}, {"contract", "PO 00-1234 (invented)"},
		{"document", "LW-CT2-FD-001"}, {"revision", "0"}, {"revisionreason", "First issue"},
		{"timezone", "-06:00"}, {"notice", "DEMONSTRATION: the plant, the people and all readings are invented."},
	} {
		f.set("project_"+v[0], v[1])
	}
	f.set("project_issuedate", day("2026-04-02"))
	for _, v := range [][2]string{{"tag", "CT-2"}, {"location", "North yard"}, {"drivetype", "right-angle gear reducer"},
		{"fandiameter", "28 ft"}, {"fanrotation", "clockwise"}, {"sidename", "river"}, {"decision", "simple"}} {
		f.set("tower_"+v[0], v[1])
	}
	f.set("tower_segments", 16)
	p.geometry(f, demoGeometry())
	demoLimits(f)
	demoRegisters(f)
}

// demoLimits accepts all limits by name except the one on the spread of pitch.
func demoLimits(f *filler) {
	accepted := []any{"Ines Halloway", "Larkmoor Works", day("2026-02-20")}
	contract := []any{"contract", "Specification 15-410 (invented)"}
	limit := func(row int, source []any, clause, revision string, values ...any) {
		line := append(append([]any{}, values...), source...)
		f.row("limits", row, append(append(line, clause, revision), accepted...)...)
	}
	limit(1, contract, "3.2", "B", nil, nil, nil, "3/4 in", nil, 11)
	limit(2, contract, "3.3", "B", nil, nil, nil, "1 in", nil, nil)
	limit(3, contract, "3.4", "B", nil, nil, nil, nil, "1/8 in", nil)
	limit(4, contract, "3.5", "B", nil, nil, "1/2 in", nil, "3/16 in", 11)
	limit(5, contract, "3.5", "B", nil, nil, nil, "7/8 in", nil, nil)
	manual := []any{"equipment manual", "Fan manual IM-8 (invented)"}
	limit(6, manual, "5.1", "2024", nil, nil, "12.5", nil, "0.5", nil)
	f.row("limits", 7, nil, nil, nil, "0.5", nil, nil, "starting value, not from the contract")
	demoDriveLimits(limit)
}

func demoRegisters(f *filler) {
	f.row("instruments", 1, "R-1", "Steel rule", "INV-0101", "12 in", "1/32 in", "1/64 in", number(2), "calibrated",
		day("2025-11-03"), day("2026-11-03"), "C-2201 (invented)")
	f.row("instruments", 2, "T-1", "Steel tape", "INV-0102", "25 ft", "1/16 in", "1/32 in", number(2), "checked",
		day("2026-01-12"), day("2027-01-12"), "shop check 14")
	f.row("instruments", 3, "L-1", "Digital level", "INV-0103", "±90°", "0.1°", "0.1°", number(2), "calibrated",
		day("2025-12-01"), day("2026-12-01"), "C-2207 (invented)")
	f.row("instruments", 4, "F-1", "Feeler gauge", "INV-0104", "0.001 to 0.050 in", "0.001 in", "0.0005 in", number(2), "calibrated",
		day("2025-10-06"), day("2026-10-06"), "C-2188 (invented)")
	f.row("instruments", 5, "P-1", "Machinist's level", "INV-0105", "", "0.0005 in/ft", "0.0005 in/ft", number(2), "calibrated",
		day("2025-10-06"), day("2026-10-06"), "C-2189 (invented)")
	f.row("instruments", 6, "W-1", "Torque wrench, click", "INV-0106", "100 to 600 lbf·ft", nil, nil, nil, "calibrated",
		day("2025-12-08"), day("2026-12-08"), "C-2230 (invented)", "600 lbf·ft")
	f.row("instruments", 7, "W-2", "Torque wrench, click", "INV-0107", "30 to 150 lbf·ft", nil, nil, nil, "calibrated",
		day("2025-12-08"), day("2026-12-08"), "C-2231 (invented)", "150 lbf·ft")
	f.row("instruments", 8, "D-1", "Dial indicator", "INV-0108", "0.2 in", "0.0005 in", "0.0002 in", number(2), "calibrated",
		day("2025-10-06"), day("2026-10-06"), "C-2190 (invented)")
	f.row("people", 1, "Tor Brandvold", "TB", "Tarn & Sedge Field Services", "Crew lead", "12 years on cooling towers")
	f.row("people", 2, "Pia Wexcombe", "PW", "Tarn & Sedge Field Services", "Millwright", "")
	f.row("people", 3, "Odell Garrick", "OG", "Tarn & Sedge Field Services", "Project engineer", "")
	f.row("people", 4, "Ines Halloway", "IH", "Larkmoor Works", "Owner's engineer", "")
	f.row("roles", 1, nil, "Tor Brandvold", "Tarn & Sedge Field Services")
	f.row("roles", 2, nil, "Odell Garrick", "Tarn & Sedge Field Services")
	f.row("roles", 3, nil, "Ines Halloway", "Larkmoor Works")
	f.row("waivers", 1, 5, "Blade pitch", "by others", "Pitch is set by the fan maker's own fitter on a later visit", "Odell Garrick")
	f.row("waivers", 2, 5, "Blade pitch, blade to blade", "by others", "Pitch is set by the fan maker's own fitter on a later visit", "Odell Garrick")
	f.row("deviations", 1, "D-1", 4, "Tip clearance, all blades", "As left", "29/32 in", "Owner's letter 7 (invented)",
		"Ines Halloway", "Larkmoor Works", day("2026-03-25"), "blade 5 only; to be read again at the next outage")
	f.row("openitems", 1, "1", "Finish the readings of cell 5 when the staging is up", "Tor Brandvold", 5, day("2026-04-10"), "open")
	f.row("openitems", 2, "2", "Read cell 6 again after the shim of March 19", "Tor Brandvold", 6, day("2026-04-10"), "open")
	f.row("openitems", 3, "3", "Touch up paint at the feet", "Pia Wexcombe", 2, day("2026-03-27"), "closed")
}

// crewHead is a cell's head from the name of the reader on.
func crewHead(sheet, air, wind string) []any {
	return []any{"Tor Brandvold", "Pia Wexcombe", nil, sheet, air, wind, "dry", "off", "3 to 6",
		"cold", "yes", "yes", "Ines Halloway"}
}

// demoFan is a fan of 28 ft with small natural differences, turned a little
// from cell to cell.
func demoFan(turn int) fan {
	shift := func(list []float64) []float64 {
		n := turn % len(list)
		return append(append([]float64{}, list[n:]...), list[:n]...)
	}
	return fan{
		gap:    0.53,
		extra:  shift([]float64{0.00, 0.045, -0.03, 0.01, -0.05, 0.02, -0.02, 0.03}),
		rise:   shift([]float64{0.10, -0.20, 0.05, 0.22, -0.12, -0.05, 0.18, -0.25}),
		pitch:  shift([]float64{12.4, 12.6, 12.5, 12.3, 12.6, 12.5, 12.7, 12.5}),
		oval:   0.03,
		ovalAt: float64(15 * turn),
		mark: shift([]float64{0.125, 0, -0.0625, 0.1875, 0.0625, -0.125, 0, 0.125, -0.0625, 0.0625,
			-0.1875, 0}),
		toBlade: 14,
	}
}

// Crew and times that all stories share.
const crew = "Pia Wexcombe"

func cleanCell(t trade) cell {
	c := cell{fan: demoFan(0), remarks: "As found was good; nothing was moved.", stacks: t.stacks,
		works: works{bolted: "2026-03-09", pinned: "2026-03-09", ready: "2026-03-23", runs: []day{"2026-03-23", "2026-03-25"}}}
	c.now = t.stand(pose{off: 0.03, offAt: 200, tilt: 0.31, lowest: 140}, [2]float64{0.003, -0.002}, [2]float64{-0.002, 0.003}, 0)
	c.read(t.machine, round{key: "asfound", date: "2026-03-09", hour: 8, accepted: true, blocks: everything, drive: driveBlocks,
		sheet: "1D", head: crewHead("1", "41 °F", "light, from the west")})
	return c
}

// shimmedCell is shimmed in two steps; the shims move the hub, and the motor
// follows the gear reducer.
func shimmedCell(t trade) cell {
	c := cell{fan: demoFan(1), stacks: t.stacks,
		works: works{bolted: "2026-03-11", pinned: "2026-03-11", ready: "2026-03-23", runs: []day{"2026-03-24", "2026-03-25"},
			early: map[string][2]any{"gear reducer hold-downs": {day("2026-03-10"), clock("16:10")},
				"motor hold-downs": {day("2026-03-11"), clock("8:20")}}}}
	c.now = t.stand(pose{off: 0.24, offAt: 15, tilt: 1.38, lowest: 20}, [2]float64{0.011, 0.006}, [2]float64{-0.012, 0.009}, 0)
	c.read(t.machine, round{key: "asfound", date: "2026-03-10", hour: 8, blocks: everything, drive: driveBlocks, sheet: "2D",
		stands: []string{"cylinderplumb", "cylinderround"}, head: crewHead("2", "38 °F", "none")})
	c.do(t.machine, move{event: "gear reducer shimmed", sequence: 1, date: "2026-03-10", at: "11:50", by: crew,
		detail: "under both feet toward the motor", shims: c.shimmed([4]float64{0.045, 0, 0, 0.045})})
	c.read(t.machine, round{key: "second", date: "2026-03-10", hour: 13, blocks: []string{"tilt"}, head: crewHead("3", "47 °F", "light")})
	c.do(t.machine, move{event: "gear reducer shimmed", sequence: 2, date: "2026-03-10", at: "15:20", by: crew,
		detail: "motor and river side", shims: c.shimmed([4]float64{0.058, 0.018, 0, 0.040})})
	c.do(t.machine, move{event: "hold-downs torqued", sequence: 3, date: "2026-03-10", at: "16:10", by: crew, detail: "all four, final torque"})
	c.follow(t.machine, 0.001, 0.125, "2026-03-11", "7:30", "7:50", crew)
	c.read(t.machine, round{key: "asleft", date: "2026-03-11", hour: 9, blocks: everything, drive: driveAgain, sheet: "4D",
		head: crewHead("4", "40 °F", "none")})
	return c
}

// offCenterCell is not slid far enough, and its hold-downs got one pass only.
func offCenterCell(t trade) cell {
	c := cell{fan: demoFan(2), stacks: t.stacks, remarks: "Slots bind at the far side; the crew stopped for wind.",
		works: works{bolted: "2026-03-12", pinned: "2026-03-13",
			early: map[string][2]any{"gear reducer hold-downs": {day("2026-03-12"), clock("12:40")},
				"motor hold-downs": {day("2026-03-12"), clock("13:30")}},
			wrong: map[string]func(*done){"gear reducer hold-downs": func(d *done) { d.first = d.final }}}}
	c.now = t.stand(pose{off: 0.36, offAt: 75, tilt: 0.40, lowest: 300}, [2]float64{0.004, -0.003}, [2]float64{0.003, 0.004}, 0)
	c.read(t.machine, round{key: "asfound", date: "2026-03-12", hour: 8, blocks: everything, drive: driveBlocks, sheet: "5D",
		stands: []string{"cylinderplumb", "cylinderround", "pitch", "track"}, head: crewHead("5", "44 °F", "light")})
	c.do(t.machine, move{event: "gear reducer slid", date: "2026-03-12", at: "12:15", by: crew,
		detail: "away from the river side, all four feet", front: -0.09375, rear: -0.09375})
	c.follow(t.machine, 0.001, 0.125, "2026-03-12", "13:00", "13:15", crew)
	c.read(t.machine, round{key: "asleft", date: "2026-03-12", hour: 14, blocks: everything, drive: driveAgain, sheet: "6D",
		head: crewHead("6", "52 °F", "gusts to 10 mph")})
	return c
}

// shortBladeCell has a blade that somebody accepted, and a drive shaft that was
// not read again after the gear reducer was shimmed.
func shortBladeCell(t trade) cell {
	c := cell{fan: demoFan(3), stacks: t.stacks, remarks: "Blade 5 at the end of its clamp; the fan maker is asked.",
		works: works{bolted: "2026-03-16", pinned: "2026-03-16"}}
	c.fan.extra[4] = -0.31
	c.now = t.stand(pose{off: 0.03, offAt: 120, tilt: 0.44, lowest: 250}, [2]float64{-0.003, 0.002}, [2]float64{0.004, -0.002}, 0)
	c.read(t.machine, round{key: "asfound", date: "2026-03-13", hour: 8, blocks: everything, drive: driveBlocks, sheet: "7D",
		stands: []string{"pitch", "track", "tipradius", "motorlevel", "cylinderplumb", "cylinderround", "softfootmotor",
			"couplinggear", "couplingmotor", "shaftends", "guardend", "guardaround"},
		head: crewHead("7", "39 °F", "none")})
	c.do(t.machine, move{event: "gear reducer shimmed", date: "2026-03-13", at: "13:10", by: crew,
		detail: "under all feet, to make room for the guard", shims: c.shimmed([4]float64{0.005, 0.005, 0.005, 0.005})})
	c.read(t.machine, round{key: "asleft", date: "2026-03-13", hour: 14, blocks: []string{"tilt", "clearance"},
		drive: []string{"gearlevel", "softfootgear"}, sheet: "7E", head: crewHead("7A", "48 °F", "none")})
	return c
}

// unfinishedCell has staging on one side only; nothing was bolted or started.
func unfinishedCell(t trade) cell {
	c := cell{fan: demoFan(4), noMarks: true, skip: []string{"pitch", "track"}, stacks: t.stacks,
		blocked: map[int]any{1: "drive-shaft opening", 7: nil, 8: nil}, remarks: "No staging at positions 7 and 8 on the day."}
	c.now = t.stand(pose{off: 0.05, offAt: 30, tilt: 0.52, lowest: 90}, [2]float64{0.002, 0.003}, [2]float64{-0.003, 0.002}, 0)
	c.read(t.machine, round{key: "asfound", date: "2026-03-16", hour: 9, accepted: true, blocks: everything, drive: driveBlocks,
		sheet: "8D", head: crewHead("8", "36 °F", "light")})
	return c
}

// overtakenCell was shimmed once more after it was read, and two of its bolts
// were forgotten.
func overtakenCell(t trade) cell {
	c := cell{fan: demoFan(5), stacks: t.stacks,
		remarks: "Shimmed again on March 19 for the drive shaft; the fan was not read after it.",
		works: works{bolted: "2026-03-18",
			wrong: map[string]func(*done){"fan cylinder bolts": func(d *done) { d.clicks = 62 }}}}
	c.now = t.stand(pose{off: 0.11, offAt: 350, tilt: 0.69, lowest: 350}, [2]float64{0.006, 0.002}, [2]float64{-0.007, 0.003}, 0)
	c.read(t.machine, round{key: "asfound", date: "2026-03-17", hour: 8, blocks: everything, drive: driveBlocks, sheet: "9D",
		stands: []string{"cylinderplumb", "cylinderround"}, head: crewHead("9", "43 °F", "none")})
	c.do(t.machine, move{event: "gear reducer shimmed", date: "2026-03-17", at: "14:00", by: crew,
		detail: "under both feet toward the motor", shims: c.shimmed([4]float64{0.030, 0, 0, 0.030})})
	c.follow(t.machine, 0.001, 0.125, "2026-03-17", "15:00", "15:20", crew)
	c.read(t.machine, round{key: "asleft", date: "2026-03-18", hour: 8, blocks: everything, drive: driveAgain, sheet: "10D",
		head: crewHead("10", "45 °F", "none")})
	c.do(t.machine, move{event: "gear reducer shimmed", date: "2026-03-19", at: "10:40", by: crew,
		detail: "under all feet", shims: c.shimmed([4]float64{0.010, 0.010, 0.010, 0.010})})
	return c
}
