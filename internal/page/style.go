package page

import "asleft/internal/plot"

// The grid, in thousandths of a point. The left margin is the wider one, for
// the binding.
const (
	marginLeft   mp = 60_000
	marginRight  mp = 48_000
	marginTop    mp = 56_000
	marginBottom mp = 56_000
	gutter       mp = 14_000 // between columns side by side

	headBase mp = 36_000 // base line of the running head, from the top
	headRule mp = 42_500
	footRule mp = 46_000 // from the bottom
	footBase mp = 36_500
	noteBase mp = 27_000
)

// Type sizes and the distance of their base lines.
const (
	textSize  mp = 9_500
	tableSize mp = 8_000
	smallSize mp = 7_500
)

// leading is the distance of base lines at a size: ample for running text,
// closer in tables, closer still in headings.
func leading(size mp, fam family) mp {
	switch {
	case size >= 11_000:
		return (size*5/4 + 499) / 500 * 500
	case fam == tabular:
		return (size*13/10 + 249) / 250 * 250
	}
	return (size*137/100 + 249) / 250 * 250
}

// Line widths. Nothing is thinner than 0.4 pt: a thinner one is lost in a copy.
const (
	hairline  mp = 400
	thinRule  mp = 600
	heavyRule mp = 1_000
	toneBar   mp = 2_500
)

// color is 0xRRGGBB.
type color = plot.Tone

// Colors of the page that figures have no use for. Grounds are pale enough for
// ink at more than 10:1, and differ in lightness so that they differ in gray.
const (
	groundGood  color = 0xF2F5F8
	groundWarn  color = 0xF3F0E8
	groundAgain color = 0xEDE6DA
	groundBad   color = 0xE7D3C9
	ruleQuiet   color = 0xA9B0B8
)

// family is the cut that text is set in.
type family uint8

const (
	running family = iota // sans: text and headings
	tabular               // condensed: tables, tiles, figures
)

// setting is how a piece of text is set before its runs say more.
type setting struct {
	fam   family
	size  mp
	lead  mp
	bold  bool
	quiet bool
}

// set is a setting at a size with its own leading.
func set(fam family, size mp) setting {
	return setting{fam: fam, size: size, lead: leading(size, fam)}
}

// toned is s in a tone.
func (s setting) toned(t Tone) setting {
	switch t {
	case Quiet:
		s.quiet = true
	case Again, Bad:
		s.bold = true
	}
	return s
}

// style is how a box of text is set.
type style struct {
	face  face
	size  mp
	color color
}

// style is s with what the run says.
func (s setting) style(r *Run) style {
	st := style{face: sans, size: s.size, color: plot.Ink}
	if s.fam == tabular {
		st.face = condensed
	}
	if s.bold && r.Face != Muted || r.Face == Bold {
		st.face = map[face]face{sans: sansBold, condensed: condensedBold}[st.face]
	}
	switch {
	case r.Face == Mono:
		st.face = mono
		st.size = s.size * 9 / 10 // its letters are wide and look large beside the sans
	case r.Link != "":
		st.color = plot.Accent
	case r.Face == Muted || s.quiet:
		st.color = plot.Muted
	}
	return st
}

// ground is the fill of a tone; ok is false where the paper stays white.
func ground(t Tone) (c color, ok bool) {
	switch t {
	case Good:
		return groundGood, true
	case Warn:
		return groundWarn, true
	case Again:
		return groundAgain, true
	case Bad:
		return groundBad, true
	}
	return 0, false
}

// headStyle is the type and the space of a heading level.
type headStyle struct{ size, lead, above, below mp }

func headingStyle(level int) headStyle {
	switch level {
	case 1:
		return headStyle{20_000, 24_000, 22_000, 9_000}
	case 2:
		return headStyle{14_000, 17_500, 18_000, 5_500}
	case 3:
		return headStyle{11_000, 14_000, 13_000, 3_500}
	}
	return headStyle{textSize, 13_000, 9_000, 2_000}
}

// Space around blocks; of two that meet, the greater counts.
const (
	paraGap  mp = 6_000
	itemGap  mp = 2_500
	tableGap mp = 9_000
	panelGap mp = 8_000
	panelPad mp = 7_000
)

// toneRule is the border of a tone: the worse, the darker and the heavier.
func toneRule(t Tone) (color, mp) {
	switch t {
	case Bad:
		return plot.Alarm, heavyRule
	case Again:
		return plot.Ink, thinRule
	case Warn:
		return plot.Muted, thinRule
	}
	return ruleQuiet, hairline
}
