package assess

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// outsideReason says how a check is outside: to which side, by how much, where,
// how many of its readings are, and how far it goes the other way.
func (t *tower) outsideReason(c *Check, r *Round) Code {
	o := t.newOutside(c, r)
	switch c.Key {
	case Clearance:
		return o.ring()
	case ClearanceAll:
		return o.allBlades()
	case TipRadius:
		return o.tips()
	case Track, PitchSpread:
		return o.apart()
	case Tilt:
		return o.tilted()
	case Pitch:
		return o.pitched()
	case ShaftEnds:
		return o.sided(reasonTooShort, reasonTooLong)
	case GuardEnd, GuardAround:
		return o.sided(reasonTooSmall, reasonTooLarge)
	case GearLevel, MotorLevel, CylinderPlumb, SoftFootGear, SoftFootMotor, SpeedRatio:
		return o.either()
	}
	if !o.open && c.Limit.Criterion.Value == CriterionPlane {
		return o.either()
	}
	return o.sided(reasonUnder, reasonOver)
}

// outside is a round that is out, while the words for it are looked for.
type outside struct {
	t                 *tower
	r                 *Round
	least, most       *Amount // of the limit; nil where that side is open
	open              bool    // one side is
	low, high         int     // readings that are out, by side
	smallest, largest Result  // of the readings
	extremes          bool    // both are known
}

func (t *tower) newOutside(c *Check, r *Round) *outside {
	o := &outside{t: t, r: r}
	o.least, o.most = Bounds(c.Key, c.Limit)
	o.open = o.least == nil || o.most == nil
	for i := range r.Points {
		p := &r.Points[i]
		switch {
		case p.Verdict != Outside:
		case o.least != nil && p.Value.N < o.least.N:
			o.low++
		default:
			o.high++
		}
	}
	for _, keys := range [][2]string{{"least", "greatest"}, {"smallest", "largest"}} {
		small, ok := r.Result(keys[0])
		large, okLarge := r.Result(keys[1])
		if ok && okLarge {
			o.smallest, o.largest, o.extremes = small, large, true
			break
		}
	}
	return o
}

func (o *outside) value() Arg { return amountArg("value", *o.r.Deciding) }

// by is how far the deciding value is beyond the limit.
func (o *outside) by() Arg { return amountArg("over", negative(*o.r.Margin)) }

func negative(a Amount) Amount {
	a.N = -a.N
	return a
}

// under tells whether the deciding value is out on the low side.
func (o *outside) under() bool {
	switch {
	case o.least == nil:
		return false
	case o.most == nil:
		return true
	}
	return o.r.Deciding.N-o.least.N < o.most.N-o.r.Deciding.N
}

// limit is the one that is not met.
func (o *outside) limit() Arg {
	if o.under() {
		return amountArg("limit", *o.least)
	}
	return amountArg("limit", *o.most)
}

// sided says that the deciding value is under the least or over the most.
func (o *outside) sided(under, over string) Code {
	if o.under() {
		return code(under, o.value(), o.by(), o.limit())
	}
	return code(over, o.value(), o.by(), o.limit())
}

// either says that the deciding value, of either sign, is beyond the limit.
func (o *outside) either() Code {
	return code(reasonEither, o.value(), o.by(), amountArg("limit", *o.most))
}

// degrees is the argument for a position, if its place is known.
func (o *outside) degrees(name string, index int) (Arg, bool) {
	d, ok := o.t.degrees[index]
	return amountArg(name, Angle(d)), ok
}

// decidingIndex is the first reading that decides, 0 where none does.
func (o *outside) decidingIndex() int {
	i := slices.IndexFunc(o.r.Points, func(p Point) bool { return p.Found && p.Value.N == o.r.Deciding.N })
	if i < 0 {
		return 0
	}
	return o.r.Points[i].Index
}

// ring says where the gap round the cylinder is out.
func (o *outside) ring() Code {
	at, known := o.degrees("degrees", o.decidingIndex())
	small, okSmall := o.degrees("smallat", o.smallest.Index)
	large, okLarge := o.degrees("largeat", o.largest.Index)
	found := numberArg("found", o.r.Found)
	switch {
	case !known || !okSmall || !okLarge || !o.extremes:
		return o.sided(reasonTooSmall, reasonTooLarge)
	case o.low > 0 && o.high > 0:
		return code(reasonGapUneven, small, amountArg("smallest", o.smallest.Amount), amountArg("least", *o.least), numberArg("small", o.low),
			large, amountArg("largest", o.largest.Amount), amountArg("most", *o.most), numberArg("large", o.high), found)
	case o.under():
		return code(reasonGapSmall, at, o.value(), o.by(), o.limit(), numberArg("out", o.low), found, amountArg("largest", o.largest.Amount))
	}
	return code(reasonGapLarge, at, o.value(), o.by(), o.limit(), numberArg("out", o.high), found, amountArg("smallest", o.smallest.Amount))
}

// allBlades says at which position and with which blade the gap is out.
func (o *outside) allBlades() Code {
	end, key := "largest", reasonAllLarge
	if o.under() {
		end, key = "least", reasonAllSmall
	}
	blade, okBlade := o.r.Result(end + "blade")
	place, okPlace := o.r.Result(end)
	at, known := o.degrees("degrees", place.Index)
	if !okBlade || !okPlace || !known {
		return o.sided(reasonTooSmall, reasonTooLarge)
	}
	return code(key, at, numberArg("blade", blade.Index), o.value(), o.by(), o.limit())
}

// apart says which two blades are too far apart.
func (o *outside) apart() Code {
	if !o.extremes {
		return o.sided(reasonUnder, reasonOver)
	}
	return code(reasonApart, o.ends()...)
}

func (o *outside) ends() []Arg {
	return []Arg{o.value(), o.by(), o.limit(), amountArg("smallest", o.smallest.Amount), numberArg("smallblade", o.smallest.Index),
		amountArg("largest", o.largest.Amount), numberArg("largeblade", o.largest.Index)}
}

// tips says which blades do not fit with the others.
func (o *outside) tips() Code {
	out := o.strays()
	if !o.extremes || len(out) == 0 {
		return o.apart()
	}
	return code(reasonTips, append(o.ends(), textArg("blades", strings.Join(out, ", ")))...)
}

// strays are the blades outside the widest company that fits into the limit.
// None is named where there is more than one such company.
func (o *outside) strays() []string {
	var points []Point
	for _, p := range o.r.Points {
		if p.Found {
			points = append(points, p)
		}
	}
	slices.SortStableFunc(points, func(a, b Point) int { return cmp.Compare(a.Value.N, b.Value.N) })
	from, most, ties := 0, 0, 0
	for i := range points {
		n := 0
		for i+n < len(points) && points[i+n].Value.N-points[i].Value.N <= o.most.N {
			n++
		}
		switch {
		case n > most:
			from, most, ties = i, n, 0
		case n == most:
			ties++
		}
	}
	if ties > 0 {
		return nil
	}
	var blades []int
	for i, p := range points {
		if i < from || i >= from+most {
			blades = append(blades, p.Index)
		}
	}
	slices.Sort(blades)
	out := make([]string, 0, len(blades))
	for _, b := range blades {
		out = append(out, strconv.Itoa(b))
	}
	return out
}

// tilted says where the fan is low and where it is high.
func (o *outside) tilted() Code {
	lowest, okLow := o.r.Result("lowest")
	highest, okHigh := o.r.Result("highest")
	low, knownLow := o.degrees("low", lowest.Index)
	high, knownHigh := o.degrees("high", highest.Index)
	if !okLow || !okHigh || !knownLow || !knownHigh {
		return o.sided(reasonUnder, reasonOver)
	}
	return code(reasonTilted, low, high, o.value(), o.by(), o.limit())
}

// pitched says which blade has too much pitch or too little.
func (o *outside) pitched() Code {
	if o.low > 0 && o.high > 0 {
		return code(reasonPitchUneven, numberArg("smallblade", o.smallest.Index), amountArg("smallest", o.smallest.Amount),
			amountArg("least", *o.least), numberArg("small", o.low), numberArg("largeblade", o.largest.Index),
			amountArg("largest", o.largest.Amount), amountArg("most", *o.most), numberArg("large", o.high), numberArg("found", o.r.Found))
	}
	blade, found := numberArg("blade", o.decidingIndex()), numberArg("found", o.r.Found)
	if o.under() {
		return code(reasonPitchLess, blade, o.value(), o.by(), o.limit(), numberArg("out", o.low), found, amountArg("largest", o.largest.Amount))
	}
	return code(reasonPitchMore, blade, o.value(), o.by(), o.limit(), numberArg("out", o.high), found, amountArg("smallest", o.smallest.Amount))
}
