package main

import (
	"math/rand/v2"
	"strconv"
	"time"
)

// What is a cell's own: no two of them read alike.

// chance is a source of a cell's own numbers, the same in every build.
func chance(number, what uint64) *rand.Rand { return rand.New(rand.NewPCG(number, what)) }

// What the numbers are for.
const (
	forFan = iota + 100
	forStacks
	forBases
	forPins
	forRuns
)

// around is n numbers about a middle, none farther off than most.
func around(r *rand.Rand, n int, middle, spread, most float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = middle + min(max(r.NormFloat64()*spread, -most), most)
	}
	return out
}

// stacksOf are the shims that a cell's gear reducer came with.
func (t trade) stacksOf(number int) [4]float64 {
	r := chance(uint64(number), forStacks)
	var out [4]float64
	for i := range out {
		out[i] = t.stack + float64(r.IntN(9)-4)*t.stackStep
	}
	return out
}

// motorStackOf is the stack that a cell's motor came with, under each foot.
func (t trade) motorStackOf(number int) float64 {
	return t.motorStack + float64(chance(uint64(number), forStacks).IntN(11)-5)*t.stackStep
}

// bases are what no move of these stories touches.
type bases struct {
	motor, wall [2]float64 // slopes: of the motor's base, of the cylinder's wall
	cylinder    float64    // diameter less that drawn
	guardEnd    float64    // gaps of the guard less those drawn
	guardAround [4]float64
}

func (t trade) basesOf(number uint64) bases {
	r := chance(number, forBases)
	slopes := func(spread float64) [2]float64 {
		return [2]float64(around(r, 2, 0, spread, 1.8*spread))
	}
	b := bases{motor: slopes(0.0006), wall: slopes(0.0015), cylinder: around(r, 1, 0, t.rough, 2*t.rough)[0]}
	gaps := around(r, 5, 0, t.guardSpread, 1.6*t.guardSpread)
	b.guardEnd, b.guardAround = gaps[0], [4]float64(gaps[1:])
	return b
}

// plus is a day n days later.
func (d day) plus(n int) day {
	t, err := time.Parse(time.DateOnly, string(d))
	if err != nil {
		panic(err)
	}
	return day(t.AddDate(0, 0, n).Format(time.DateOnly))
}

// when is a time of a day.
type when struct {
	day day
	at  clock
}

// after is n minutes later on the same day.
func (w when) after(n int) when { return when{w.day, minutes(0, w.at.minute()+n)} }

func (c clock) minute() int {
	t, err := time.Parse("15:04", string(c))
	if err != nil {
		panic(err)
	}
	return t.Hour()*60 + t.Minute()
}

func digits(x float64, n int) string { return strconv.FormatFloat(x, 'f', n, 64) }
