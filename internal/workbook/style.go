package workbook

import (
	"asleft/internal/measure"

	"github.com/xuri/excelize/v2"
)

// Type of the form. The face is on every office machine or has a metric twin
// there, so columns keep their printed width.
const typeface = "Arial"

// Greys of the form; it will be printed on whatever printer there is.
const (
	ink   = "000000"
	grey  = "404040"
	pale  = "E7E6E6"
	dark  = "BFBFBF"
	band  = "D9E2EC"
	white = "FFFFFF"
)

// Number formats. A length typed in inches is kept as text: the spreadsheet
// then leaves 9/16, 1-1/4 and 12.7 mm exactly as they were typed, while a cell
// in a fraction format takes 9/16 as 0.5625 but still makes a date of 1-1/4,
// and rounds what it shows. Angles are text for the same reason (12-30, 5°30').
// A length in millimeters is a decimal number, where no such trap waits.
const (
	formatText    = "@"
	formatMetric  = "0.0##"
	formatCount   = "0"
	formatDate    = "yyyy-mm-dd"
	formatClock   = "hh:mm"
	formatGeneral = "General"
)

// numberFormat is the format of a cell that takes a kind.
func numberFormat(k kind, u measure.Unit) string {
	switch k {
	case kindLength:
		if u == measure.UnitMillimeter {
			return formatMetric
		}
	case kindCount:
		return formatCount
	case kindDate:
		return formatDate
	case kindClock:
		return formatClock
	}
	return formatText
}

// styles makes each style of the file once.
type styles struct {
	file *excelize.File
	made map[styleKey]int
}

type styleKey struct {
	look   look
	format string
}

// id is the style of a look with a number format.
func (s *styles) id(l look, format string) (int, error) {
	key := styleKey{l, format}
	if id, ok := s.made[key]; ok {
		return id, nil
	}
	style := looks(l)
	style.CustomNumFmt = &format
	if format == formatGeneral {
		style.CustomNumFmt = nil
	}
	id, err := s.file.NewStyle(style)
	s.made[key] = id
	return id, err
}

// looks is how each look is drawn.
func looks(l look) *excelize.Style {
	switch l {
	case lookTitle:
		return plainStyle(16, true, ink, "", false)
	case lookIntro:
		return plainStyle(10, false, grey, "", false)
	case lookBlock:
		return plainStyle(12, true, ink, band, false)
	case lookNote:
		return plainStyle(10, false, ink, "", true)
	case lookHint:
		return plainStyle(9, false, grey, "", true)
	case lookAside:
		style := plainStyle(9, false, grey, "", false)
		style.Alignment.Indent, style.Alignment.Horizontal = 1, "left"
		return style
	case lookLabel:
		style := boxed(plainStyle(10, false, ink, "", true), false, 1)
		style.Alignment.Indent, style.Alignment.Horizontal = 1, "left"
		return style
	case lookCentered:
		style := boxed(plainStyle(11, false, ink, white, true), true, 1)
		style.Alignment.Horizontal = "center"
		return style
	case lookHead:
		style := boxed(plainStyle(10, true, ink, pale, true), false, 1)
		style.Alignment.Horizontal = "center"
		return style
	case lookPlain:
		return plainStyle(10, false, ink, "", false)
	case lookSum:
		style := boxed(plainStyle(10, true, grey, "", false), false, 3)
		style.Alignment.Horizontal = "center"
		return style
	case lookClosed:
		return boxed(plainStyle(10, false, grey, dark, false), false, 1)
	case lookFree:
		return boxed(plainStyle(11, false, ink, "", true), true, 4)
	}
	style := boxed(plainStyle(11, false, ink, white, true), true, 1)
	style.Alignment.Indent, style.Alignment.Horizontal = 1, "left"
	return style
}

// plainStyle is text of a size on a ground ("" for none), locked.
func plainStyle(size float64, bold bool, color, ground string, wrap bool) *excelize.Style {
	style := &excelize.Style{
		Font:       &excelize.Font{Family: typeface, Size: size, Bold: bold, Color: color},
		Alignment:  &excelize.Alignment{Vertical: "center", WrapText: wrap},
		Protection: &excelize.Protection{Locked: true},
	}
	if ground != "" {
		style.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{ground}}
	}
	return style
}

// boxed draws a box around a style and unlocks it where people write in it.
func boxed(style *excelize.Style, open bool, line int) *excelize.Style {
	for _, side := range []string{"left", "right", "top", "bottom"} {
		style.Border = append(style.Border, excelize.Border{Type: side, Color: ink, Style: line})
	}
	style.Protection.Locked = !open
	return style
}

// outside is how a number outside its limit is marked while it is typed: bold,
// italic and shaded, so that it shows without color and in print. A hatch would
// be clearer still, but not every spreadsheet draws one here.
func outside() *excelize.Style {
	return &excelize.Style{
		Font: &excelize.Font{Bold: true, Italic: true, Color: ink},
		Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"F4D38A"}},
		Border: []excelize.Border{{Type: "left", Color: ink, Style: 1}, {Type: "right", Color: ink, Style: 1},
			{Type: "top", Color: ink, Style: 1}, {Type: "bottom", Color: ink, Style: 1}},
	}
}
