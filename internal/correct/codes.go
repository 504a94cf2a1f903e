package correct

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/measure"
)

// Keys of what may be said beside a move or instead of one. The words are in
// the language files under the same key.
const (
	// Inputs that are not there.
	needSense     = "correct.need.sense"
	needRadius    = "correct.need.radius"
	needFeet      = "correct.need.feet"
	needStep      = "correct.need.step"
	needHub       = "correct.need.hub"
	needSlots     = "correct.need.slots"
	needStacks    = "correct.need.stacks"
	needLevel     = "correct.need.level"
	needFlex      = "correct.need.flex"
	needMotorFeet = "correct.need.motorfeet"
	needSlide     = "correct.need.bladesslide"
	needSurround  = "correct.need.surround"

	// Limits that bind.
	bindLevel     = "correct.bind.level"
	bindPieces    = "correct.bind.pieces"
	bindSlot      = "correct.bind.slot"
	bindBlades    = "correct.bind.blades"
	bindClearance = "correct.bind.clearance"
	bindStock     = "correct.bind.stock"
	bindFoot      = "correct.bind.foot"
	bindSide      = "correct.bind.side"
	bindMotor     = "correct.bind.motor"
	bindShimsOut  = "correct.bind.shimsout"
	bindMotorFeet = "correct.bind.motorfeet"

	// Why nothing is moved, or not enough.
	whyWithin    = "correct.within"
	whyFew       = "correct.fewpositions"
	whyNothing   = "correct.nothingtogain"
	whyNoVerdict = "correct.verdictstays"
	whyFloor     = "correct.floor"
	whyOvertaken = "correct.overtaken"

	// Cautions.
	warnAlias       = "correct.alias"
	warnUncertain   = "correct.nouncertainty"
	warnResidual    = "correct.residualfoot"
	warnMean        = "correct.meangap"
	warnHub         = "correct.hubseat"
	warnBalance     = "correct.balance"
	warnLongest     = "correct.longestagain"
	warnUnchecked   = "correct.notchecked"
	warnDriveReread = "correct.drivereread"
	warnMotorFirst  = "correct.motorwaits"
	warnMoreThanOne = "correct.restwaits"
	warnMotorOut    = "correct.motorshimsout"
	warnGrowth      = "correct.growth"
	warnFaces       = "correct.faces"

	// Closing the loop.
	loopNoRepeat = "correct.loop.norepeatability"
	loopAgrees   = "correct.loop.agrees"
	loopUnsure   = "correct.loop.unsure"
	loopDiffers  = "correct.loop.differs"
	loopSlip     = "correct.loop.slip"
	loopNotRead  = "correct.loop.notread"
	loopFew      = "correct.loop.few"
	loopOther    = "correct.loop.other"
	loopBlade    = "correct.loop.blade"
)

// Codes lists every code there is and the names of its arguments.
func Codes() []assess.CodeSpec {
	return []assess.CodeSpec{
		{Key: needSense}, {Key: needRadius}, {Key: needFeet}, {Key: needStep}, {Key: needHub},
		{Key: needSlots}, {Key: needStacks}, {Key: needLevel},
		{Key: needFlex}, {Key: needMotorFeet}, {Key: needSlide},
		{Key: needSurround},

		{Key: bindLevel, Args: []string{"direction"}}, {Key: bindPieces, Args: []string{"pieces"}},
		{Key: bindSlot, Args: []string{"direction", "travel"}}, {Key: bindBlades}, {Key: bindClearance},
		{Key: bindStock}, {Key: bindFoot, Args: []string{"foot"}}, {Key: bindSide, Args: []string{"direction"}},
		{Key: bindMotor, Args: []string{"feet", "direction"}}, {Key: bindShimsOut, Args: []string{"feet", "stack", "needed"}},
		{Key: bindMotorFeet, Args: []string{"feet"}},

		{Key: whyWithin, Args: []string{"check"}}, {Key: whyFew, Args: []string{"found", "needed"}},
		{Key: whyNothing, Args: []string{"check", "move", "uncertainty"}},
		{Key: whyNoVerdict, Args: []string{"check", "value"}}, {Key: whyFloor, Args: []string{"check", "floor"}},
		{Key: whyOvertaken, Args: []string{"check"}},

		{Key: warnAlias, Args: []string{"segments", "positions"}}, {Key: warnUncertain, Args: []string{"check"}},
		{Key: warnResidual, Args: []string{"foot", "rise"}}, {Key: warnMean, Args: []string{"amount"}},
		{Key: warnHub, Args: []string{"check", "amount", "blade"}}, {Key: warnBalance}, {Key: warnLongest},
		{Key: warnUnchecked, Args: []string{"check"}}, {Key: warnDriveReread}, {Key: warnMotorFirst},
		{Key: warnMoreThanOne, Args: []string{"moves"}}, {Key: warnMotorOut, Args: []string{"front", "rear"}},
		{Key: warnGrowth, Args: []string{"front", "rear"}}, {Key: warnFaces},

		{Key: loopNoRepeat}, {Key: loopAgrees}, {Key: loopUnsure, Args: []string{"pairs"}}, {Key: loopDiffers}, {Key: loopSlip, Args: []string{"slip", "odds"}},
		{Key: loopNotRead}, {Key: loopFew, Args: []string{"check", "found", "needed"}},
		{Key: loopOther, Args: []string{"check"}}, {Key: loopBlade, Args: []string{"check"}},
	}
}

// Kinds lists every kind of move, in order.
func Kinds() []string {
	return []string{KindHub, KindShim, KindSlide, KindBladeOut, KindBladeSeat, KindBladePitch, KindWall,
		KindCylinder, KindMotorShim, KindMotorPush, KindMotorAxial}
}

func code(key string, args ...assess.Arg) assess.Code { return assess.Code{Key: key, Args: args} }

func lengthArg(name string, l measure.Length) assess.Arg {
	a := assess.Length(l)
	return assess.Arg{Name: name, Amount: &a}
}

func numberArg(name string, n int) assess.Arg { return assess.Arg{Name: name, Number: &n} }

func textArg(name, text string) assess.Arg { return assess.Arg{Name: name, Text: text} }

// sameCode tells whether two codes say the same.
func sameCode(a, b assess.Code) bool {
	return a.Key == b.Key && slices.EqualFunc(a.Args, b.Args, func(x, y assess.Arg) bool {
		return x.Name == y.Name && x.Text == y.Text && sameValue(x.Amount, y.Amount) && sameValue(x.Number, y.Number)
	})
}

func sameValue[T comparable](a, b *T) bool {
	return a == nil && b == nil || a != nil && b != nil && *a == *b
}
