package compose

import (
	"slices"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// basesPage is what the machine stands on.
func (b *book) basesPage(c towerCell) []page.Block {
	return slices.Concat([]page.Block{b.cellPart(c, "cell.bases")},
		b.roundBlock(c, assess.GearLevel),
		b.blockPair(c, assess.MotorLevel, assess.CylinderPlumb),
		b.roundBlock(c, assess.CylinderRound),
		b.blockPair(c, assess.SoftFootGear, assess.SoftFootMotor))
}

// drivePage is the drive line: how it lies, both couplings, the distance between
// the shaft ends, the guard.
func (b *book) drivePage(c towerCell) []page.Block {
	blocks := []page.Block{b.cellPart(c, "cell.driveline")}
	if pic, ok := b.drivePicture(c); ok {
		blocks = append(blocks, pic)
	}
	return slices.Concat(blocks,
		b.blockPair(c, assess.CouplingGear, assess.CouplingMotor),
		b.blockPair(c, assess.ShaftEnds, assess.GuardEnd),
		b.roundBlock(c, assess.GuardAround))
}

// drivePicture is the drive line from the side and from above, as it was left;
// false where no angle is known at all.
func (b *book) drivePicture(c towerCell) (page.Picture, bool) {
	fig, ok := b.driveFigure(c)
	if !ok {
		return page.Picture{}, false
	}
	fig.Factor = b.scales().drive
	fig.Note = b.driveNote(fig)
	alt := b.say("driveline.finding", "cell", b.cellName(c),
		"gearside", fig.Side.Gear.Label, "motorside", fig.Side.Motor.Label,
		"gearabove", fig.Above.Gear.Label, "motorabove", fig.Above.Motor.Label)
	return page.Picture{Figure: fig, Alt: alt}, true
}

// driveFigure is the drive line of a cell to a scale of its own.
func (b *book) driveFigure(c towerCell) (plot.DriveLine, bool) {
	gear, motor := c.judged.Check(assess.CouplingGear), c.judged.Check(assess.CouplingMotor)
	fig := plot.DriveLine{
		Frame: plot.Frame{Width: b.fullWidth()},
		Side: plot.DriveView{Name: b.say("driveline.side", "side", b.side90()), Upper: b.say("driveline.up"),
			Gear: b.bend(gear, "vertical", 1), Motor: b.bend(motor, "vertical", 1)},
		Above: plot.DriveView{Name: b.say("driveline.above"), Upper: b.side270(), Lower: b.side90(),
			Gear: b.bend(gear, "horizontal", -1), Motor: b.bend(motor, "horizontal", -1)},
		GearReducer: b.say("figure.gearreducer"), DriveShaft: b.say("figure.driveshaft"), Motor: b.say("figure.motor"),
	}
	if fig.Side.Gear.Absent && fig.Side.Motor.Absent && fig.Above.Gear.Absent && fig.Above.Motor.Absent {
		return fig, false
	}
	return fig, true
}

func (b *book) driveNote(fig plot.DriveLine) string {
	if n := fig.Exaggeration(); n > 0 {
		return b.say("driveline.exaggeration", "n", strconv.Itoa(n))
	}
	return b.say("driveline.notoscale")
}

// bend is the angle at a coupling in one plane, as the figure draws it: upward
// is up, or away from the 90° side, hence the sign.
func (b *book) bend(k *assess.Check, plane string, sign int64) plot.Bend {
	r := (*assess.Round)(nil)
	if k != nil {
		r = shown(k)
	}
	if r == nil {
		return plot.Bend{Absent: true, Label: b.say("figure.absent")}
	}
	x, ok := r.Result(plane)
	if !ok {
		return plot.Bend{Absent: true, Label: b.say("driveline.noangle")}
	}
	key := "driveline.open." + plane + ".plus"
	size := x.Amount
	switch {
	case size.N < 0:
		key = "driveline.open." + plane + ".minus"
		size.N = -size.N
	case size.N == 0:
		key = "driveline.open.not"
	}
	label := b.say(key, "value", b.amount(size), "side", b.side90(), "other", b.side270())
	if k.Verdict == assess.Recheck {
		label = b.say("driveline.recheck", "text", label, "verdict", b.say("verdict."+string(assess.Recheck)))
	}
	return plot.Bend{
		Slope: float64(sign*x.Amount.N) / billion,
		Label: label,
		Mark:  figureMark(r.Verdict),
	}
}
