package compose

import (
	"strconv"

	"asleft/internal/assess"
	"asleft/internal/page"
	"asleft/internal/plot"
)

// Figure is a figure of the package by itself.
type Figure struct {
	Name   string // plain file name without an extension, e.g. "cell-03-clearance"
	Title  string
	Alt    string // the sentence that says its finding
	Figure plot.Figure
}

// Figures are all figures of the package, cell by cell.
func Figures(in Input) ([]Figure, error) {
	b := newBook(&in, made{})
	plan := b.planPicture()
	out := []Figure{{"plan", b.say("figure.plancaption"), plan.Alt, plan.Figure}}
	for _, c := range b.cells() {
		for i := range c.judged.Checks {
			k := &c.judged.Checks[i]
			if derived(k.Key) || len(k.Rounds) == 0 || !inGroup(groupFan, k.Key) {
				continue
			}
			p := b.checkPicture(c, k)
			out = append(out, Figure{figureName(c.judged.Number, k.Key), b.say("check." + k.Key), p.Alt, p.Figure})
		}
		if p, ok := b.drivePicture(c); ok {
			out = append(out, Figure{figureName(c.judged.Number, groupDriveLine), b.say("group." + groupDriveLine), p.Alt, p.Figure})
		}
	}
	return out, b.err()
}

// figureName sorts by cell up to 99.
func figureName(cell int, check string) string {
	n := strconv.Itoa(cell)
	if len(n) < 2 {
		n = "0" + n
	}
	return "cell-" + n + "-" + check
}

// checkPicture is the figure of a check that has readings of its own.
func (b *book) checkPicture(c towerCell, k *assess.Check) page.Picture {
	switch k.Key {
	case assess.Tilt:
		return b.tiltPicture(c, k)
	case assess.Clearance:
		return b.clearancePicture(c, k)
	}
	return b.barPicture(c, k)
}
