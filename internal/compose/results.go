package compose

import (
	"slices"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/data"
	"asleft/internal/measure"
	"asleft/internal/page"
)

// resultLine is a row of the table of results: a result of the assessment, and
// the result that says which way it points or whose it is.
//
// place prints where it is and not how much: a drop is no reading that anybody
// could look up. unless leaves the line out where that result says more.
type resultLine struct {
	key, toward, owner, unless string
	place                      bool
}

// resultLines are the results that are printed, in order. The others are steps
// on the way to them and stand in the data file.
var resultLines = map[string][]resultLine{
	assess.Tilt: {{key: "range"}, {key: "lowest", place: true}, {key: "highest", place: true},
		{key: "largest", unless: "lowest"}, {key: "smallest", unless: "highest"},
		{key: "amplitude", toward: "lowside"}, {key: "slope"}, {key: "residualmax"}, {key: "uncertainty"}},
	assess.Track:     {{key: "range"}, {key: "largest"}, {key: "smallest"}, {key: "uncertainty"}},
	assess.TipRadius: {{key: "range"}, {key: "middle"}, {key: "longest"}, {key: "largest"}, {key: "uncertainty"}},
	assess.Clearance: {{key: "least"}, {key: "greatest"}, {key: "mean"},
		{key: "offcenter", toward: "closeside"}, {key: "roundness"}, {key: "uncertainty"}},
	assess.ClearanceAll: {{key: "least", owner: "leastblade"}, {key: "largest", owner: "largestblade"}, {key: "uncertainty"}},
	assess.Pitch:        {{key: "largest"}, {key: "smallest"}, {key: "mean"}, {key: "tiltshare"}},
	assess.PitchSpread:  {{key: "range"}},

	assess.GearLevel: {{key: "tiltalong"}, {key: "differencealong"}, {key: "tiltacross"}, {key: "differenceacross"},
		{key: "uncertainty"}},
	assess.MotorLevel:    {{key: "uncertainty"}},
	assess.CylinderPlumb: {{key: "uncertainty"}},
	assess.CylinderRound: {{key: "range"}, {key: "mean"}, {key: "uncertainty"}},
	assess.SoftFootGear:  {{key: "uncertainty"}},
	assess.SoftFootMotor: {{key: "uncertainty"}},
	assess.CouplingGear: {{key: "range"}, {key: "closure"}, {key: "vertical"}, {key: "horizontal"}, {key: "total"},
		{key: "uncertainty"}},
	assess.CouplingMotor: {{key: "range"}, {key: "closure"}, {key: "vertical"}, {key: "horizontal"}, {key: "total"},
		{key: "uncertainty"}},
	assess.ShaftEnds:   {{key: "uncertainty"}},
	assess.GuardEnd:    {{key: "uncertainty"}},
	assess.GuardAround: {{key: "uncertainty"}},
}

// resultTable prints what was computed from the readings: a row per result, a
// column per round.
func (b *book) resultTable(c towerCell, k *assess.Check) []page.Block {
	t := page.Table{
		Columns: []page.Column{{Width: 1.3}},
		Head:    [][]page.TableCell{{headCell(b.say("check."+k.Key), 0)}},
		Summary: b.say("results.table", "check", b.say("check."+k.Key)),
	}
	for i := range k.Rounds {
		t.Columns = append(t.Columns, page.Column{Width: 1, Even: true})
		t.Head[0] = append(t.Head[0], headCell(b.say("round."+k.Rounds[i].Key), 0))
	}
	for _, line := range resultLines[k.Key] {
		if row, any := b.resultRow(c, k, line); any {
			t.Rows = append(t.Rows, row)
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}

// resultRow is a line for all rounds; false where no round has the result.
func (b *book) resultRow(c towerCell, k *assess.Check, line resultLine) (page.TableRow, bool) {
	row := page.TableRow{Cells: []page.TableCell{rowHead(b.resultLabel(k.Key, line.key))}}
	any := false
	for i := range k.Rounds {
		runs := b.resultRuns(c, k, &k.Rounds[i], line)
		any = any || len(runs) > 0
		row.Cells = append(row.Cells, page.TableCell{Runs: runs})
	}
	return row, any
}

// resultLabel names a result, by a phrase of the check's own where there is one.
func (b *book) resultLabel(check, key string) string {
	if label := b.optional("result." + check + "." + key); label != "" {
		return label
	}
	return b.say("result." + key)
}

// resultRuns is the value under its path, and the place it belongs to. Where
// several blades share a result, all are named.
func (b *book) resultRuns(c towerCell, k *assess.Check, r *assess.Round, line resultLine) []page.Run {
	if _, better := r.Result(line.unless); better {
		return nil
	}
	if line.place {
		x, ok := r.Result(line.key)
		if !ok {
			return nil
		}
		return plain(b.at(k, x.Index))
	}
	names := data.ResultNames(r.Results)
	id := func(name string) string { return data.ResultID(c.judged.Number, k.Key, r.Key, name) }
	var runs []page.Run
	for i, x := range r.Results {
		if x.Key != line.key {
			continue
		}
		if runs != nil { // tied
			runs = append(runs, page.Run{Text: ", " + strconv.Itoa(x.Index), Face: page.Muted})
			continue
		}
		text := b.amount(x.Amount)
		if line.key == "uncertainty" { // never so sure that it is nothing
			text = withUnit(shownNumber(x.Amount, b.first), unitOf(x.Amount, b.first))
		}
		runs = []page.Run{b.value(id(names[i]), text)}
		if x.Index != 0 {
			runs = append(runs, page.Run{Text: " " + b.at(k, x.Index), Face: page.Muted})
		}
	}
	if runs == nil {
		return nil
	}
	if way, ok := r.Result(line.toward); ok {
		runs = append(runs, page.Run{Text: " " + b.say("results.toward."+k.Key) + " ", Face: page.Muted},
			b.value(id(line.toward), direction(measure.Angle(way.Amount.N))))
	}
	if owner, ok := r.Result(line.owner); ok {
		runs = append(runs, page.Run{Text: ", " + b.say("results.blade", "n", strconv.Itoa(owner.Index)), Face: page.Muted})
	}
	return runs
}

// at names the place of a result: the position in degrees, or the blade.
func (b *book) at(k *assess.Check, index int) string {
	switch {
	case !inGroup(groupFan, k.Key):
		return b.placeName(k.Key, index)
	case byPosition(k.Key):
		return b.say("results.at", "degrees", b.positionDegrees(index))
	}
	return b.say("results.blade", "n", strconv.Itoa(index))
}

// positionDegrees is where a position is, clockwise from the motor.
func (b *book) positionDegrees(number int) string {
	for _, p := range b.in.Record.Tower.Positions {
		if p.Number == number {
			return degrees(p.Degrees)
		}
	}
	return "#" + strconv.Itoa(number)
}

// byPosition tells whether a check is read around the cylinder.
func byPosition(check string) bool {
	return check == assess.Tilt || check == assess.Clearance || check == assess.ClearanceAll
}

// notes are what is to be said beside the results of a check. A note that
// holds for several rounds stands once.
func (b *book) notes(k *assess.Check) []page.Block {
	list := page.List{Tone: page.Quiet}
	for _, n := range b.noteTexts(k) {
		list.Items = append(list.Items, plain(n))
	}
	if len(list.Items) == 0 {
		return nil
	}
	return []page.Block{list}
}

// extraNotes are the notes of a check made from the readings of another one,
// without those that the other has.
func (b *book) extraNotes(k, base *assess.Check) []page.Block {
	list := page.List{Tone: page.Quiet}
	known := b.noteTexts(base)
	for _, n := range b.noteTexts(k) {
		if !slices.Contains(known, n) {
			list.Items = append(list.Items, plain(n))
		}
	}
	if len(list.Items) == 0 {
		return nil
	}
	return []page.Block{list}
}

func (b *book) noteTexts(k *assess.Check) []string {
	var out []string
	for _, n := range k.Notes {
		out = append(out, b.codeText(n))
	}
	out = append(out, b.roundNotes(k)...)
	for _, o := range k.Overtaken {
		out = append(out, b.overtaken(o))
	}
	return out
}

func (b *book) roundNotes(k *assess.Check) []string {
	var texts []string
	rounds := map[string][]string{}
	for _, r := range k.Rounds {
		for _, n := range r.Notes {
			t := b.codeText(n)
			if rounds[t] == nil {
				texts = append(texts, t)
			}
			rounds[t] = append(rounds[t], b.roundWord(r.Key))
		}
	}
	var out []string
	for _, t := range texts {
		if len(rounds[t]) < len(k.Rounds) {
			t = b.say("results.note", "round", join(", ", rounds[t]...), "text", t)
		}
		out = append(out, t)
	}
	return out
}

// overtaken says which event made a reading void, or may have.
func (b *book) overtaken(o assess.Overtaking) string {
	key := "results.overtaken"
	if !o.Shown {
		key = "results.maybe"
	}
	return b.say(key, "what", join(", ", b.eventWord(o.Move), b.typedDay(o.Move.Date), b.text(o.Move.Detail)))
}
