package main

// crewHead is a cell's head from the name of the reader on.
func crewHead(sheet, air, wind string) []any {
	return []any{"Tor Brandvold", "Pia Wexcombe", nil, sheet, air, wind, "dry", "off", "none, the tower is shut down",
		"cold", "yes", "yes", "Ines Halloway"}
}

// demoFan is a fan of 28 ft with small natural differences of its own.
func demoFan(number int) fan {
	r := chance(uint64(number), forFan)
	f := fan{
		gap:    around(r, 1, 0.53, 0.01, 0.015)[0],
		extra:  around(r, 8, 0, 0.03, 0.05),
		rise:   around(r, 8, 0, 0.16, 0.3),
		pitch:  around(r, 8, 12.5, 0.07, 0.14),
		oval:   around(r, 1, 0.03, 0.008, 0.012)[0],
		ovalAt: float64(r.IntN(180)),
	}
	for range 12 {
		f.mark = append(f.mark, float64(r.IntN(7)-3)/16)
	}
	f.toBlade = 14 + float64(r.IntN(9)-4)/8
	return f
}

// Crew that all stories share.
const crew = "Pia Wexcombe"

// onDay is the works of a cell whose bases stayed as they were, read on a day:
// bolted before, its guard closed and its pins set after.
func onDay(d day) works {
	return works{built: d.plus(-4), held: [2]when{{d, "7:40"}, {d, "7:52"}}, guarded: when{d, "11:45"}, pinned: when{d, "13:10"},
		ready: when{"2026-03-22", ""}}
}

// softFirst is when soft feet are read before the hold-downs are torqued.
func softFirst(d day) [2]when { return [2]when{{d, "7:08"}, {d, "7:24"}} }

func cleanCell(t trade, number int, d day) cell {
	c := cell{number: number, fan: demoFan(number), remarks: "As found was good; nothing was moved.", stacks: t.stacksOf(number), works: onDay(d)}
	c.now = t.stand(pose{off: 0.03, offAt: 200, tilt: 0.31, lowest: 140}, [2]float64{0.003, -0.002}, [2]float64{-0.002, 0.003}, 0)
	c.read(t.machine, round{key: "asfound", date: d, hour: 8, accepted: true, blocks: everything, drive: driveBlocks, soft: softFirst(d),
		sheet: "1D", head: crewHead("1", "41 °F", "light, from the west")})
	return c
}

// shimmedCell is shimmed in two steps; the shims move the hub, and the motor
// follows the gear reducer.
func shimmedCell(t trade, number int, d day) cell {
	c := cell{number: number, fan: demoFan(number), stacks: t.stacksOf(number), works: onDay(d.plus(1))}
	c.works.held = [2]when{{d, "16:10"}, {d.plus(1), "8:25"}}
	c.works.guarded, c.works.pinned = when{d.plus(1), "12:50"}, when{d.plus(1), "13:40"}
	c.now = t.stand(pose{off: 0.24, offAt: 15, tilt: 1.38, lowest: 20}, [2]float64{0.011, 0.006}, [2]float64{-0.012, 0.009}, 0)
	c.read(t.machine, round{key: "asfound", date: d, hour: 8, blocks: everything, drive: driveBlocks, sheet: "2D", soft: softFirst(d),
		stands: []string{"cylinderplumb", "cylinderround"}, head: crewHead("2", "38 °F", "none")})
	c.do(t.machine, move{event: "gear reducer shimmed", sequence: 1, date: d, at: "11:50", by: crew,
		detail: "under both feet toward the motor", shims: c.shimmed([4]float64{0.045, 0, 0, 0.045})})
	c.read(t.machine, round{key: "second", date: d, hour: 13, blocks: []string{"tilt"}, head: crewHead("3", "47 °F", "light")})
	c.do(t.machine, move{event: "gear reducer shimmed", sequence: 2, date: d, at: "15:20", by: crew,
		detail: "motor and river side", shims: c.shimmed([4]float64{0.058, 0.018, 0, 0.040})})
	c.do(t.machine, move{event: "hold-downs torqued", sequence: 3, date: d, at: "16:10", by: crew, detail: "all four, final torque"})
	c.follow(t, 0.001, when{d.plus(1), "7:30"}, crew)
	c.read(t.machine, round{key: "asleft", date: d.plus(1), hour: 9, blocks: everything, drive: driveAgain, sheet: "4D",
		soft: [2]when{{d, "15:48"}, {d.plus(1), "8:06"}}, head: crewHead("4", "40 °F", "none")})
	return c
}

// offCenterCell is not slid far enough, and its hold-downs got one pass only.
func offCenterCell(t trade) cell {
	const d = day("2026-03-12")
	c := cell{number: 3, fan: demoFan(3), stacks: t.stacksOf(3), remarks: "Slots bind at the far side; the crew stopped for wind.", works: onDay(d)}
	c.works.held, c.works.ready = [2]when{{d, "12:44"}, {d, "13:38"}}, when{}
	c.works.guarded, c.works.pinned = when{d, "17:25"}, when{d.plus(1), "8:30"}
	c.works.wrong = map[string]func(*done){gearHeld: func(d *done) { d.first = d.final }}
	c.fan.gap = 0.50
	c.now = t.stand(pose{off: 0.35, offAt: 75, tilt: 0.40, lowest: 300}, [2]float64{0.004, -0.003}, [2]float64{0.003, 0.004}, 0)
	c.read(t.machine, round{key: "asfound", date: d, hour: 8, blocks: everything, drive: driveBlocks, sheet: "5D", soft: softFirst(d),
		stands: []string{"cylinderplumb", "cylinderround", "pitch", "track"}, head: crewHead("5", "44 °F", "light")})
	c.do(t.machine, move{event: "gear reducer slid", date: d, at: "12:15", by: crew,
		detail: "away from the river side, all four feet", front: -0.125, rear: -0.125})
	c.follow(t, 0.001, when{d, "13:00"}, crew)
	c.read(t.machine, round{key: "asleft", date: d, hour: 14, blocks: afterMove, drive: driveAgain, sheet: "6D",
		soft: [2]when{{d, "12:27"}, {d, "13:22"}}, head: crewHead("6", "52 °F", "gusts to 10 mph")})
	return c
}

// shortBladeCell has a blade that somebody accepted, and a drive shaft that was
// not read again after the gear reducer was shimmed.
func shortBladeCell(t trade) cell {
	const d = day("2026-03-13")
	c := cell{number: 4, fan: demoFan(4), stacks: t.stacksOf(4), remarks: "Blade 5 at the end of its clamp; the fan maker is asked.", works: onDay(d)}
	c.works.held, c.works.ready = [2]when{{d, "13:36"}, {d, "7:52"}}, when{}
	c.works.pinned = when{d.plus(3), "9:05"}
	c.fan.extra[4] = -0.31
	c.now = t.stand(pose{off: 0.03, offAt: 120, tilt: 0.44, lowest: 250}, [2]float64{-0.003, 0.002}, [2]float64{0.004, -0.002}, 0)
	c.read(t.machine, round{key: "asfound", date: d, hour: 8, blocks: everything, drive: driveBlocks, sheet: "7D", soft: softFirst(d),
		stands: []string{"pitch", "track", "tipradius", "motorlevel", "cylinderplumb", "cylinderround", "softfootmotor",
			"couplinggear", "couplingmotor", "shaftends", "guardend", "guardaround"},
		head: crewHead("7", "39 °F", "none")})
	c.do(t.machine, move{event: "gear reducer shimmed", date: d, at: "13:10", by: crew,
		detail: "under all feet, to make room for the guard", shims: c.shimmed([4]float64{0.005, 0.005, 0.005, 0.005})})
	c.read(t.machine, round{key: "asleft", date: d, hour: 14, blocks: []string{"tilt", "clearance"},
		drive: []string{"gearlevel", "softfootgear"}, soft: [2]when{{d, "13:22"}}, sheet: "7E", head: crewHead("7A", "48 °F", "none")})
	return c
}

// unfinishedCell has staging on one side only: nobody got to all bolts, and
// nothing was started.
func unfinishedCell(t trade) cell {
	const d = day("2026-03-16")
	c := cell{number: 5, fan: demoFan(5), noMarks: true, skip: []string{"pitch", "track"}, stacks: t.stacksOf(5), works: onDay(d),
		blocked: map[int]any{1: "drive-shaft opening", 7: nil, 8: nil}, remarks: "No staging at positions 7 and 8 on the day."}
	for i := range c.fan.mark {
		c.fan.mark[i] /= 3 // nobody leveled them; the deck is nearly level
	}
	c.works.left, c.works.pinned, c.works.ready = []string{"fan cylinder bolts", guardBolts}, when{}, when{}
	c.now = t.stand(pose{off: 0.05, offAt: 30, tilt: 0.52, lowest: 90}, [2]float64{0.002, 0.003}, [2]float64{-0.003, 0.002}, 0)
	c.read(t.machine, round{key: "asfound", date: d, hour: 8, accepted: true, blocks: everything, drive: driveBlocks, soft: softFirst(d),
		sheet: "8D", head: crewHead("8", "36 °F", "light")})
	return c
}

// overtakenCell was shimmed once more after it was read, and two of its bolts
// were forgotten.
func overtakenCell(t trade) cell {
	const d = day("2026-03-17")
	c := cell{number: 6, fan: demoFan(6), stacks: t.stacksOf(6), works: onDay(d),
		remarks: "Shimmed again on March 19 for the drive shaft; the fan was not read after it."}
	c.works.held, c.works.guarded = [2]when{{d, "14:38"}, {d, "15:46"}}, when{d.plus(1), "11:40"}
	c.works.pinned, c.works.ready = when{}, when{}
	c.works.wrong = map[string]func(*done){"fan cylinder bolts": func(d *done) { d.clicks = 62 }}
	c.now = t.stand(pose{off: 0.11, offAt: 350, tilt: 0.69, lowest: 350}, [2]float64{0.006, 0.002}, [2]float64{-0.007, 0.003}, 0)
	c.read(t.machine, round{key: "asfound", date: d, hour: 8, blocks: everything, drive: driveBlocks, sheet: "9D", soft: softFirst(d),
		stands: []string{"cylinderplumb", "cylinderround"}, head: crewHead("9", "43 °F", "none")})
	c.do(t.machine, move{event: "gear reducer shimmed", date: d, at: "14:00", by: crew,
		detail: "under both feet toward the motor", shims: c.shimmed([4]float64{0.030, 0, 0, 0.030})})
	c.follow(t, 0.001, when{d, "15:00"}, crew)
	c.read(t.machine, round{key: "asleft", date: d.plus(1), hour: 8, blocks: everything, drive: driveAgain, sheet: "10D",
		soft: [2]when{{d, "14:19"}, {d, "15:30"}}, head: crewHead("10", "45 °F", "none")})
	c.do(t.machine, move{event: "gear reducer shimmed", date: d.plus(2), at: "10:40", by: crew,
		detail: "under all feet", shims: c.shimmed([4]float64{0.010, 0.010, 0.010, 0.010})})
	return c
}
