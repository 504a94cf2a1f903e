package main

import (
	"fmt"

	"asleft/internal/workbook"
)

// demo is an invented plant with six cells: one clean, one shimmed into its
// limit, one still off center, one with a short blade that somebody accepted,
// one not finished, and one that was shimmed again after its last readings.
func demo() plant {
	p := demoPlant("demo.xlsx", demoTower)
	t := p.trade
	p.cells = []cell{cleanCell(t, 1, "2026-03-09"), shimmedCell(t, 2, "2026-03-10"), offCenterCell(t), shortBladeCell(t),
		unfinishedCell(t), overtakenCell(t)}
	p.cells[0].works.runs = []when{{"2026-03-23", "9:15"}, {"2026-03-25", "8:40"}}
	p.cells[1].works.runs = []when{{"2026-03-24", "9:50"}, {"2026-03-25", "14:10"}}
	p.nameplates()
	return p
}

// goodDemo is the same plant with all six cells in order, and every limit
// accepted.
func goodDemo() plant {
	p := demoPlant("good.xlsx", goodTower)
	for i := range 6 {
		story := cleanCell
		if i%2 == 1 {
			story = shimmedCell
		}
		c := story(p.trade, i+1, day("2026-03-02").plus(2*i))
		c.works.runs = []when{{day("2026-03-23").plus(i), "9:15"}}
		p.cells = append(p.cells, c)
	}
	p.nameplates()
	return p
}

// demoPlant is the plant without its cells.
func demoPlant(file string, tower func(plant, *filler)) plant {
	return plant{
		file:  file,
		form:  workbook.FormOptions{Cells: 6, Blades: 8, Positions: 12, Rounds: 3},
		tower: tower,
		noise: 0.006, step: 1.0 / 32, rough: 1.0 / 16,
		tapes: [3]string{"R-1", "T-1", "L-1"},
		place: "position 4, from a mark on the cylinder's rim",
		arm:   "160 in", spot: "10 ft",
		trade: demoTrade(),
	}
}

func (p *plant) nameplates() {
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
}

// demoTower leaves one limit a starting value that nobody has accepted, and has
// what became of the cells that are not good.
func demoTower(p plant, f *filler) {
	tower(p, f)
	f.row("limits", 7, nil, nil, nil, "0.5", nil, nil, "starting value, not from the contract")
	leftOver(f)
}

// goodTower has every limit accepted by name, and nothing left over.
func goodTower(p plant, f *filler) {
	tower(p, f)
	f.row("limits", 7, nil, nil, nil, "0.5", nil, nil, "equipment manual", "Fan manual IM-8 (invented)", "5.2", "2024",
		"Ines Halloway", "Larkmoor Works", day("2026-02-20"))
}

// tower is what both have.
func tower(p plant, f *filler) {
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

// demoLimits are all but the one on the spread of pitch, accepted by name.
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
	demoDriveLimits(limit)
}

func demoRegisters(f *filler) {
	f.row("instruments", 1, "R-1", "Steel rule", "INV-0101", "12 in", "1/32 in", "1/64 in", number(2), "calibrated",
		day("2025-11-03"), day("2026-11-03"), "C-2201 (invented)")
	f.row("instruments", 2, "T-1", "Steel tape", "INV-0102", "100 ft", "1/16 in", "1/32 in", number(2), "checked",
		day("2026-01-12"), day("2027-01-12"), "shop check 14")
	f.row("instruments", 3, "L-1", "Digital level", "INV-0103", "±90°", "0.1°", "0.1°", number(2), "calibrated",
		day("2025-12-01"), day("2026-12-01"), "C-2207 (invented)")
	f.row("instruments", 4, "G-1", "Inside micrometer", "INV-0104", "0.200 to 1.200 in", "0.001 in", "0.0005 in", number(2), "calibrated",
		day("2025-10-06"), day("2026-10-06"), "C-2188 (invented)")
	f.row("instruments", 5, "P-1", "Machinist's level", "INV-0105", "", "0.0005 in/ft", "0.0005 in/ft", number(2), "calibrated",
		day("2025-10-06"), day("2026-10-06"), "C-2189 (invented)")
	f.row("instruments", 6, "W-1", "Torque wrench, click", "INV-0106", "100 to 600 lbf·ft", nil, nil, nil, "calibrated",
		day("2025-12-08"), day("2026-12-08"), "C-2230 (invented)", "600 lbf·ft")
	f.row("instruments", 7, "W-2", "Torque wrench, click", "INV-0107", "30 to 150 lbf·ft", nil, nil, nil, "calibrated",
		day("2025-12-08"), day("2026-12-08"), "C-2231 (invented)", "150 lbf·ft")
	f.row("instruments", 8, "D-1", "Dial indicator", "INV-0108", "0.2 in", "0.0005 in", "0.0002 in", number(2), "calibrated",
		day("2025-10-06"), day("2026-10-06"), "C-2190 (invented)")
	for i, v := range [][5]string{
		{"E-1", "Clamp meter, true rms", "INV-0109", "600 V, 600 A", "C-2241"}, {"I-1", "Insulation tester", "INV-0110", "500 V, 0.1 to 2000 MΩ", "C-2242"},
		{"S-1", "Optical tachometer", "INV-0111", "5 to 9999 rpm", "C-2245"}, {"H-1", "Contact thermometer", "INV-0112", "-40 to 400 °F", "C-2246"},
		{"V-1", "Vibration meter", "INV-0113", "0.01 to 4 in/s peak", "C-2250"},
	} {
		f.row("instruments", 9+i, v[0], v[1], v[2], v[3], nil, nil, nil, "calibrated", day("2025-12-15"), day("2026-12-15"), v[4]+" (invented)")
	}
	f.row("people", 1, "Tor Brandvold", "TB", "Tarn & Sedge Field Services", "Crew lead", "12 years on cooling towers")
	f.row("people", 2, "Pia Wexcombe", "PW", "Tarn & Sedge Field Services", "Millwright", "")
	f.row("people", 3, "Odell Garrick", "OG", "Tarn & Sedge Field Services", "Project engineer", "")
	f.row("people", 4, "Ines Halloway", "IH", "Larkmoor Works", "Owner's engineer", "")
	f.row("roles", 1, nil, "Tor Brandvold", "Tarn & Sedge Field Services")
	f.row("roles", 2, nil, "Odell Garrick", "Tarn & Sedge Field Services")
	f.row("roles", 3, nil, "Ines Halloway", "Larkmoor Works")
}

// leftOver is what was set aside, accepted and left open.
func leftOver(f *filler) {
	const report = "Set and recorded by the fan maker's own fitter; his report 31 (invented) is with the owner"
	f.row("waivers", 1, 5, "Blade pitch", "by others", report, "Ines Halloway, Larkmoor Works")
	f.row("waivers", 2, 5, "Blade pitch, blade to blade", "by others", report, "Ines Halloway, Larkmoor Works")
	f.row("deviations", 1, "D-1", 4, "Tip clearance, all blades", "As left", "29/32 in", "Owner's letter 7 (invented)",
		"Ines Halloway", "Larkmoor Works", day("2026-03-25"), "blade 5 only; to be read again at the next outage")
	f.row("openitems", 1, "1", "Finish the readings of cell 5 when the staging is up", "Tor Brandvold", 5, day("2026-04-10"), "open")
	f.row("openitems", 2, "2", "Read cell 6 again after the shim of March 19", "Tor Brandvold", 6, day("2026-04-10"), "open")
	f.row("openitems", 3, "3", "Touch up paint at the feet", "Pia Wexcombe", 2, day("2026-03-27"), "closed")
}
