package plot

import (
	"errors"
	"fmt"
	"math"

	"github.com/wcharczuk/go-chart/v2"
)

// Unit is the number of canvas units in a point (1/72 in). Every coordinate,
// radius, line width and dash handed to a renderer is in canvas units, x to the
// right and y down from the top left corner of the figure; font sizes are in
// points. One hundredth of a point is the grid that PDF writers print anyway.
const Unit = 100

// DPI is the resolution at which renderers must interpret the canvas: Draw sets
// it, so that a font size is in points on a canvas of Unit to the point.
const DPI = 72 * Unit

// Figure is a drawing of fixed size.
type Figure interface {
	// Size is the width and height in points.
	Size() (w, h float64)
	// Draw draws the figure with its top left corner at the renderer's origin.
	// Nothing is painted outside Size. A number that is not finite, a character
	// that the fonts do not have, or a size too small to hold the figure is an
	// error; part of the figure may have been drawn by then.
	Draw(r chart.Renderer, f *Fonts) error
}

// Frame is what every figure has.
type Frame struct {
	// Width and Height in points; 0 takes the default of the figure.
	Width, Height float64
	// Compact leaves out the label of each reading, the key and the note, for
	// many small figures on one page: only Title, motor and callout remain.
	Compact bool
	// Title is one line over the figure; blank for none.
	Title string
	// Note is one line under it, for the exaggeration and other remarks.
	Note string
}

// size is Width and Height with the defaults put in.
func (f Frame) size(w, h float64) (float64, float64) {
	if f.Width != 0 {
		w = f.Width
	}
	if f.Height != 0 {
		h = f.Height
	}
	return w, h
}

// Mark is how a reading stands against its limit. Each has a shape of its own,
// so that it is understood without color.
type Mark int

const (
	// Within is a small filled dot: within the limit, or no limit.
	Within Mark = iota
	// Near is a ring: within, but closer to the limit than the reading is sure.
	Near
	// Outside is a large open diamond and a label in semibold.
	Outside
)

// MarkWords name the marks in the key; a mark that does not occur, or has no
// word, is not in the key.
type MarkWords struct {
	Near, Outside, Absent string
}

// Role is the part that a series of readings plays in the figure.
type Role int

const (
	// Earlier rounds are drawn light and without labels.
	Earlier Role = iota
	// Standing is the round that is judged: drawn strong, labeled. At most one.
	Standing
	// Predicted readings are drawn dashed and without labels.
	Predicted
)

// Reading is one reading at one position of a polar figure.
type Reading struct {
	// At is the position in degrees clockwise from the motor, any finite value.
	At float64
	// Tick is the position as printed, "210°".
	Tick string
	// Value is in the unit of the figure.
	Value float64
	// Label is the value as printed; for an absent reading, the word that says
	// why ("blocked").
	Label string
	// Mark is ignored when Absent.
	Mark Mark
	// Absent: no reading here; Value and Mark mean nothing.
	Absent bool
}

// Series is one round of readings around the ring, in any order.
type Series struct {
	// Name is the round as printed in the key, "as left".
	Name     string
	Role     Role
	Readings []Reading
}

// Band is a tolerance window, in the unit of the figure. A side that is open
// has no limit.
type Band struct {
	Lo, Hi         float64
	OpenLo, OpenHi bool
	// LoLabel and HiLabel are printed at the edges where there is room for
	// direct labels (chart by blade).
	LoLabel, HiLabel string
	// Word is printed in the key, "limits 3/8 to 5/8 in".
	Word string
}

// Level is one line of constant value, such as the nominal gap.
type Level struct {
	Value float64
	// Label is printed at the line or in the key, "nominal 1/2 in".
	Label string
}

// Callout names one place in words, "least 0.41 in at 210°", with a line to it.
type Callout struct {
	// At is the position in degrees clockwise from the motor.
	At   float64
	Text string
}

// Arrow is a vector in plan, in the unit of the figure: Dx toward the motor (0°),
// Dy toward 90°. Direction is exact; length is to the radial scale of the figure
// as far as it fits, and never so short that it cannot be seen.
type Arrow struct {
	Dx, Dy float64
	Label  string
}

// ErrNotFinite: a number of the figure is NaN, infinite or beyond maxValue.
var ErrNotFinite = errors.New("number is not finite or too large to draw")

// ErrTooMany: more series, readings or columns than a figure can show.
var ErrTooMany = errors.New("too many to draw")

// ErrNoRoom: the figure is too small for what must be in it.
var ErrNoRoom = errors.New("figure too small")

// ErrGlyph: a text holds a character that the figure fonts do not have.
var ErrGlyph = errors.New("no glyph in the figure fonts")

const (
	// maxValue keeps differences and scales far from overflow; a gap of that
	// many of any unit is a mistake.
	maxValue = 1e12
	// maxPoints is the most readings of one series or columns of one chart;
	// 36 positions is the largest set in use.
	maxPoints = 360
	// maxSeries is the most rounds in one figure.
	maxSeries = 12
	// minSide and maxSide bound the sides of a figure, in points.
	minSide, maxSide = 60.0, 2000.0
)

// finite says which of the named numbers cannot be drawn.
func finite(what string, values ...float64) error {
	for _, v := range values {
		if math.IsNaN(v) || math.Abs(v) > maxValue {
			return fmt.Errorf("%s: %w", what, ErrNotFinite)
		}
	}
	return nil
}
