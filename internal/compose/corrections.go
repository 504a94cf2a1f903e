package compose

import (
	"slices"

	"asleft/internal/assess"
	"asleft/internal/correct"
	"asleft/internal/data"
	"asleft/internal/measure"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// corrections is what to move in a cell and what was moved: the round started
// from, the moves, the predicted readings beside those before, and whether the
// readings after logged moves are what the log leads to. Nothing where there is
// nothing to be said.
func (b *book) corrections(c towerCell) []page.Block {
	m, ok := b.movesOf(c.judged.Number)
	if !ok || m.Loop == nil && !b.wantsCard(c, m) {
		return nil
	}
	blocks := []page.Block{page.Heading{Level: 3, Runs: plain(b.say("correction.title")), Anchor: correctionAnchor(c.judged.Number)}}
	blocks = append(blocks, b.loopBlocks(m)...)
	blocks = append(blocks, b.stuckLine(c)...)
	blocks = append(blocks, b.adviceBlocks(c, m)...)
	if b.drawnAhead(c, m) {
		blocks = append(blocks, page.Paragraph{Runs: linked(plain(b.say("correction.figure")), b.checkAnchor(c.judged.Number, assess.Tilt))})
	}
	if len(m.Predictions) > 0 {
		blocks = append(blocks, b.predictionTable(m))
	}
	return blocks
}

func (b *book) movesOf(cell int) (correct.Moves, bool) {
	for _, m := range b.in.Moves {
		if m.Cell == cell {
			return m, true
		}
	}
	return correct.Moves{}, false
}

// loopBlocks say whether the readings after the logged moves agree with them.
func (b *book) loopBlocks(m correct.Moves) []page.Block {
	if m.Loop == nil {
		return nil
	}
	tone := page.Warn
	if m.Loop.Agrees {
		tone = page.Good
	}
	said := []page.Block{page.Paragraph{Runs: plain(b.moveCode(m.Loop.Code))}}
	var held []string
	for _, c := range m.Loop.Compared {
		held = append(held, b.say("correction.held", "check", b.say("check."+c.Check), "from", b.say("round."+c.From), "to", b.say("round."+c.To)))
	}
	if len(held) > 0 {
		said = append(said, page.Paragraph{Runs: muted(b.say("correction.compared", "list", join("; ", held...)))})
	}
	for _, n := range m.Loop.Notes {
		said = append(said, page.Paragraph{Runs: plain(b.moveCode(n))})
	}
	return []page.Block{page.Panel{Tone: tone, Blocks: said}}
}

// adviceBlocks are the moves in order, beside the cell from above, and what else
// is to be said.
func (b *book) adviceBlocks(c towerCell, m correct.Moves) []page.Block {
	var out []page.Block
	if len(m.Moves) > 0 {
		list := page.List{Numbered: true}
		for _, x := range m.Moves {
			list.Items = append(list.Items, plain(b.moveLine(x)))
		}
		text := []page.Block{b.lead("correction.moves", "readings", b.startedFrom(c, m)), list}
		text = append(text, b.moveList("correction.later", m.Later)...)
		text = append(text, b.moveList("correction.instead", m.Alternatives)...)
		part := moveSketch
		if motorRoom(m.Moves) > 0 || slices.ContainsFunc(m.Moves, wantsRoom) {
			part = fullSketch
		}
		w := b.fullWidth() * part
		out = append(out, page.Columns{Widths: []float64{part, 1 - part}, Blocks: [][]page.Block{
			{b.sketch(m.Moves, plot.Frame{Width: w, Height: w * sketchAspect})}, text}})
	}
	if said := b.saidAlong(m); len(said) > 0 && (len(m.Moves) > 0 || b.wantsCard(c, m)) {
		list := page.List{}
		for _, n := range said {
			if n.Key != keyOvertaken {
				list.Items = append(list.Items, plain(b.moveCode(n)))
			}
		}
		if text := b.overtakenText(m); text != "" {
			list.Items = append(list.Items, plain(text))
		}
		if len(m.Moves) == 0 {
			out = append(out, b.lead("correction.none"))
		}
		out = append(out, list)
	}
	return out
}

// moveSketch is the part of the width that the cell from above takes beside the
// moves; fullSketch where more than changes at its feet is in it.
const (
	moveSketch = 0.36
	fullSketch = 0.56
	// Height over width: as low as the figure can be drawn with all its words.
	sketchAspect = 0.85
)

// wantsRoom tells moves whose amounts or positions stand in the sketch.
func wantsRoom(m correct.Move) bool {
	return m.Kind == correct.KindWall || m.Kind == correct.KindSlide || m.Kind == correct.KindCylinder
}

// startedFrom names the rounds that the moves follow from.
func (b *book) startedFrom(c towerCell, m correct.Moves) string {
	var out []string
	for _, key := range usedChecks(m) {
		if k := c.judged.Check(key); k != nil && used(k) != nil {
			out = append(out, b.say("correction.from", "check", b.say("check."+key), "round", b.say("round."+used(k).Key)))
		}
	}
	return join("; ", out...)
}

func (b *book) moveList(key string, moves []correct.Move) []page.Block {
	if len(moves) == 0 {
		return nil
	}
	list := page.List{}
	for _, x := range moves {
		list.Items = append(list.Items, plain(b.moveLine(x)))
	}
	return []page.Block{b.lead(key), list}
}

// drawnAhead tells whether any figure of the cell shows readings to expect.
func (b *book) drawnAhead(c towerCell, m correct.Moves) bool {
	for _, key := range []string{assess.Tilt, assess.Clearance} {
		if k := c.judged.Check(key); k != nil && used(k) != nil && len(foreseen(m, key)) > 0 {
			return true
		}
	}
	return false
}

// foreseen are the readings that are expected of a check: after the moves, or,
// where none are advised, what the log leads to.
func foreseen(m correct.Moves, check string) []correct.Reading {
	for _, p := range m.Predictions {
		if p.Check == check && len(m.Moves) > 0 {
			return p.Readings
		}
	}
	if m.Loop == nil {
		return nil
	}
	if check == assess.Tilt {
		return m.Loop.Predicted
	}
	return m.Loop.PredictedGaps
}

// pictureAhead is the figure of a check with the readings to expect, where there
// are any.
func (b *book) pictureAhead(c towerCell, k *assess.Check) page.Picture {
	if m, ok := b.movesOf(c.judged.Number); ok && (m.Loop != nil || b.wantsCard(c, m)) && used(k) != nil {
		if readings := foreseen(m, k.Key); len(readings) > 0 && (k.Key == assess.Tilt || k.Key == assess.Clearance) {
			return b.foreseenPicture(c, k, m, readings)
		}
	}
	return b.checkPicture(c, k)
}

func (b *book) foreseenPicture(c towerCell, k *assess.Check, m correct.Moves, readings []correct.Reading) page.Picture {
	series := plot.Series{Name: b.say("correction.predicted"), Role: plot.Predicted}
	mean := measure.Length(0)
	if k.Key == assess.Tilt {
		mean = meanReading(readings)
	}
	for _, r := range readings {
		series.Readings = append(series.Readings, plot.Reading{At: angleFloat(r.Degrees), Tick: degrees(r.Degrees), Value: (r.Value - mean).Float(b.first)})
	}
	var p page.Picture
	switch k.Key {
	case assess.Tilt:
		p = b.tiltPicture(c, k)
		if fig, ok := p.Figure.(plot.PolarTilt); ok {
			fig.Series = append(fig.Series, series)
			p.Figure = fig
		}
	default:
		p = b.clearancePicture(c, k)
		if fig, ok := p.Figure.(plot.PolarClearance); ok {
			fig.Series = append(fig.Series, series)
			fig.Move = b.moveArrow(m)
			p.Figure = fig
		}
	}
	p.Alt = b.say("correction.alt", "finding", p.Alt)
	return p
}

// meanReading is the mean of readings, for drawing only.
func meanReading(in []correct.Reading) measure.Length {
	sum := measure.Length(0)
	for _, r := range in {
		sum += r.Value
	}
	return sum / measure.Length(max(1, len(in)))
}

// moveArrow is the slide of a cell in its polar figure.
func (b *book) moveArrow(m correct.Moves) *plot.Arrow {
	for _, x := range m.Moves {
		if x.Kind == correct.KindSlide {
			across := (x.Front + x.Rear) / 2
			return &plot.Arrow{Dx: x.Along.Float(b.first), Dy: across.Float(b.first)}
		}
	}
	return nil
}

// predictionTable holds what is expected against what was read.
func (b *book) predictionTable(m correct.Moves) page.Table {
	t := page.Table{
		Columns: []page.Column{{Width: 2}, {Width: 0.9}, {Width: 1.1}, {Width: 1.2, Align: page.Right}, {Width: 1.2, Align: page.Right}, {Width: 1.2}, {Width: 1.2, Align: page.Right}},
		Head:    [][]page.TableCell{b.headRow("limits.check", "correction.round", "correction.before", "correction.value", "correction.sure", "correction.after", "correction.best")},
		Summary: b.say("correction.table"),
	}
	for _, p := range m.Predictions {
		amount := func(l measure.Length) string { return b.amount(assess.Amount{Kind: p.Kind, N: int64(l)}) }
		sure, best := page.TableCell{}, page.TableCell{}
		if p.Expanded != 0 {
			sure = cell(b.value(data.PredictionID(m.Cell, p.Check, "expanded"), amount(p.Expanded)))
		}
		if p.Floor != nil {
			best = cell(b.value(data.PredictionID(m.Cell, p.Check, "floor"), amount(*p.Floor)))
		}
		t.Rows = append(t.Rows, page.TableRow{Cells: []page.TableCell{rowHead(b.say("check." + p.Check)),
			cell(b.value(data.PredictionID(m.Cell, p.Check, "round"), b.say("round."+p.Round))), b.verdictCell(p.Before), cell(b.value(data.PredictionID(m.Cell, p.Check, "value"), amount(p.Value))),
			sure, b.verdictCell(p.After), best}})
	}
	return t
}
