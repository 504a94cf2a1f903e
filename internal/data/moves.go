package data

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/measure"
)

// Corrections is what to move in a cell and what the readings will be then.
// Amounts along are positive toward the motor, across toward the 90° side, shims
// positive where they go in; gaps of blades positive where they grow.
type Corrections struct {
	Round        string            `json:"round,omitempty"`        // key of the round that was started from
	Moves        []Correction      `json:"moves,omitempty"`        // in order, made in one state
	Later        []Correction      `json:"later,omitempty"`        // after the re-read
	Alternatives []Correction      `json:"alternatives,omitempty"` // instead of one of the moves
	Predictions  Keyed[Prediction] `json:"predictions,omitempty"`  // by check key
	Notes        []Code            `json:"notes,omitempty"`
	Reread       []string          `json:"reread,omitempty"` // check keys
	Loop         *Loop             `json:"loop,omitempty"`
	Shims        *Solution         `json:"shims,omitempty"`
	Center       *Solution         `json:"center,omitempty"`
	Drive        Keyed[Amount]     `json:"drive,omitempty"` // exact amounts of the motor's feet
}

// Correction is one move. What its kind does not use is left out.
type Correction struct {
	Kind        string        `json:"kind"`
	Event       string        `json:"event,omitempty"` // that it is logged as
	Along       *Amount       `json:"along,omitempty"`
	Front       *Amount       `json:"front,omitempty"` // feet nearest the motor; of the motor, nearest the gear reducer
	Rear        *Amount       `json:"rear,omitempty"`
	Feet        Keyed[Change] `json:"feet,omitempty"`   // by number
	Blades      Keyed[Change] `json:"blades,omitempty"` // by number
	Wall        Keyed[Place]  `json:"wall,omitempty"`   // by position
	Stacks      Keyed[Change] `json:"stacks,omitempty"` // the motor's, by place of the foot
	Uncertainty *Amount       `json:"uncertainty,omitempty"`
	Notes       []Code        `json:"notes,omitempty"`
}

// Change is what is set at a foot or a blade; Now and New are left out where
// today's stack is not known.
type Change struct {
	Now    *Amount `json:"now,omitempty"`
	Change *Amount `json:"change"`
	New    *Amount `json:"new,omitempty"`
	Pieces int     `json:"pieces,omitempty"` // of the new stack
	// Stack is the pieces taken from the shims at hand, thickest first; where Keeps,
	// they go on what is there.
	Stack []*Amount `json:"stack,omitempty"`
	Keeps bool      `json:"keeps,omitempty"`
}

// Place is how far the wall comes in at a position; Needed where the gap there
// is outside its limit.
type Place struct {
	In     *Amount `json:"in"`
	Needed bool    `json:"needed,omitempty"`
}

// Prediction is a check as it will be read after the moves.
type Prediction struct {
	Round       string        `json:"round,omitempty"` // key of the round that it starts from
	Readings    Keyed[Amount] `json:"readings"`        // by position, blade or clock position
	Each        *Amount       `json:"each,omitempty"`
	Value       *Amount       `json:"value"`
	Expanded    *Amount       `json:"expanded,omitempty"`
	Floor       *Amount       `json:"floor,omitempty"`
	Margin      *Amount       `json:"margin,omitempty"`
	Before      string        `json:"before,omitempty"`
	After       string        `json:"after,omitempty"`
	Certificate *Certificate  `json:"certificate,omitempty"`
}

// Certificate is why no better answer exists: by position the side that it holds,
// +1 high and −1 low, with weights in parts in 10⁹ that balance.
type Certificate struct {
	Holds Keyed[Hold] `json:"holds"`
	Gap   *Amount     `json:"gap"` // by how much, at most, another answer could be better
}

// Hold is a position that holds an answer.
type Hold struct {
	Side   int   `json:"side"`
	Weight int64 `json:"weight"`
}

// Solution is an answer at full precision, before whole steps, by name.
type Solution struct {
	Values      Keyed[Amount] `json:"values"`
	Certificate *Certificate  `json:"certificate,omitempty"`
}

// Loop is logged moves against the readings after them. ChiSquare and Threshold
// are times 1000.
type Loop struct {
	Code      Code          `json:"result"`
	Agrees    bool          `json:"agrees"`
	ChiSquare int64         `json:"chiSquare"`
	Threshold int64         `json:"threshold"`
	Freedom   int           `json:"freedom"`
	Slip      string        `json:"slip,omitempty"`
	Odds      int64         `json:"odds,omitempty"`
	Tilt      Keyed[Amount] `json:"tilt,omitempty"` // predicted drops, by position
	Clearance Keyed[Amount] `json:"clearance,omitempty"`
	Notes     []Code        `json:"notes,omitempty"`    // why a check was not compared
	Compared  []Compared    `json:"compared,omitempty"` // what was held against the log
}

// Compared is two rounds of a check between which the log was followed.
type Compared struct {
	Check string `json:"check"`
	From  string `json:"from"` // round keys
	To    string `json:"to"`
}

// CorrectionID is the path of what is set of a move by its index, e.g.
// CorrectionID(3, 0, "feet", "1").
func CorrectionID(cell, move int, below ...string) string {
	return join(append([]string{CellID(cell), "corrections", "moves", strconv.Itoa(move)}, below...)...)
}

// PredictionID is the path of a member of the prediction of a check, e.g. "value".
func PredictionID(cell int, check, member string) string {
	return join(CellID(cell), "corrections", "predictions", check, member)
}

// corrections of a cell; nil where there is nothing to be said.
func (e *encoder) corrections(cell int) *Corrections {
	for i := range e.in.Moves {
		m := &e.in.Moves[i]
		if m.Cell == cell && (len(m.Moves)+len(m.Later)+len(m.Alternatives)+len(m.Predictions)+len(m.Notes) > 0 || m.Loop != nil) {
			return e.correctionsOf(m)
		}
	}
	return nil
}

func (e *encoder) correctionsOf(m *correct.Moves) *Corrections {
	out := &Corrections{Round: m.Round, Moves: e.moveList(m.Moves), Later: e.moveList(m.Later),
		Alternatives: e.moveList(m.Alternatives), Notes: e.codes(m.Notes), Reread: m.Reread, Loop: e.loop(m.Loop)}
	for _, p := range m.Predictions {
		if _, twice := out.Predictions.Get(p.Check); !twice {
			out.Predictions = append(out.Predictions, Member[Prediction]{p.Check, e.prediction(p)})
		}
	}
	if s := m.Shims; s != nil {
		out.Shims = e.solution(&s.Certificate, "raised", s.Raised, "before", s.Before, "after", s.After, "floor", s.Floor, "outOfPlane", s.OutOfPlane)
	}
	if c := m.Center; c != nil {
		out.Center = e.solution(&c.Certificate, "idealAlong", c.Ideal.Along, "idealAcross", c.Ideal.Across, "uncertainty", c.Uncertainty,
			"room", c.Room, "meanOver", c.MeanOver, "marginNow", c.MarginNow, "margin", c.Margin, "marginIdeal", c.MarginIdeal)
	}
	if d := m.Drive; d != nil {
		out.Drive = e.named("front", d.Exact.Front, "rear", d.Exact.Rear, "pushFront", d.ExactPush.Front, "pushRear", d.ExactPush.Rear, "axial", d.Axial)
	}
	return out
}

func (e *encoder) moveList(moves []correct.Move) []Correction {
	var out []Correction
	for i := range moves {
		out = append(out, e.move(&moves[i]))
	}
	return out
}

func (e *encoder) move(m *correct.Move) Correction {
	out := Correction{Kind: m.Kind, Event: m.Event, Uncertainty: e.known(m.Uncertainty), Notes: e.codes(m.Notes)}
	switch m.Kind {
	case correct.KindSlide, correct.KindCylinder:
		out.Along, out.Front, out.Rear = e.length(m.Along), e.length(m.Front), e.length(m.Rear)
	case correct.KindMotorShim, correct.KindMotorPush:
		out.Front, out.Rear = e.length(m.Motor.Front), e.length(m.Motor.Rear)
	case correct.KindMotorAxial:
		out.Along = e.length(m.Along)
	}
	for _, f := range m.Feet {
		out.Feet = append(out.Feet, Member[Change]{strconv.Itoa(f.Foot), e.foot(f)})
	}
	for _, s := range m.Stacks {
		out.Stacks = append(out.Stacks, Member[Change]{s.Place, e.foot(s.FootChange)})
	}
	for _, x := range m.Blades {
		out.Blades = append(out.Blades, Member[Change]{strconv.Itoa(x.Blade), Change{Now: e.amount(x.Now), Change: e.amount(x.Change), New: e.amount(x.New)}})
	}
	for _, w := range m.Wall {
		out.Wall = append(out.Wall, Member[Place]{strconv.Itoa(w.Position), Place{e.length(w.In), w.Needed}})
	}
	return out
}

// foot is the stack of a foot before and after.
func (e *encoder) foot(f correct.FootChange) Change {
	c := Change{Change: e.length(f.Change), Pieces: f.Pieces, Keeps: f.Keeps}
	if f.Known {
		c.Now, c.New = e.length(f.Now), e.length(f.New)
	}
	for _, s := range f.Stack {
		c.Stack = append(c.Stack, e.length(s))
	}
	return c
}

func (e *encoder) prediction(p correct.Prediction) Prediction {
	amount := func(l measure.Length) *Amount { return e.amount(assess.Amount{Kind: p.Kind, N: int64(l)}) }
	out := Prediction{Round: p.Round, Readings: Keyed[Amount]{}, Value: amount(p.Value), Before: string(p.Before), After: string(p.After), Certificate: e.certificate(p.Certificate)}
	for _, r := range p.Readings {
		out.Readings = append(out.Readings, Member[Amount]{strconv.Itoa(r.Position), *amount(r.Value)})
	}
	if p.Each != 0 {
		out.Each = amount(p.Each)
	}
	if p.Expanded != 0 {
		out.Expanded = amount(p.Expanded)
	}
	if p.Floor != nil {
		out.Floor = amount(*p.Floor)
	}
	if p.Margin != nil {
		out.Margin = amount(*p.Margin)
	}
	return out
}

func (e *encoder) certificate(c *correct.Certificate) *Certificate {
	if c == nil || len(c.Positions) == 0 || len(c.Sides) != len(c.Positions) || len(c.Weights) != len(c.Positions) {
		return nil
	}
	out := &Certificate{Holds: Keyed[Hold]{}, Gap: e.length(c.Gap)}
	for i, p := range c.Positions {
		key := strconv.Itoa(p)
		if _, twice := out.Holds.Get(key); twice { // a position that holds both sides
			key += "-" + strconv.Itoa(i+1)
		}
		out.Holds = append(out.Holds, Member[Hold]{key, Hold{c.Sides[i], c.Weights[i]}})
	}
	return out
}

func (e *encoder) loop(l *correct.Loop) *Loop {
	if l == nil {
		return nil
	}
	out := &Loop{Code: e.code(l.Code), Agrees: l.Agrees, ChiSquare: l.ChiSquare, Threshold: l.Threshold,
		Freedom: l.Freedom, Slip: l.Slip, Odds: l.Odds, Notes: e.codes(l.Notes)}
	for _, c := range l.Compared {
		out.Compared = append(out.Compared, Compared(c))
	}
	for _, r := range l.Predicted {
		out.Tilt = append(out.Tilt, Member[Amount]{strconv.Itoa(r.Position), *e.length(r.Value)})
	}
	for _, r := range l.PredictedGaps {
		out.Clearance = append(out.Clearance, Member[Amount]{strconv.Itoa(r.Position), *e.length(r.Value)})
	}
	return out
}

func (e *encoder) solution(c *correct.Certificate, pairs ...any) *Solution {
	return &Solution{Values: e.named(pairs...), Certificate: e.certificate(c)}
}

// named pairs names and lengths.
func (e *encoder) named(pairs ...any) Keyed[Amount] {
	out := Keyed[Amount]{}
	for i := 0; i+1 < len(pairs); i += 2 {
		name, _ := pairs[i].(string)
		l, _ := pairs[i+1].(measure.Length)
		out = append(out, Member[Amount]{name, *e.length(l)})
	}
	return out
}

func (e *encoder) length(l measure.Length) *Amount { return e.amount(assess.Length(l)) }

// known is an uncertainty, nil where it is not known.
func (e *encoder) known(l measure.Length) *Amount {
	if l == 0 {
		return nil
	}
	return e.length(l)
}
