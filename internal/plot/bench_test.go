package plot

import (
	"io"
	"testing"

	"github.com/golang/freetype/truetype"
	"github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"
)

// nowhere is a renderer that draws nothing: what remains is the figure's own cost.
type nowhere struct{}

func (nowhere) ResetStyle()                                        {}
func (nowhere) GetDPI() float64                                    { return DPI }
func (nowhere) SetDPI(float64)                                     {}
func (nowhere) SetClassName(string)                                {}
func (nowhere) SetStrokeColor(drawing.Color)                       {}
func (nowhere) SetFillColor(drawing.Color)                         {}
func (nowhere) SetStrokeWidth(float64)                             {}
func (nowhere) SetStrokeDashArray([]float64)                       {}
func (nowhere) MoveTo(int, int)                                    {}
func (nowhere) LineTo(int, int)                                    {}
func (nowhere) QuadCurveTo(int, int, int, int)                     {}
func (nowhere) ArcTo(int, int, float64, float64, float64, float64) {}
func (nowhere) Close()                                             {}
func (nowhere) Stroke()                                            {}
func (nowhere) Fill()                                              {}
func (nowhere) FillStroke()                                        {}
func (nowhere) Circle(float64, int, int)                           {}
func (nowhere) SetFont(*truetype.Font)                             {}
func (nowhere) SetFontColor(drawing.Color)                         {}
func (nowhere) SetFontSize(float64)                                {}
func (nowhere) Text(string, int, int)                              {}
func (nowhere) MeasureText(string) chart.Box                       { return chart.Box{} }
func (nowhere) SetTextRotation(float64)                            {}
func (nowhere) ClearTextRotation()                                 {}
func (nowhere) Save(io.Writer) error                               { return nil }

func BenchmarkDraw(b *testing.B) {
	f := loadFonts(b)
	for name, fig := range everyFigure(12) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := fig.Draw(nowhere{}, f); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSVG(b *testing.B) {
	f := loadFonts(b)
	for name, fig := range everyFigure(12) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := SVG(fig, f, "title", "finding"); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
