package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/workbook"
)

// plant is a tower and the story of each of its cells.
type plant struct {
	file  string
	form  workbook.FormOptions
	tower func(plant, *filler) // fills the tower's sheets
	cells []cell
	noise float64 // of a person with a tape, one standard deviation
	step  float64 // of the scale read for gaps
	rough float64 // of the scale read for tilt and track
	tapes [3]string
	place string // where tips pass when track is read
	arm   string // radius at which tilt is read
	spot  string // radius at which pitch is read
	trade trade
}

// cell is one cell's story.
type cell struct {
	number                                                      int
	name, motor, gear, shaft, hub, starter, disconnect, remarks string
	fan                                                         fan
	rounds                                                      []round
	moves                                                       []move
	now                                                         state      // after all moves so far
	stacks                                                      [4]float64 // and its shims
	works                                                       works
	track                                                       int         // position at which tips are read, from 1
	skip                                                        []string    // blocks that nobody read
	blocked                                                     map[int]any // positions that cannot be read, with the reason; nil for none given
	noMarks                                                     bool
}

// round is one round of a cell.
type round struct {
	key      string
	date     day
	hour     int // of the first reading
	pose     pose
	accepted bool     // nothing was moved: all blocks stand as as left
	stands   []string // blocks of which nothing was moved
	blocks   []string // read in this round
	head     []any    // of the cell, from the name of the reader on
	line     state    // of the cell at the time
	drive    []string // blocks of the drive line read in this round
	soft     [2]when  // soft feet of gear reducer and motor: read before the hold-downs are torqued
	sheet    string   // paper sheet of the drive line
}

// Blocks of readings.
var (
	everything = []string{"pitch", "tilt", "track", "tipradius", "clearance"}
	afterMove  = []string{"tilt", "tipradius", "clearance"}
)

// fill fills the whole form.
func (p plant) fill(f *filler) {
	p.tower(p, f)
	for _, c := range p.cells {
		p.cell(f, fmt.Sprintf("c%02d_", c.number), uint64(c.number), c)
	}
}

func (p plant) cell(f *filler, prefix string, seed uint64, c cell) {
	for _, v := range [][2]string{{"name", c.name}, {"motor", c.motor}, {"gearreducer", c.gear}, {"driveshaft", c.shaft},
		{"fan", c.hub}, {"starter", c.starter}, {"disconnect", c.disconnect}, {"remarks", c.remarks}} {
		f.set(prefix+v[0], v[1])
	}
	f.set(prefix+"tilt_sense", "down")
	f.set(prefix+"tilt_blade", 1)
	f.set(prefix+"tilt_radius", p.arm)
	f.set(prefix+"track_place", p.place)
	f.set(prefix+"tipradius_position", c.track)
	f.set(prefix+"tipradius_pulledout", "yes")
	f.set(prefix+"clearance_pulledout", "yes")
	f.set(prefix+"pitch_position", c.track)
	f.set(prefix+"pitch_radius", p.spot)
	f.set(prefix+"pitch_surface", "flat on the underside")
	if !c.noMarks {
		f.set(prefix+"tilt_marks", p.texts(c.fan.mark, p.rough)...)
	}
	for i, r := range c.rounds {
		p.driveRound(f, prefix, seed*100+50+uint64(i*12), c, r)
		f.set(prefix+r.key+"_head", append([]any{r.date, nil, nil, nil}, r.head...)...)
		for j, block := range r.blocks {
			if !contains(c.skip, block) {
				p.block(f, prefix+block+"_", seed*100+uint64(i*10+j), block, c, r, j)
			}
		}
	}
	p.works(f, prefix, c)
}

// block fills one round of one block.
func (p plant) block(f *filler, prefix string, seed uint64, block string, c cell, r round, order int) {
	gaps := newReader(seed, p.noise, p.step)
	rough := newReader(seed, p.noise*2, p.rough)
	var values []float64
	pace := newReader(seed, 0, 1).rand
	begun := order*25 + pace.IntN(4)
	head := []any{nil, minutes(r.hour, begun), minutes(r.hour, begun+16+pace.IntN(5)), nil, nil}
	switch block {
	case "pitch":
		level := newReader(seed, 0.03, 0.1)
		for _, a := range c.fan.pitch {
			values = append(values, level.read(a))
		}
		values = append(values, level.read(c.fan.pitch[0]))
		head = append(head, p.tapes[2], "yes")
	case "track":
		for _, h := range c.fan.rise {
			values = append(values, rough.read(c.fan.toBlade+h))
		}
		values = append(values, rough.read(c.fan.toBlade+c.fan.rise[0]))
		head = append(head, p.tapes[1], "yes")
	case "tipradius":
		values = p.tips(gaps, c, r)
		head = append(head, p.tapes[0], "yes")
	case "tilt":
		for i := range p.form.Positions {
			values = append(values, rough.read(c.fan.down(r.pose, i, p.degrees(i))))
		}
		values = append(values, rough.read(c.fan.down(r.pose, 0, p.degrees(0))))
		head = append(head, p.tapes[1], "yes")
	case "clearance":
		blade := longest(c.fan.gapsAt(r.pose, p.degrees(c.track-1)))
		for i := range p.form.Positions {
			values = append(values, gaps.read(c.fan.clearance(r.pose, blade, p.degrees(i))))
		}
		values = append(values, gaps.read(c.fan.clearance(r.pose, blade, p.degrees(0))))
		head = append(head, p.tapes[0], "yes", blade+1)
	}
	if r.accepted || contains(r.stands, block) {
		head = append(head, "yes")
	}
	f.set(prefix+r.key+"_head", head...)
	p.readings(f, prefix+r.key, block, values, c)
}

// readings writes the values, the reasons where a place was blocked, and the
// first place again.
func (p plant) readings(f *filler, name, block string, values []float64, c cell) {
	step := p.step
	if block == "tilt" || block == "track" {
		step = p.rough
	}
	texts := p.texts(values, step)
	if block == "pitch" {
		for i, v := range values {
			texts[i] = strconv.FormatFloat(v, 'f', 1, 64)
		}
	}
	n := len(texts) - 1
	again := texts[n]
	reasons := make([]any, n)
	if block == "tilt" || block == "clearance" {
		for position, reason := range c.blocked {
			texts[position-1], reasons[position-1] = nil, reason
			if position == 1 {
				again = nil
			}
		}
	}
	f.set(name, texts[:n]...)
	f.set(name+"_reasons", reasons...)
	f.set(name+"_return", again)
}

// tips reads the gap of every blade at the one position, and the first again.
func (p plant) tips(gaps *reader, c cell, r round) []float64 {
	deg := p.degrees(c.track - 1)
	var values []float64
	for i := range c.fan.extra {
		values = append(values, gaps.read(c.fan.clearance(r.pose, i, deg)))
	}
	return append(values, gaps.read(c.fan.clearance(r.pose, 0, deg)))
}

// gapsAt is the true gap of every blade at an angle.
func (f fan) gapsAt(p pose, deg float64) []float64 {
	var gaps []float64
	for i := range f.extra {
		gaps = append(gaps, f.clearance(p, i, deg))
	}
	return gaps
}

// degrees is the true angle of a position from 0, clockwise from the motor.
func (p plant) degrees(i int) float64 {
	deg := float64(p.form.First)/float64(measure.Degree) + 360*float64(i)/float64(p.form.Positions)
	if p.form.Direction == field.CounterClockwise {
		deg = -deg
	}
	return deg
}

// texts writes lengths as this crew types them: fractions of an inch, or
// decimal millimeters as numbers.
func (p plant) texts(values []float64, step float64) []any {
	var out []any
	for _, v := range values {
		if p.form.Units == measure.UnitMillimeter {
			out = append(out, number(math.Round(v*10)/10))
			continue
		}
		text, _ := measure.Length(math.Round(v / step * float64(measure.Inch) * step)).FormatFraction(int(math.Round(1 / step)))
		out = append(out, strings.ReplaceAll(text, "−", "-"))
	}
	return out
}

// minutes is a time of day.
func minutes(hour, after int) clock {
	t := hour*60 + after
	return clock(fmt.Sprintf("%d:%02d", t/60, t%60))
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
