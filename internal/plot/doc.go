// Package plot draws the figures of the record: polar figures of tip clearance
// and fan tilt, a chart by blade, and the plan sketch that shows where 0° is.
//
// In: small structs of numbers in any one unit and of words that are ready to
// print. Out: calls on go-chart's chart.Renderer, whoever implements it, or the
// bytes of an SVG file:
//
//	fonts, err := plot.EmbeddedFonts()
//	svg, err := plot.SVG(plot.PolarClearance{...}, fonts, "Tip clearance", "Least 0.41 in at 210°.")
//
// All figures share one frame: plan view looking down, the drive line toward
// the motor at the top (0°), degrees clockwise.
//
// The package knows no record, no limit and no verdict: what is outside comes in
// as a mark, what is worst comes in as a callout. It forms no word and formats
// no reading. Same figure, same fonts: same calls, in the same order.
package plot
