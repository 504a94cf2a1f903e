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
	}
	p.cells = []cell{cleanCell(), shimmedCell(), offCenterCell(), shortBladeCell(), unfinishedCell(), overtakenCell()}
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

func demoTower(f *filler) {
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
	demoLimits(f)
	demoRegisters(f)
}

// demoLimits accepts all limits by name except the one on the spread of pitch.
func demoLimits(f *filler) {
	accepted := []any{"Ines Halloway", "Larkmoor Works", day("2026-02-20")}
	contract := []any{"contract", "Specification 15-410 (invented)"}
	limit := func(row int, source []any, clause, revision string, values ...any) {
		line := append(append([]any{nil}, values...), source...)
		f.row("limits", row, append(append(line, clause, revision), accepted...)...)
	}
	limit(1, contract, "3.2", "B", nil, nil, "3/4 in", nil, 11)
	limit(2, contract, "3.3", "B", nil, nil, "1 in", nil, nil)
	limit(3, contract, "3.4", "B", nil, nil, nil, "1/8 in", nil)
	limit(4, contract, "3.5", "B", nil, "1/2 in", nil, "3/16 in", 11)
	limit(5, contract, "3.5", "B", nil, nil, "7/8 in", nil, nil)
	manual := []any{"equipment manual", "Fan manual IM-8 (invented)"}
	limit(6, manual, "5.1", "2024", nil, "12.5", nil, "0.5", nil)
	f.row("limits", 7, nil, nil, nil, "0.5", nil, nil, "starting value, not from the contract")
}

func demoRegisters(f *filler) {
	f.row("instruments", 1, "R-1", "Steel rule", "INV-0101", "12 in", "1/32 in", "1/64 in", number(2), "calibrated",
		day("2025-11-03"), day("2026-11-03"), "C-2201 (invented)")
	f.row("instruments", 2, "T-1", "Steel tape", "INV-0102", "25 ft", "1/16 in", "1/32 in", number(2), "checked",
		day("2026-01-12"), day("2027-01-12"), "shop check 14")
	f.row("instruments", 3, "L-1", "Digital level", "INV-0103", "±90°", "0.1°", "0.1°", number(2), "calibrated",
		day("2025-12-01"), day("2026-12-01"), "C-2207 (invented)")
	f.row("people", 1, "Tor Brandvold", "TB", "Tarn & Sedge Field Services", "Crew lead", "12 years on cooling towers")
	f.row("people", 2, "Pia Wexcombe", "PW", "Tarn & Sedge Field Services", "Millwright", "")
	f.row("people", 3, "Odell Garrick", "OG", "Tarn & Sedge Field Services", "Project engineer", "")
	f.row("people", 4, "Ines Halloway", "IH", "Larkmoor Works", "Owner's engineer", "")
	f.row("roles", 1, nil, "Tor Brandvold", "Tarn & Sedge Field Services")
	f.row("roles", 2, nil, "Odell Garrick", "Tarn & Sedge Field Services")
	f.row("roles", 3, nil, "Ines Halloway", "Larkmoor Works")
	f.row("waivers", 1, 5, "Blade pitch", "by others", "Pitch is set by the fan maker's own fitter on a later visit", "Odell Garrick")
	f.row("waivers", 2, 5, "Blade pitch, blade to blade", "by others", "Pitch is set by the fan maker's own fitter on a later visit", "Odell Garrick")
	f.row("deviations", 1, "D-1", 4, "Tip clearance, all blades", "As found", "29/32 in", "Owner's letter 7 (invented)",
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

func cleanCell() cell {
	return cell{fan: demoFan(0), rounds: []round{{key: "asfound", date: "2026-03-09", hour: 8, accepted: true,
		pose: pose{off: 0.03, offAt: 200, tilt: 0.31, lowest: 140}, blocks: everything,
		head: crewHead("1", "41 °F", "light, from the west")}},
		remarks: "As found was good; nothing was moved."}
}

func shimmedCell() cell {
	return cell{fan: demoFan(1), rounds: []round{
		{key: "asfound", date: "2026-03-10", hour: 8, pose: pose{off: 0.02, offAt: 60, tilt: 1.38, lowest: 20},
			blocks: everything, head: crewHead("2", "38 °F", "none")},
		{key: "second", date: "2026-03-10", hour: 13, pose: pose{off: 0.08, offAt: 200, tilt: 0.94, lowest: 25},
			blocks: []string{"tilt"}, head: crewHead("3", "47 °F", "light")},
		{key: "asleft", date: "2026-03-11", hour: 9, pose: pose{off: 0.06, offAt: 190, tilt: 0.38, lowest: 35},
			blocks: everything, head: crewHead("4", "40 °F", "none")}},
		moves: [][]any{
			{"gear reducer shimmed", 1, day("2026-03-10"), clock("11:30"), "0.040 in under both feet toward the motor", nil, nil, "Pia Wexcombe"},
			{"gear reducer shimmed", 1, day("2026-03-10"), clock("15:20"), "another 0.045 in under both feet toward the motor", nil, nil, "Pia Wexcombe"},
			{"hold-downs torqued", 2, day("2026-03-10"), clock("16:10"), "all four, final torque", nil, nil, "Pia Wexcombe"},
		}}
}

func offCenterCell() cell {
	return cell{fan: demoFan(2), rounds: []round{
		{key: "asfound", date: "2026-03-12", hour: 8, pose: pose{off: 0.36, offAt: 75, tilt: 0.40, lowest: 300},
			blocks: everything, head: crewHead("5", "44 °F", "light")},
		{key: "asleft", date: "2026-03-12", hour: 14, pose: pose{off: 0.27, offAt: 80, tilt: 0.42, lowest: 300},
			blocks: everything, head: crewHead("6", "52 °F", "gusts to 10 mph")}},
		moves:   [][]any{{"gear reducer slid", 1, day("2026-03-12"), clock("12:15"), "3/32 in away from the river side, all four feet", nil, nil, "Pia Wexcombe"}},
		remarks: "Slots bind at the far side; the crew stopped for wind."}
}

func shortBladeCell() cell {
	f := demoFan(3)
	f.extra[4] = -0.31
	return cell{fan: f, rounds: []round{{key: "asfound", date: "2026-03-13", hour: 8, accepted: true,
		pose: pose{off: 0.03, offAt: 120, tilt: 0.44, lowest: 250}, blocks: everything,
		head: crewHead("7", "39 °F", "none")}},
		remarks: "Blade 5 at the end of its clamp; the fan maker is asked."}
}

func unfinishedCell() cell {
	return cell{fan: demoFan(4), noMarks: true, skip: []string{"pitch", "track"},
		blocked: map[int]any{1: "drive-shaft opening", 7: nil, 8: nil},
		rounds: []round{{key: "asfound", date: "2026-03-16", hour: 9, accepted: true,
			pose: pose{off: 0.05, offAt: 30, tilt: 0.52, lowest: 90}, blocks: everything,
			head: crewHead("8", "36 °F", "light")}},
		remarks: "No staging at positions 7 and 8 on the day."}
}

func overtakenCell() cell {
	c := cleanCell()
	c.fan, c.remarks = demoFan(5), "Shimmed again on March 19 for the drive shaft; the fan was not read after it."
	c.rounds = []round{
		{key: "asfound", date: "2026-03-17", hour: 8, pose: pose{off: 0.04, offAt: 310, tilt: 0.69, lowest: 350},
			blocks: everything, head: crewHead("9", "43 °F", "none")},
		{key: "asleft", date: "2026-03-18", hour: 8, pose: pose{off: 0.05, offAt: 280, tilt: 0.28, lowest: 355},
			blocks: everything, head: crewHead("10", "45 °F", "none")}}
	c.moves = [][]any{
		{"gear reducer shimmed", 1, day("2026-03-17"), clock("14:00"), "0.030 in under both feet toward the motor", nil, nil, "Pia Wexcombe"},
		{"gear reducer shimmed", 1, day("2026-03-19"), clock("10:40"), "0.010 in under all feet", nil, nil, "Pia Wexcombe"},
	}
	return c
}
