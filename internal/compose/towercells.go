package compose

import (
	"slices"
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/field"
)

// towerCell is a cell as read and as assessed.
type towerCell struct {
	read    *field.Cell
	judged  *assess.Cell
	present bool // in this package
}

// allCells pairs every cell of the record with its assessment, by number.
func (b *book) allCells() []towerCell {
	var out []towerCell
	for i := range b.in.Assessment.Cells {
		a := &b.in.Assessment.Cells[i]
		read := b.record(a.Number)
		if read == nil {
			continue
		}
		out = append(out, towerCell{read, a, a.InPackage})
	}
	return out
}

// cells are those with pages in this package.
func (b *book) cells() []towerCell {
	return slices.DeleteFunc(b.allCells(), func(c towerCell) bool { return !c.present })
}

func (b *book) record(number int) *field.Cell {
	for i := range b.in.Record.Cells {
		if b.in.Record.Cells[i].Number == number {
			return &b.in.Record.Cells[i]
		}
	}
	return nil
}

// cellName is "Cell 3", with the owner's tag where it has one of its own.
func (b *book) cellName(c towerCell) string {
	number := strconv.Itoa(c.judged.Number)
	if tag := b.text(c.read.Name); tag != "" && tag != number {
		return b.say("cell.named", "number", number, "name", tag)
	}
	return b.say("cell.number", "number", number)
}

func cellAnchor(number int) string { return "cell." + strconv.Itoa(number) }

// checkAnchor is where a check of a cell stands; those of the start-up share the
// place of their part.
func checkAnchor(number int, check string) string {
	if part := startUpPart(check); part != "" {
		return startUpAnchor(number, part)
	}
	return cellAnchor(number) + "." + check
}

func startUpAnchor(number int, part string) string {
	return cellAnchor(number) + ".startup." + part
}

// readings are the numbers of readings found and asked for in the standing
// rounds of a cell. Checks that judge the readings of another check do not
// count them again.
func (b *book) readings(c *assess.Cell) (found, expected int) {
	return b.readingsOf(c, func(string) bool { return true })
}

// readingsOf are those of the checks that are asked for.
func (b *book) readingsOf(c *assess.Cell, of func(check string) bool) (found, expected int) {
	for i := range c.Checks {
		k := &c.Checks[i]
		switch r := k.StandingRound(); {
		case derived(k.Key), !of(k.Key):
		case r != nil:
			found += r.Found
			expected += r.Expected
		case k.Verdict != assess.NotRequired && k.Verdict != assess.ByOthers:
			expected += b.asked(c.Number, k.Key)
		}
	}
	return found, expected
}

// asked is how many readings a round of a check has; what is done once, or
// recorded of a run, counts as one.
func (b *book) asked(cell int, check string) int {
	switch {
	case byPosition(check):
		return len(b.in.Record.Tower.Positions)
	case inGroup(groupFan, check):
		return b.in.Record.Tower.Blades.Value
	case inGroup(groupBases, check), inGroup(groupDriveLine, check):
		return driveAsked(&b.record(cell).Drive, check)
	}
	return 1
}

// derived tells whether a check has no readings of its own: it judges those of
// another one, or, as locking does, another side of the same sets.
func derived(check string) bool {
	return check == assess.ClearanceAll || check == assess.PitchSpread || check == assess.Locking
}

// tally counts the verdicts of a cell's checks as they are told.
func (c towerCell) tally() map[assess.Verdict]int {
	n := map[assess.Verdict]int{}
	for i := range c.judged.Checks {
		n[c.told(&c.judged.Checks[i])]++
	}
	return n
}
