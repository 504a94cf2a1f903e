package compose

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"asleft/internal/field"
	"asleft/internal/measure"
)

// TestFinishedCard: the file claims what the package claims, and is the same twice.
func TestFinishedCard(t *testing.T) {
	r := cardTower(t)
	eachTilt(&maker{}, &r, func(t float64) float64 { return 10 + 0.4*math.Cos(t) })
	a, err := WriteCard(cardInput(t, r))
	if err != nil {
		t.Fatal(err)
	}
	b, err := WriteCard(cardInput(t, r))
	if err != nil || !bytes.Equal(a, b) {
		t.Error("differs", err)
	}
	for _, claim := range []string{"<pdfaid:part>3</pdfaid:part>", "<pdfuaid:part>1</pdfuaid:part>"} {
		if !bytes.Contains(a, []byte(claim)) {
			t.Errorf("no %s", claim)
		}
	}
}

// TestCorrectionsOfThePackage: the section stands in the package with moves, the
// sketch, predicted readings over those read, and the log's agreement; a tower
// with nothing to move has none.
func TestCorrectionsOfThePackage(t *testing.T) {
	calm, err := Package(cardInput(t, cardTower(t)))
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(dump(calm), "# Corrections") {
		t.Error("corrections where there are none")
	}
	r := cardTower(t)
	m := &maker{sheet: "Cell 1"}
	c := &r.Cells[0]
	c.Tilt.Rounds[0] = bent(m, c.Tilt.Rounds[0], func(t float64) float64 { return 10 + 0.75*math.Cos(t) })
	for i := range c.Tilt.Rounds {
		c.Tilt.Rounds[i].Return = m.length(sixteenths(c.Tilt.Rounds[i].Readings[0].Value.Value.Float(measure.UnitInch) + 1.0/64))
	}
	shim := field.Move{Sequence: m.count(1), Date: m.date(2026, 5, 2), Time: m.clock(15, 20), Event: m.text("gear.shim"), At: m.at()}
	// 0.75 in over a radius of 162 in and feet 24 in apart: 0.111 in.
	for f, now := range []string{"0.111", "0", "0", "0.111"} {
		shim.Feet = append(shim.Feet, field.FootMove{Foot: f + 1, Was: m.length("0"), Now: m.length(now)})
	}
	c.Moves = []field.Move{shim}
	c.Stuck = []field.Stuck{{What: m.text("gear"), Way: m.text("ninety")}}
	eachGap(m, &r, func(t float64) float64 { return 0.5 - 0.2*math.Cos(t) })
	b, err := Package(cardInput(t, r))
	if err != nil {
		t.Fatal(err)
	}
	text := dump(b)
	for _, want := range []string{"# Corrections", "Held against the log: Fan tilt from As found to As left; Tip clearance from", "Cannot be moved: gear reducer: toward the river side.", "The readings after the moves", "Slide the gear reducer: 13/64", "The predicted readings are drawn over",
		"Slide the whole fan cylinder", "{cells.1.corrections.predictions.clearance.value}"} {
		if !strings.Contains(strings.ReplaceAll(text, "\u00a0", " "), want) {
			t.Errorf("no %q", want)
		}
	}
}
