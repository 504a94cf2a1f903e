package workbook

import (
	"strconv"
	"strings"
)

// over is what a series runs over.
type over int

const (
	positions   over = iota
	blades           // of the fan
	clockFaces       // four places round a coupling, as the reader saw them
	aroundShaft      // four places round the shaft, by the sides of the tower
	twoWays          // along and across
	onePlace         // a single reading
	diameters        // of the cylinder
	footNumbers      // of a machine
)

// Indices of the clock positions as the form has them. Their sides are the
// reader's own; see [seriesReader.faces].
const (
	rowTop = iota
	rowRight
	rowBottom
	rowLeft
)

// overs describes each: the last part of the name of the labels' column, the
// words, how many there are in a form, and whether another number may be read.
var overs = [...]struct {
	key, words string
	count      int
	any        bool
}{
	positions:   {key: "positions", words: "positions"},
	blades:      {key: "blades", words: "blades"},
	clockFaces:  {key: "clock", words: "clock", count: 4},
	aroundShaft: {key: "clock", words: "around", count: 4},
	twoWays:     {key: "ways", words: "ways", count: 2},
	onePlace:    {key: "place", words: "place", count: 1},
	diameters:   {key: "diameters", words: "diameters", count: 4},
	footNumbers: {key: "feet", words: "feet", count: 4, any: true},
}

// key is the last part of the name of the labels' column.
func (o over) key() string { return overs[o].key }

// head and again are the words keys over the labels and beside the first place
// read again.
func (o over) head() string  { return "form.over." + overs[o].words }
func (o over) again() string { return "form.again." + overs[o].words }

// label is the words of place n, from 1.
func (o over) label(say func(string, ...string) string, n int) string {
	switch o {
	case positions:
		return say("form.position", "n", itoa(n))
	case blades:
		return say("form.blade", "n", itoa(n))
	case footNumbers:
		return say("form.foot", "n", itoa(n))
	}
	return say("form.index." + overs[o].words + "." + itoa(n))
}

// numbered tells whether labels are a word and a number.
func (o over) numbered() bool { return overs[o].count == 0 || overs[o].any }

// index reads a label back: "Position 7", or "7" as somebody adds it; 0 for
// none of them.
func (o over) index(say func(string, ...string) string) func(string) int {
	if o.numbered() {
		return numberAfter(o.label(say, 0))
	}
	known := map[string]int{}
	for n := 1; n <= overs[o].count; n++ {
		known[normal(o.label(say, n))] = n
	}
	return func(text string) int { return known[text] }
}

// numberAfter reads the number of a label that is made like one for 0.
func numberAfter(zero string) func(string) int {
	word := strings.TrimSuffix(normal(zero), "0")
	return func(text string) int {
		n, err := strconv.Atoi(strings.TrimPrefix(text, word))
		if err != nil {
			return 0
		}
		return n
	}
}
