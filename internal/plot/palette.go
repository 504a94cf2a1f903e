package plot

import "github.com/wcharczuk/go-chart/v2/drawing"

// Tone is a color as 0xRRGGBB. The palette is grays, one dark blue and one deep
// orange: told apart in any color vision, and by lightness alone on a gray
// print. Every tone for text has a contrast of at least 4.5:1 on white (WCAG 2.1,
// 1.4.3).
type Tone uint32

const (
	// Ink is for text and what must be seen first.
	Ink Tone = 0x1B1E22
	// Muted is for text and lines that explain.
	Muted Tone = 0x565D66
	// Soft is for lines of earlier rounds; too light for text.
	Soft Tone = 0x868E98
	// Faint is for spokes and guides; too light for text.
	Faint Tone = 0xC6CCD2
	// Tint fills a tolerance band.
	Tint Tone = 0xDFE6ED
	// Accent is the standing round.
	Accent Tone = 0x174A7C
	// Alarm is for what is outside; dark enough to print as a dark gray.
	Alarm Tone = 0xA63600
	// White is the paper, under a label or inside an open mark.
	White Tone = 0xFFFFFF
)

// RGB is the tone by component.
func (t Tone) RGB() (r, g, b uint8) {
	return uint8(t >> 16), uint8(t >> 8), uint8(t)
}

// Color is the tone as the renderers take it, opaque.
func (t Tone) Color() drawing.Color {
	r, g, b := t.RGB()
	return drawing.Color{R: r, G: g, B: b, A: 255}
}
