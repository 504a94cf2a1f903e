package main

// demoTrade is the demo's drive and the crew that reads it. All numbers are
// invented and plausible.
func demoTrade() trade {
	return trade{
		machine: machine{radius: 160, hub: 60, footAlong: 12, footAcross: 9, flexAlong: 24, flexUp: 18, span: 112,
			face: 8.5, motorFront: 10, motorRear: 34, ends: 112.5, mean: 0.375},
		gauge: "G-1", level: "P-1", tape: "T-1", gaugeStep: 0.001, gaugeNoise: 0.0003, gapDigits: 3,
		levelScale: 12, levelStep: 0.0005, levelDigits: 4,
		cylinder: 337, rough: 1.0 / 16, guard: [2]float64{0.25, 1}, guardSpread: 0.03, rule: "R-1",
		firstUnder: 8, tools: []tool{{"W-2", 150}, {"W-1", 600}},
		hole: "5/8 in", pin: 0.5, pinStep: 1.0 / 32, indicator: "D-1", rise: 0.001, stack: 0.062, stackStep: 0.001, motorStack: 0.124,
		people: [3]string{"Tor Brandvold", "Pia Wexcombe", "Ines Halloway"},
		sets: []set{
			{name: "gear reducer hold-downs", count: 4, size: "1-8", class: "SAE 5", material: "galvanized", lubricant: "oiled",
				torque: 400, locking: "lock washers", source: "equipment manual"},
			{name: "motor hold-downs", count: 4, size: "3/4-10", class: "SAE 5", material: "galvanized", lubricant: "oiled",
				torque: 170, locking: "lock washers", source: "equipment manual"},
			{name: "hub bolts", count: 6, size: "3/4-10", class: "SAE 5", material: "steel", lubricant: "oiled",
				torque: 200, locking: "tab or wire", source: "equipment manual"},
			{name: "blade clamps", count: 16, size: "5/8-11", class: "A2-70", material: "stainless", lubricant: "anti-seize paste",
				torque: 75, running: 8, locking: "nylon-insert lock nuts", source: "equipment manual"},
			{name: "coupling bolts at the gear reducer", count: 8, size: "1/2-13", class: "SAE 8", material: "steel", lubricant: "oiled",
				torque: 75, running: 6, locking: "nylon-insert lock nuts", source: "equipment manual"},
			{name: "coupling bolts at the motor", count: 8, size: "1/2-13", class: "SAE 8", material: "steel", lubricant: "oiled",
				torque: 75, running: 6, locking: "nylon-insert lock nuts", source: "equipment manual"},
			{name: "fan cylinder bolts", count: 64, size: "1/2-13", class: "SAE 2", material: "galvanized", lubricant: "zinc-plated",
				torque: 45, locking: "lock washers", source: "contract"},
			{name: "guard bolts", count: 8, size: "1/2-13", class: "A2-70", material: "stainless", lubricant: "anti-seize paste",
				torque: 38, running: 6, locking: "nylon-insert lock nuts", source: "contract"},
		},
		run: goodRun{air: 47, hertz: "60 Hz", volts: 461, amps: 207, motor: 1787, ratio: 13.6, megohms: 850, winding: 46,
			test: "500 V", kind: "random-wound", oil: 118, bearing: 122, other: 117, degree: "°F", setPoint: "0.35 in/s peak", on: " in/s"},
		detector: "peak", meters: [5]string{"E-1", "I-1", "S-1", "H-1", "V-1"},
		points: []point{{"Motor, drive end", "horizontal", 0.09, 2}, {"Motor, drive end", "vertical", 0.07, 2},
			{"Motor, drive end", "axial", 0.05, 2}, {"Gear reducer, input", "horizontal", 0.12, 2},
			{"Gear reducer, input", "vertical", 0.10, 2}, {"Gear reducer, input", "axial", 0.06, 2}},
	}
}

// demoGeometry is the same as people type it.
func demoGeometry() [][2]string {
	return [][2]string{{"shimmed", "gear reducer feet"}, {"hubheight", "60 in"}, {"shimstep", "0.001 in"}, {"maxpieces", "5"},
		{"slotalong", "1/4 in"}, {"slotacross", "1/4 in"}, {"slidefront", "12 in"}, {"sliderear", "-12 in"}, {"bladesslide", "yes"},
		{"flexspan", "112 in"}, {"flexgear", "24 in"}, {"flexheight", "18 in"}, {"facegear", "8-1/2 in"}, {"facemotor", "8-1/2 in"},
		{"motorfront", "10 in"}, {"motorrear", "34 in"}, {"motorstep", "0.001 in"}, {"ratio", "13.6"}, {"backstop", "yes"},
		{"reversing", "no"}, {"motorspeed", "1785 rpm"}, {"motorcurrent", "225 A"}, {"motorvolts", "460 V"}}
}

// demoDriveLimits are the rows of the limits sheet below the fan's, in its
// order: judged by, least, nominal, most, plus or minus.
func demoDriveLimits(limit func(row int, source []any, clause, revision string, values ...any)) {
	contract := []any{"contract", "Specification 15-410 (invented)"}
	manual := []any{"equipment manual", "Drive manual DM-2 (invented)"}
	standard := func(name string) []any { return []any{"published standard", name} }
	line := func(row int, source []any, clause, revision, judged, least, nominal, most, tolerance string) {
		limit(row, source, clause, revision, judged, least, nominal, most, tolerance, nil)
	}
	line(8, manual, "4.2", "2024", "highest minus lowest", "", "", "0.010 in", "")
	line(9, manual, "4.2", "2024", "highest minus lowest", "", "", "0.010 in", "")
	line(10, manual, "4.1", "2024", "", "", "112-1/2 in", "", "1/8 in")
	line(11, contract, "4.1", "B", "", "", "", "0.030 in/ft", "")
	line(12, contract, "4.1", "B", "", "", "", "0.030 in/ft", "")
	line(13, contract, "4.2", "B", "", "", "", "0.060 in/ft", "")
	line(14, contract, "4.2", "B", "", "", "", "1/2 in", "")
	line(15, contract, "4.3", "B", "", "", "", "0.003 in", "")
	line(16, contract, "4.3", "B", "", "", "", "0.002 in", "")
	line(17, contract, "4.6", "B", "", "", "1/4 in", "", "1/8 in")
	line(18, contract, "4.6", "B", "", "1/2 in", "", "", "")
	line(19, contract, "5.1", "B", "", "5 lbf·ft", "", "10 lbf·ft", "")
	line(20, contract, "5.4", "B", "", "", "", "", "1/16 in")
	line(21, standard("NEMA MG 1"), "12.45", "2021", "", "", "", "1 %", "")
	line(22, contract, "6.2", "B", "", "", "", "5 %", "")
	line(23, contract, "6.2", "B", "", "", "", "100 %", "")
	line(24, standard("IEEE 43"), "12.3", "2013", "", "5 MΩ", "", "", "")
	line(25, manual, "7.1", "2024", "", "", "", "180 °F", "")
	line(26, contract, "6.3", "B", "", "", "", "180 °F", "")
	line(27, contract, "6.4", "B", "", "", "", "0.25 in/s peak", "")
	line(28, contract, "6.4", "B", "", "0.30 in/s peak", "", "0.45 in/s peak", "")
	line(29, contract, "6.5", "B", "", "", "", "", "1 %")
	line(30, []any{"equipment manual", "Fan manual IM-8 (invented)"}, "2.1", "2024", "", "", "", "12500 ft/min", "")
	line(31, contract, "6.6", "B", "", "4 h", "", "", "")
}
