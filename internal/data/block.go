package data

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// blocks are the entries typed once per block of readings.
func blocks(c *field.Cell) Keyed[Row] {
	var tilt, track, tip, clearance, pitch row
	tilt.text("sense", c.Tilt.Sense).count("blade", c.Tilt.Blade).length("radius", c.Tilt.Radius)
	track.text("place", c.Track.Place)
	tip.count("position", c.TipRadius.Position).flag("pulledOut", c.TipRadius.PulledOut)
	clearance.flag("pulledOut", c.Clearance.PulledOut)
	for _, r := range c.Clearance.Rounds {
		clearance.count("blade-"+r.Round, r.Blade)
	}
	pitch.count("position", c.Pitch.Position).length("radius", c.Pitch.Radius).text("surface", c.Pitch.Surface)
	var out Keyed[Row]
	for _, b := range []Member[Row]{{assess.Tilt, tilt.done()}, {assess.Track, track.done()},
		{assess.TipRadius, tip.done()}, {assess.Clearance, clearance.done()}, {assess.Pitch, pitch.done()}} {
		if len(b.Value) > 0 {
			out = append(out, b)
		}
	}
	return out
}

// typedRound is what a round's block holds besides the points of the
// assessment: what was typed at each index, the marks, the return reading.
type typedRound struct {
	values, marks map[int]Entry
	back          *Entry
	accepted      field.Flag
	ring          bool // read round the cylinder: indexes are positions and have degrees
}

// typed finds a round of a check in the record. Checks that are derived from
// another's readings have no block of their own; theirs is empty.
func typed(c *field.Cell, check, round string) typedRound {
	switch check {
	case assess.Tilt:
		t := fromSeries(c.Tilt.Rounds, round, lengthOf)
		t.ring = true
		return t
	case assess.Track:
		return fromSeries(c.Track.Rounds, round, lengthOf)
	case assess.TipRadius:
		return fromSeries(c.TipRadius.Rounds, round, lengthOf)
	case assess.Clearance:
		var list []field.Series[field.Length]
		for _, r := range c.Clearance.Rounds {
			list = append(list, r.Series)
		}
		t := fromSeries(list, round, lengthOf)
		t.ring = true
		return t
	case assess.Pitch:
		return fromSeries(c.Pitch.Rounds, round, angleOf)
	}
	return typedRound{}
}

func lengthOf(l field.Length) (Entry, bool) { return lengthEntry(l), l.Set }
func angleOf(a field.Angle) (Entry, bool)   { return angleEntry(a), a.Set }

func fromSeries[V any](list []field.Series[V], round string, entryOf func(V) (Entry, bool)) typedRound {
	out := typedRound{values: map[int]Entry{}, marks: map[int]Entry{}}
	for _, s := range list {
		if s.Round != round {
			continue
		}
		out.accepted = s.Accepted
		if e, set := entryOf(s.Return); set {
			out.back = &e
		}
		for _, r := range s.Readings {
			if e, set := entryOf(r.Value); set {
				out.values[r.Index] = e
			}
			if r.Mark.Set {
				out.marks[r.Index] = lengthEntry(r.Mark)
			}
		}
	}
	return out
}

// key is the member name of a reading.
func key(index int) string { return strconv.Itoa(index) }
