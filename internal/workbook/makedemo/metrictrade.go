package main

// metricTrade is the small plant's drive and the crew that reads it.
func metricTrade() trade {
	return trade{
		machine: machine{radius: 2800, hub: 1200, footAlong: 260, footAcross: 220, flexAlong: 420, flexUp: 350, span: 2100,
			face: 180, motorFront: 200, motorRear: 720, ends: 2110, mean: 6},
		gauge: "G1", level: "N1", tape: "B1", gaugeStep: 0.01, gaugeNoise: 0.003, gapDigits: 2,
		levelScale: 1000, levelStep: 0.02, levelDigits: 2,
		cylinder: 6030, rough: 1, guard: [2]float64{8, 25}, guardSpread: 0.8, rule: "S1",
		firstUnder: 10, tools: []tool{{"D2", 100}, {"D1", 400}},
		hole: "12 mm", pin: 10, pinStep: 0.5, indicator: "T1", rise: 0.02, stack: 1.5, stackStep: 0.05, motorStack: 12,
		people: [3]string{"Jorun Askvik", "Jorun Askvik", "Lev Dorrin"},
		sets: []set{
			{name: "gear reducer hold-downs", count: 4, size: "M24", class: "8.8", material: "galvanized", lubricant: "oiled",
				torque: 350, locking: "lock washers", source: "contract"},
			{name: "motor hold-downs", count: 4, size: "M20", class: "8.8", material: "galvanized", lubricant: "oiled",
				torque: 220, locking: "lock washers", source: "contract"},
			{name: "blade clamps", count: 12, size: "M16", class: "A2-70", material: "stainless", lubricant: "anti-seize paste",
				torque: 90, running: 10, locking: "nylon-insert lock nuts", source: "contract"},
			{name: "coupling bolts at the gear reducer", count: 6, size: "M12", class: "10.9", material: "steel", lubricant: "oiled",
				torque: 85, running: 8, locking: "nylon-insert lock nuts", source: "contract"},
			{name: "coupling bolts at the motor", count: 6, size: "M12", class: "10.9", material: "steel", lubricant: "oiled",
				torque: 85, running: 8, locking: "nylon-insert lock nuts", source: "contract"},
		},
		run: goodRun{air: 11, hertz: "50 Hz", volts: 400, amps: 98, motor: 1482, ratio: 7.1, megohms: 1200, winding: 12,
			test: "500 V", kind: "random-wound", oil: 48, bearing: 51, other: 47, degree: "°C", setPoint: "9 mm/s rms", on: " mm/s"},
		detector: "rms", meters: [5]string{"E1", "I1", "O1", "H1", "V1"},
		points: []point{{"Motor, drive end", "horizontal", 1.8, 1}, {"Motor, drive end", "vertical", 1.5, 1},
			{"Gear reducer, input", "horizontal", 2.2, 1}, {"Gear reducer, input", "vertical", 2.0, 1}},
	}
}

func metricGeometry() [][2]string {
	return [][2]string{{"shimmed", "gear reducer feet"}, {"hubheight", "1200 mm"}, {"shimstep", "0.05 mm"}, {"maxpieces", "5"},
		{"slotalong", "6 mm"}, {"slotacross", "6 mm"}, {"slidefront", "260 mm"}, {"sliderear", "-260 mm"}, {"bladesslide", "yes"},
		{"flexspan", "2100 mm"}, {"flexgear", "420 mm"}, {"flexheight", "350 mm"}, {"facegear", "180 mm"}, {"facemotor", "180 mm"},
		{"motorfront", "200 mm"}, {"motorrear", "720 mm"}, {"motorstep", "0.05 mm"}, {"ratio", "7.1"}, {"backstop", "no"},
		{"reversing", "no"}, {"motorspeed", "1480 rpm"}, {"motorcurrent", "105 A"}, {"motorvolts", "400 V"}}
}

// metricDriveLimits judges the couplings by the angle in each plane.
func metricDriveLimits(f *filler, accepted []any) {
	for i, v := range [][5]any{
		{"angle in each plane", nil, nil, "0.8 mm/m", nil}, {"angle in each plane", nil, nil, "0.8 mm/m", nil},
		{nil, nil, "2110 mm", nil, "3 mm"}, {nil, nil, nil, "3 mm/m", nil}, {nil, nil, nil, "3 mm/m", nil},
		{nil, nil, nil, "5 mm/m", nil}, {nil, nil, nil, "12 mm", nil}, {nil, nil, nil, "0.08 mm", nil},
		{nil, nil, nil, "0.05 mm", nil}, {nil, nil, "8 mm", nil, "3 mm"}, {nil, "15 mm", nil, nil, nil},
		{nil, "5 N·m", nil, "15 N·m", nil}, {nil, nil, nil, nil, "2 mm"}, {nil, nil, nil, "1 %", nil}, {nil, nil, nil, "5 %", nil},
		{nil, nil, nil, "100 %", nil}, {nil, "5 MΩ", nil, nil, nil}, {nil, nil, nil, "80 °C", nil}, {nil, nil, nil, "80 °C", nil},
		{nil, nil, nil, "4.5 mm/s rms", nil}, {nil, "7 mm/s rms", nil, "11 mm/s rms", nil}, {nil, nil, nil, nil, "1 %"},
		{nil, nil, nil, "70 m/s", nil}, {nil, "4 h", nil, nil, nil},
	} {
		f.row("limits", 8+i, append(append(append([]any{}, v[:]...), nil), accepted...)...)
	}
}
