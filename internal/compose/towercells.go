package compose

import (
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

// roster is the cells of the tower, found once: a great tower is asked for them
// for every cell again.
type roster struct {
	read         map[int]*field.Cell // of the record, by number
	all, present []towerCell
	byNumber     map[int]towerCell // of present
	order        []int             // of present, the worst first
	place        map[int]int       // in order, by number
}

// roster is for reading only.
func (b *book) roster() *roster {
	if b.known == nil {
		b.known = newRoster(b.in)
	}
	return b.known
}

func newRoster(in *Input) *roster {
	r := &roster{read: map[int]*field.Cell{}, byNumber: map[int]towerCell{}, place: map[int]int{}}
	for i := range in.Record.Cells {
		r.read[in.Record.Cells[i].Number] = &in.Record.Cells[i]
	}
	for i := range in.Assessment.Cells {
		judged := &in.Assessment.Cells[i]
		c := towerCell{r.read[judged.Number], judged, judged.InPackage}
		if c.read == nil {
			continue
		}
		r.all = append(r.all, c)
		if c.present {
			r.present = append(r.present, c)
			r.byNumber[judged.Number] = c
		}
	}
	r.order = worstCells(r.present)
	for i, n := range r.order {
		r.place[n] = i
	}
	return r
}

// allCells pairs every cell of the record with its assessment, by number. They are
// for reading only.
func (b *book) allCells() []towerCell { return b.roster().all }

// cells are those with pages in this package, for reading only.
func (b *book) cells() []towerCell { return b.roster().present }

// cellOf is the cell of a number, where it has pages in this package.
func (b *book) cellOf(number int) (towerCell, bool) {
	c, ok := b.roster().byNumber[number]
	return c, ok
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
// place of their part, or of the whole where nothing was recorded of it.
func (b *book) checkAnchor(number int, check string) string {
	part := startUpPart(check)
	switch read := b.roster().read[number]; {
	case part == "":
		return cellAnchor(number) + "." + check
	case read == nil || len(read.StartUps) == 0:
		return startUpAnchor(number, partNone)
	}
	return startUpAnchor(number, part)
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
		return driveAsked(&b.roster().read[cell].Drive, check)
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
