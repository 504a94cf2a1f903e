package workbook

import (
	"math"

	"asleft/internal/field"
	"asleft/internal/measure"

	"github.com/xuri/excelize/v2"
)

// Sizes of the drawing in pixels of the sheet.
const (
	drawingCenterX = 470
	drawingCenterY = 272
	drawingRing    = 145 // radius of the fan cylinder
	drawingLabels  = 166 // radius of the middle of the positions' labels
	labelWidth     = 64
	labelHeight    = 20
)

// drawing shows the deck from above: the motor at the top, where 0° is, and
// every position where the crew of this form counts it.
func (w *writer) drawing(s *sheetPlan) {
	g := s.guide
	at := pos{1, g.row}.String()
	w.shape(s, at, "ellipse", "", box{drawingCenterX - drawingRing, drawingCenterY - drawingRing, 2 * drawingRing, 2 * drawingRing}, white, 2)
	w.shape(s, at, "rect", "", box{drawingCenterX - 4, 68, 8, drawingCenterY - 68}, dark, 1)
	w.shape(s, at, "rect", "", box{drawingCenterX - 45, 4, 90, 64}, band, 1.5)
	w.shape(s, at, "rect", g.motor, box{drawingCenterX - 36, 24, 72, 22}, band, 0)
	w.shape(s, at, "ellipse", "", box{drawingCenterX - 34, drawingCenterY - 34, 68, 68}, pale, 1.5)
	w.shape(s, at, "rect", g.fan, box{drawingCenterX - 21, drawingCenterY - 11, 44, 22}, pale, 0)
	w.shape(s, at, "rect", g.zero, box{drawingCenterX + 60, 14, 300, 44}, "", 0)
	for i, d := range g.degrees {
		x, y := onRing(d, g.direction, drawingLabels+labelReach(d))
		w.shape(s, at, "rect", itoa(i+1)+" · "+degreeText(d),
			box{x - labelWidth/2, y - labelHeight/2, labelWidth, labelHeight}, labelGround(i), 0)
		x, y = onRing(d, g.direction, drawingRing)
		w.shape(s, at, "ellipse", "", box{x - 4, y - 4, 8, 8}, ink, 1)
	}
}

// box is a place on the drawing: left, top, width, height in pixels.
type box struct{ x, y, w, h int }

// onRing is the place at an angle counted by the crew from the motor, which is
// at the top; looking down, clockwise on the deck is clockwise on the sheet.
func onRing(d measure.Angle, dir field.Direction, radius int) (x, y int) {
	rad := clockwise(d, dir).Radians()
	return drawingCenterX + int(math.Round(float64(radius)*math.Sin(rad))),
		drawingCenterY - int(math.Round(float64(radius)*math.Cos(rad)))
}

// labelReach moves labels beside the ring outward by half their width.
func labelReach(d measure.Angle) int {
	return int(math.Round(20 * math.Abs(math.Sin(d.Radians()))))
}

// labelGround sets off where counting starts.
func labelGround(i int) string {
	if i == 0 {
		return band
	}
	return white
}

func (w *writer) shape(s *sheetPlan, at, kind, words string, b box, ground string, line float64) {
	shape := &excelize.Shape{Cell: at, Type: kind, Width: uint(b.w), Height: uint(b.h),
		Format: excelize.GraphicOptions{OffsetX: b.x, OffsetY: b.y, Positioning: "absolute"},
		Line:   excelize.LineOptions{Type: excelize.LineSolid, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{ink}}, Width: line}}
	if line == 0 {
		shape.Line = excelize.LineOptions{Type: excelize.LineNone}
	}
	if ground != "" {
		shape.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{ground}}
	}
	if words != "" {
		shape.Paragraph = []excelize.RichTextRun{{Text: words, Font: &excelize.Font{Family: typeface, Size: 10, Color: ink}}}
	}
	w.must(w.file.AddShape(s.title, shape))
}
