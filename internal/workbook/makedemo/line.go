package main

import "math"

// machine is what the moves follow from: lengths of the drive in the plant's
// unit, along from the fan center toward the motor, up from the feet that are
// shimmed.
type machine struct {
	radius                float64 // at which tilt is read
	hub                   float64 // height of the fan
	footAlong, footAcross float64 // of the four feet, which stand in a rectangle around the fan center
	flexAlong, flexUp     float64 // of the flex plane at the gear reducer
	span                  float64 // to that at the motor
	face                  float64 // diameter of both couplings
	motorFront, motorRear float64 // from the motor's flex plane
	ends                  float64 // between shaft ends as drawn
	mean                  float64 // gap of the couplings when straight
}

// feet are the four feet's places, numbered clockwise from the motor.
func (m machine) feet() [4][2]float64 {
	x, y := m.footAlong, m.footAcross
	return [4][2]float64{{x, y}, {-x, y}, {-x, -y}, {x, -y}}
}

// state is how one cell stands between two moves.
type state struct {
	gx, gy float64 // slope of the fan, toward its low side
	mx, my float64 // of the fan center, from the cylinder's
	up     shafts  // seen from the side
	across shafts  // seen from above, toward the 90° side
	ends   float64 // beyond those drawn
}

// shafts is the drive line in one view: the slope of the input shaft and that of
// the motor, and where their flex planes are.
type shafts struct{ gearSlope, gearAt, motorAt, motorSlope float64 }

// bends are the drive shaft's slope less the input shaft's, and the motor's less
// the drive shaft's.
func (s shafts) bends(span float64) (gear, motor float64) {
	shaft := (s.motorAt - s.gearAt) / span
	return shaft - s.gearSlope, s.motorSlope - shaft
}

// pose is how the fan sits.
func (m machine) pose(s state) pose {
	return pose{off: math.Hypot(s.mx, s.my), offAt: degrees(s.my, s.mx),
		tilt: 2 * m.radius * math.Hypot(s.gx, s.gy), lowest: degrees(s.gy, s.gx)}
}

func degrees(y, x float64) float64 { return math.Atan2(y, x) * 180 / math.Pi }

// stand is a state with the fan in a pose and the drive line bent at its two
// couplings, each given by highest minus lowest in its two planes.
func (m machine) stand(p pose, gear, motor [2]float64, ends float64) state {
	s := state{gx: p.tilt / 2 / m.radius * math.Cos(rad(p.lowest)), gy: p.tilt / 2 / m.radius * math.Sin(rad(p.lowest)),
		mx: p.off * math.Cos(rad(p.offAt)), my: p.off * math.Sin(rad(p.offAt)), ends: ends}
	line := func(n int) shafts {
		b, a := gear[n]/m.face, motor[n]/m.face
		return shafts{motorAt: b * m.span, motorSlope: b + a}
	}
	s.up, s.across = line(0), line(1)
	return s
}

// move is a line of the move log, with its effect.
type move struct {
	event       string // in words
	sequence    any
	date        day
	at          clock
	detail, by  string
	shims       []shim
	along       float64
	front, rear float64
	blades      string
	motor       bool // the motor's feet, else those of the gear reducer
}

// shim is a foot's stack before and after.
type shim struct {
	foot     int
	was, now float64
}

// after is the state after a move.
func (m machine) after(s state, v move) state {
	if v.motor {
		return m.motorMoved(s, v)
	}
	var rise [4]float64
	for _, x := range v.shims {
		rise[x.foot-1] = x.now - x.was
	}
	// The feet stay in one plane, so two of its edges give its slopes.
	qx := (rise[0] + rise[3] - rise[1] - rise[2]) / 4 / m.footAlong
	qy := (rise[0] + rise[1] - rise[2] - rise[3]) / 4 / m.footAcross
	c := (rise[0] + rise[1] + rise[2] + rise[3]) / 4
	s.gx, s.gy = s.gx-qx, s.gy-qy
	yaw := (v.front - v.rear) / (2 * m.footAlong)
	middle := (v.front + v.rear) / 2
	s.mx += v.along - m.hub*qx
	s.my += middle - m.hub*qy
	s.up.gearSlope += qx
	s.up.gearAt += qx*m.flexAlong + c
	s.across.gearSlope += yaw
	s.across.gearAt += middle + yaw*m.flexAlong - m.flexUp*qy
	s.ends -= v.along - m.flexUp*qx
	return s
}

// motorMoved: its feet 2 and 3 are those nearest the gear reducer.
func (m machine) motorMoved(s state, v move) state {
	var rise [4]float64
	for _, x := range v.shims {
		rise[x.foot-1] = x.now - x.was
	}
	s.up = m.pushed(s.up, (rise[1]+rise[2])/2, (rise[0]+rise[3])/2)
	s.across = m.pushed(s.across, v.front, v.rear)
	s.ends += v.along
	return s
}

func (m machine) pushed(s shafts, front, rear float64) shafts {
	turn := (rear - front) / (m.motorRear - m.motorFront)
	s.motorSlope += turn
	s.motorAt += front - turn*m.motorFront
	return s
}

// straighten is what the motor's front and rear feet must move by.
func (m machine) straighten(s shafts, step float64) (front, rear float64) {
	gear, motor := s.bends(m.span)
	at := func(f float64) float64 {
		return math.Round(-(gear*m.span+(gear+motor)*f)/step) * step
	}
	return at(m.motorFront), at(m.motorRear)
}

// faces are the gaps of a coupling at top, the 90° side, bottom and the other
// side.
func (m machine) faces(up, across float64) [4]float64 {
	v, h := up*m.face/2, across*m.face/2
	return [4]float64{m.mean - v, m.mean - h, m.mean + v, m.mean + h}
}
