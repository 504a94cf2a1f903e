package correct_test

import (
	"math"
	"math/rand/v2"

	"asleft/internal/correct"
	"asleft/internal/measure"
)

const inch = measure.Inch

// The model below is a rigid body in three dimensions, with no small angles. It
// shares nothing with the package but the meaning of its inputs. Its frame is
// right-handed: y of the plan is turned round on the way in and out.

type v3 struct{ x, y, z float64 }

func (a v3) add(b v3) v3         { return v3{a.x + b.x, a.y + b.y, a.z + b.z} }
func (a v3) sub(b v3) v3         { return v3{a.x - b.x, a.y - b.y, a.z - b.z} }
func (a v3) mul(f float64) v3    { return v3{a.x * f, a.y * f, a.z * f} }
func (a v3) dot(b v3) float64    { return a.x*b.x + a.y*b.y + a.z*b.z }
func (a v3) cross(b v3) v3       { return v3{a.y*b.z - a.z*b.y, a.z*b.x - a.x*b.z, a.x*b.y - a.y*b.x} }
func (a v3) unit() v3            { return a.mul(1 / math.Sqrt(a.dot(a))) }
func toModel(x, y, z float64) v3 { return v3{x, -y, z} }

// turn is the rotation that takes the vertical to n without spin, applied to v
// (Rodrigues).
func turn(n, v v3) v3 {
	k := v3{0, 0, 1}.cross(n)
	s := math.Sqrt(k.dot(k))
	if s == 0 {
		return v
	}
	k, c := k.mul(1/s), n.z
	return v.mul(c).add(k.cross(v).mul(s)).add(k.mul(k.dot(v) * (1 - c)))
}

// machine is a gear reducer with its fan, a motor, a floating shaft between them
// and a wall; lengths in inches. Positive slopes of the base rise toward +x, +y of
// the plan.
type machine struct {
	baseX, baseY, baseZ float64 // the point of the base under the fan's axis
	slopeX, slopeY      float64 // of the base
	hub, ring, tip      float64 // height above the base; radius read for tilt; radius of the tip circle
	flexX, flexZ        float64 // plane B on the gear reducer: along and above the base
	wall                func(theta float64) float64
	deckX, deckY        float64 // slope of the deck that carries the marks
	motor               v3      // plane A, plan
	motorZ, motorY      float64 // slopes of the motor's shaft
	faceB, faceA, gap   float64
}

func (m *machine) normal() v3    { return toModel(-m.slopeX, -m.slopeY, 1).unit() }
func (m *machine) base() v3      { return toModel(m.baseX, m.baseY, m.baseZ) }
func (m *machine) fanCenter() v3 { return m.base().add(m.normal().mul(m.hub)) }

// shim raises feet by the given heights and finds the plane through the first
// three of them; the fourth must lie in it.
func (m *machine) shim(feet []correct.Foot, change []correct.FootChange) (outOfPlane float64) {
	p := make([]v3, len(feet))
	for i, f := range feet {
		x, y := in(f.Along), in(f.Across)
		p[i] = toModel(x, y, m.baseZ+m.slopeX*(x-m.baseX)+m.slopeY*(y-m.baseY)+in(change[i].Change))
	}
	n := p[1].sub(p[0]).cross(p[2].sub(p[0])).unit()
	if n.z < 0 {
		n = n.mul(-1)
	}
	for _, q := range p {
		outOfPlane = math.Max(outOfPlane, math.Abs(q.sub(p[0]).dot(n)))
	}
	b := toModel(m.baseX, m.baseY, 0)
	m.baseZ = p[0].z - (n.x*(b.x-p[0].x)+n.y*(b.y-p[0].y))/n.z
	m.slopeX, m.slopeY = -n.x/n.z, n.y/n.z
	return outOfPlane
}

func (m *machine) slide(s correct.Shift) {
	m.baseX += in(s.Along)
	m.baseY += in(s.Across)
}

// drop is measured straight down from a mark over the ring to the plane in which
// the blade turns, less the mark's own height.
func (m *machine) drop(theta float64) float64 {
	q := toModel(m.ring*math.Cos(theta), m.ring*math.Sin(theta), 0)
	h, n := m.fanCenter(), m.normal()
	mark := 10 + m.deckX*q.x - m.deckY*q.y
	z := h.z - (n.x*(q.x-h.x)+n.y*(q.y-h.y))/n.z
	return (m.hub + mark - z) - (mark - 10)
}

// clear is measured level from the tip of a blade that points at the wall's mark
// at θ.
func (m *machine) clear(theta float64) float64 {
	w := m.wall(theta)
	q := toModel(w*math.Cos(theta), w*math.Sin(theta), 0)
	h, n := m.fanCenter(), m.normal()
	d := v3{q.x - h.x, q.y - h.y, 0}
	far := math.Sqrt(d.dot(d))
	d = d.unit()
	rise := -(n.x*d.x + n.y*d.y) / n.z
	return far - m.tip/math.Sqrt(1+rise*rise)
}

// faces are measured between flanges at top, 90° side, bottom and the side
// opposite, along the axis of the machine's own flange.
func (m *machine) faces() (gear, motor [4]float64) {
	n := m.normal()
	b := m.base().add(turn(n, toModel(m.flexX, 0, m.flexZ)))
	dirB := turn(n, v3{1, 0, 0})
	a := toModel(m.motor.x, m.motor.y, m.motor.z)
	dirA := toModel(1, m.motorY, m.motorZ).unit()
	d := a.sub(b).unit()
	for i, w := range []v3{{0, 0, 1}, toModel(0, 1, 0), {0, 0, -1}, toModel(0, -1, 0)} {
		onB := w.sub(dirB.mul(w.dot(dirB))).unit()
		onA := w.sub(dirA.mul(w.dot(dirA))).unit()
		gear[i] = (m.gap - m.faceB/2*onB.dot(d)) / dirB.dot(d)
		motor[i] = (m.gap + m.faceA/2*onA.dot(d)) / dirA.dot(d)
	}
	return gear, motor
}

// pushMotor moves the motor's feet, front and rear behind plane A.
func (m *machine) pushMotor(front, rear float64, up, across correct.MotorFeet) {
	lever := rear - front
	tz, ty := in(up.Rear-up.Front)/lever, in(across.Rear-across.Front)/lever
	m.motor.z += in(up.Front) - tz*front
	m.motor.y += in(across.Front) - ty*front
	m.motorZ += tz
	m.motorY += ty
}

func in(l measure.Length) float64 { return l.Float(measure.UnitInch) }

func nm(inches float64) measure.Length {
	l, err := measure.FromFloat(inches, measure.UnitInch)
	if err != nil {
		panic(err)
	}
	return l
}

// read takes a reading at n even positions.
func read(n int, f func(theta float64) float64) []correct.Reading {
	out := make([]correct.Reading, n)
	for i := range out {
		deg := measure.Angle(i) * 360 * measure.Degree / measure.Angle(n)
		out[i] = correct.Reading{Position: i + 1, Degrees: deg, Value: nm(f(deg.Radians()))}
	}
	return out
}

// rectangle of feet, clockwise from the motor: on the motor's side toward 90°,
// then round.
func rectangle(along, across measure.Length) []correct.Foot {
	return []correct.Foot{
		{Number: 1, Along: along, Across: across, Known: true},
		{Number: 2, Along: -along, Across: across, Known: true},
		{Number: 3, Along: -along, Across: -across, Known: true},
		{Number: 4, Along: along, Across: -across, Known: true},
	}
}

// crooked is a machine out of true in every way.
func crooked(r *rand.Rand, lobes float64) *machine {
	pm := func(f float64) float64 { return f * (2*r.Float64() - 1) }
	k, phase := 2+r.IntN(3), r.Float64()*6
	m := &machine{
		slopeX: pm(0.005), slopeY: pm(0.005), hub: 60, ring: 84, tip: 120, flexX: 20, flexZ: 30,
		deckX: pm(0.01), deckY: pm(0.01), faceB: 10, faceA: 8, gap: 1,
		motorZ: pm(0.002), motorY: pm(0.002),
	}
	// The fan stands off center by up to a third of an inch.
	m.baseX, m.baseY = pm(0.33)+m.hub*m.slopeX, pm(0.33)+m.hub*m.slopeY
	m.wall = func(t float64) float64 { return 120.5 + lobes*math.Cos(float64(k)*t+phase) }
	m.motor = v3{m.baseX + 140, m.baseY + pm(0.1), m.flexZ + 20*m.slopeX + 120*m.slopeX + pm(0.1)}
	return m
}
