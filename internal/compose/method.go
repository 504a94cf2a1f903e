package compose

import (
	"slices"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// method says where 0° is, what was read, and how a verdict comes about.
func (b *book) method() []page.Block {
	blocks := []page.Block{
		b.h2("method.title", anchorMethod),
		page.Columns{Widths: []float64{58, 42}, Blocks: [][]page.Block{
			{b.planPicture()}, b.frameWords(),
		}},
		b.h3("method.read"),
		b.methodTable(),
	}
	for _, key := range []string{"method.drive", "method.bolts", "method.startup"} {
		blocks = append(blocks, b.h3(key+".title"), page.List{Items: b.steps(key, "side", b.side90(), "other", b.side270(), "zones", b.zones())})
	}
	return append(blocks,
		b.h3("method.verdicts"),
		page.List{Items: b.steps("method.verdict")},
		b.h3("method.numbers"),
		page.List{Items: b.steps("method.number")},
		b.h3("method.recheck"),
		b.lead("method.recheckintro"),
		b.eventTable(),
		b.h3("method.uncertainty.title"),
		page.List{Items: b.steps("method.uncertainty")},
	)
}

// planPicture is the cell from above with the crew's own numbers.
func (b *book) planPicture() page.Picture {
	t := &b.in.Record.Tower
	fig := plot.PlanSketch{
		Blades: planBlades(t.Blades.Value),
		Motor:  b.say("figure.motor"), DriveShaft: b.say("figure.driveshaft"),
		GearReducer: b.say("figure.gearreducer"), Cylinder: b.say("figure.cylinder"),
		Toward: b.say("figure.toward"), Away: b.say("figure.away"),
		Turn: b.say("figure.turn"), X: b.say("figure.x"), Y: b.say("figure.y"),
	}
	if side := b.text(t.SideName); side != "" {
		fig.Side90 = b.say("figure.side90", "name", side)
	}
	for _, p := range t.Positions {
		fig.Positions = append(fig.Positions, plot.PlanPosition{
			At: angleFloat(p.Degrees), Number: strconv.Itoa(p.Number), Tick: degrees(p.Degrees),
		})
	}
	return page.Picture{Figure: fig, Alt: b.say("figure.planalt"), Caption: plain(b.say("figure.plancaption"))}
}

// planBlades keeps the sketch within what can be drawn.
func planBlades(n int) int { return min(max(n, 2), 24) }

func (b *book) frameWords() []page.Block {
	t := &b.in.Record.Tower
	counted := "method.clockwise"
	if t.CrewDirection.Value == field.CounterClockwise {
		counted = "method.counterclockwise"
	}
	b.tell(t.CrewDirection.At)
	first := degrees(0)
	if len(t.Positions) > 0 {
		first = degrees(t.Positions[0].Degrees)
	}
	items := b.steps("method.frame")
	items = append(items, plain(b.say(counted, "n", strconv.Itoa(len(t.Positions)), "first", first)))
	if side := b.text(t.SideName); side != "" {
		items = append(items, plain(b.say("method.side", "name", side)))
	}
	if t.FanRotation.Set {
		items = append(items, plain(b.say("method.rotation", "way", b.code("rotation", t.FanRotation))))
	}
	return []page.Block{b.h3("method.frame.title"), page.List{Items: items}}
}

// methodTable says per check what was read and what is held against the limit.
func (b *book) methodTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1}, {Width: 2.4}, {Width: 2.2}},
		Head:    [][]page.TableCell{b.headRow("limits.check", "method.reading", "method.criterion")},
		Summary: b.say("method.readtable"),
	}
	for _, g := range allGroups() {
		t.Rows = append(t.Rows, b.groupRow(g, len(t.Columns))...)
		for _, key := range g.checks {
			t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
				rowHead(b.say("check." + key)), textCell(b.say("reading." + key)), textCell(b.say("method.judged." + key)),
			}})
		}
	}
	return t
}

// eventTable prints the rule set that the assessment followed.
func (b *book) eventTable() page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 1}, {Width: 1.6}},
		Head:    [][]page.TableCell{b.headRow("method.event", "method.overtakes")},
		Summary: b.say("method.eventtable"),
	}
	for _, list := range likeEvents(b.in.Rules.Events) {
		var events, names []string
		for _, e := range list {
			events = append(events, b.say("event."+e.Key))
		}
		for _, key := range list[0].Overtakes {
			names = append(names, b.say("check."+key))
		}
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{
			rowHead(join("; ", events...)), textCell(b.or(join(", ", names...), "method.nothing")),
		}})
	}
	return t
}

// likeEvents gathers the events that overtake the same, in the order of the first
// of each.
func likeEvents(events []assess.Event) [][]assess.Event {
	var out [][]assess.Event
	for _, e := range events {
		i := slices.IndexFunc(out, func(l []assess.Event) bool { return slices.Equal(l[0].Overtakes, e.Overtakes) })
		if i < 0 {
			out = append(out, []assess.Event{e})
			continue
		}
		out[i] = append(out[i], e)
	}
	return out
}

// angleFloat is an angle in degrees for a figure.
func angleFloat(a measure.Angle) float64 { return float64(a) / float64(measure.Degree) }
