package data

import (
	"strconv"
	"strings"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// This file turns what is recorded of the drive and the rest of the job into
// rows, as record.go does for the registers.

func geometryRow(g *field.Geometry) Row {
	var r row
	return r.text("shimmed", g.Shimmed).length("hubHeight", g.HubHeight).length("shimStep", g.ShimStep).
		count("maxPieces", g.MaxPieces).length("slotAlong", g.SlotAlong).length("slotAcross", g.SlotAcross).
		length("slideFront", g.SlideFront).length("slideRear", g.SlideRear).flag("bladesSlide", g.BladesSlide).
		length("flexSpan", g.FlexSpan).length("flexGear", g.FlexGear).length("flexHeight", g.FlexHeight).
		length("faceGear", g.FaceGear).length("faceMotor", g.FaceMotor).
		length("motorFront", g.MotorFront).length("motorRear", g.MotorRear).length("motorStep", g.MotorStep).
		length("growthFront", g.GrowthFront).length("growthRear", g.GrowthRear).
		number("ratio", g.Ratio).flag("backstop", g.Backstop).flag("reversing", g.Reversing).
		quantity("motorSpeed", g.MotorSpeed).quantity("motorCurrent", g.MotorCurrent).
		quantity("motorVolts", g.MotorVolts).done()
}

func feetRows(list []field.Foot) Keyed[Row] {
	out := Keyed[Row]{}
	for _, f := range list {
		var r row
		out = append(out, Member[Row]{key(f.Number), r.length("along", f.Along).length("across", f.Across).done()})
	}
	return out
}

func stackRows(list []field.Stack) Keyed[Row] {
	var out Keyed[Row]
	for _, s := range list {
		var r row
		out = append(out, Member[Row]{key(s.Foot), r.length("now", s.Now).count("pieces", s.Pieces).done()})
	}
	return out
}

// stockRows are numbered from 1.
func stockRows(list []field.StockShim) Keyed[Row] {
	var out Keyed[Row]
	for i, s := range list {
		var r row
		out = append(out, Member[Row]{key(i + 1), r.length("thickness", s.Thickness).done()})
	}
	return out
}

func motorStackRows(list []field.MotorStack) Keyed[Row] {
	keys := itemKeys(list, func(s *field.MotorStack) string { return s.Place })
	return keyedRows(list, keys, func(s *field.MotorStack) Row {
		var r row
		return r.length("now", s.Now).count("pieces", s.Pieces).done()
	})
}

func stuck(list []field.Stuck) []Row {
	if len(list) == 0 {
		return nil
	}
	return rows(list, stuckRow)
}

func stuckRow(s field.Stuck) Row {
	var r row
	return r.text("what", s.What).text("way", s.Way).text("feet", s.Feet).count("foot", s.Foot).text("reason", s.Reason).done()
}

// itemKeys are the keys that the assessment gives to items of these codes, in
// the same order: the ordinal where there is no code, a count behind a code that
// was there before.
func itemKeys[T any](list []T, codeOf func(*T) string) []string {
	keys := make([]string, 0, len(list))
	seen := map[string]int{}
	for i := range list {
		code := codeOf(&list[i])
		seen[code]++
		switch {
		case code == "":
			code = key(i + 1)
		case seen[code] > 1:
			code += "-" + strconv.Itoa(seen[code])
		}
		keys = append(keys, code)
	}
	return keys
}

func fastenerRows(list []field.Fasteners) Keyed[Row] {
	keys := itemKeys(list, func(f *field.Fasteners) string {
		if f.Set.Value == "" {
			return assess.SetOther
		}
		return f.Set.Value
	})
	return keyedRows(list, keys, fastenerRow)
}

func fastenerRow(f *field.Fasteners) Row {
	var r row
	return r.text("set", f.Set).text("name", f.Name).count("count", f.Count).text("size", f.Size).
		text("class", f.Class).text("material", f.Material).text("lubricant", f.Lubricant).
		number("coefficient", f.Coefficient).quantity("firstPass", f.FirstPass).quantity("final", f.Final).
		quantity("required", f.Required).quantity("firstUnder", f.FirstUnder).count("clicks", f.Clicks).
		quantity("running", f.Running).flag("pattern", f.Pattern).flag("stripe", f.Stripe).text("tool", f.Tool).
		text("scheduled", f.Scheduled).text("locking", f.Locking).text("lockingTime", f.LockingTime).
		text("authority", f.Authority).date("date", f.Date).clock("time", f.Time).
		count("sequence", f.Sequence).text("by", f.By).done()
}

func pinRows(list []field.Pins) Keyed[Row] {
	keys := itemKeys(list, func(p *field.Pins) string {
		if p.Where.Value == "" {
			return ""
		}
		return "dowel." + p.Where.Value
	})
	return keyedRows(list, keys, func(p *field.Pins) Row {
		var r row
		return r.text("where", p.Where).flag("required", p.Required).count("count", p.Count).
			count("found", p.Found).length("hole", p.Hole).length("above", p.Above).length("below", p.Below).
			date("date", p.Date).clock("time", p.Time).count("sequence", p.Sequence).text("by", p.By).done()
	})
}

func preStartRows(list []field.Item) Keyed[Row] {
	keys := itemKeys(list, func(i *field.Item) string { return i.Key })
	return keyedRows(list, keys, func(i *field.Item) Row {
		var r row
		return r.flag("done", i.Done).text("by", i.By).date("date", i.Date).text("note", i.Note).done()
	})
}

// runKey is the round key of a start-up by its index.
func runKey(i int) string { return "run" + key(i+1) }

func startUpRows(list []field.StartUp) Keyed[Row] {
	var out Keyed[Row]
	for i := range list {
		out = append(out, Member[Row]{runKey(i), startUpRow(&list[i])})
	}
	return out
}

// startUpRow holds the points of vibration, too: "vibrationPoint-1" and so on,
// counted from 1.
func startUpRow(s *field.StartUp) Row {
	var r row
	r.date("date", s.Date).clock("time", s.Time).text("by", s.By).
		quantity("airTemperature", s.AirTemperature).text("water", s.Water).quantity("frequency", s.Frequency).
		flag("rotationOK", s.RotationOK).flag("uncoupled", s.Uncoupled).
		quantity("volts12", s.Volts[0]).quantity("volts23", s.Volts[1]).quantity("volts31", s.Volts[2]).
		quantity("amps1", s.Amps[0]).quantity("amps2", s.Amps[1]).quantity("amps3", s.Amps[2]).text("meter", s.Meter).
		quantity("motorSpeed", s.MotorSpeed).quantity("fanSpeed", s.FanSpeed).text("tachometer", s.Tachometer).
		quantity("insulation", s.Insulation).quantity("insulationTemp", s.InsulationTemp).
		quantity("insulationTest", s.InsulationTest).text("windingType", s.WindingType).text("insulationTester", s.InsulationTester).
		flag("oilLevelOK", s.OilLevelOK).quantity("oilTemperature", s.OilTemperature).
		quantity("bearingDrive", s.Bearing[0]).quantity("bearingOther", s.Bearing[1]).text("thermometer", s.Thermometer).
		quantity("runTime", s.RunTime).flag("reverseOK", s.ReverseOK).
		quantity("switchSetPoint", s.SwitchSetPoint).flag("switchTrip", s.SwitchTrip).text("vibrationMeter", s.VibrationMeter)
	for i := range s.Vibration {
		v, n := &s.Vibration[i], "-"+key(i+1)
		r.text("vibrationPoint"+n, v.Point).text("vibrationAxis"+n, v.Axis).
			quantity("vibration"+n, v.Value).text("vibrationDetector"+n, v.Detector).
			quantity("vibrationLimit"+n, v.Limit)
	}
	return r.done()
}

// moveRow holds what was done at each foot, too: "was-1" and "now-1" are the
// shims at foot 1 before and after.
func moveRow(m field.Move) Row {
	var r row
	r.count("sequence", m.Sequence).date("date", m.Date).clock("time", m.Time).
		text("event", m.Event).text("detail", m.Detail)
	for _, f := range m.Feet {
		r.length("was-"+key(f.Foot), f.Was).length("now-"+key(f.Foot), f.Now)
	}
	r.length("along", m.Along).length("front", m.Front).length("rear", m.Rear)
	r.add("blades", len(m.Blades) > 0, Entry{Value: numbers(m.Blades), At: m.At.String(), File: m.At.File})
	return r.text("instrument", m.Instrument).date("lastGood", m.LastGood).text("by", m.By).done()
}

// numbers lists whole numbers as people write them: "1, 4, 7".
func numbers(list []int) string {
	var out []string
	for _, n := range list {
		out = append(out, strconv.Itoa(n))
	}
	return strings.Join(out, ", ")
}
