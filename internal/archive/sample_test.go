package archive

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"testing"
	"time"

	"github.com/go-pdf/fpdf"

	"asleft/fonts"
)

// sample draws documents the way the page layer does: marks by raw operators,
// everything else recorded beside the drawing.
type sample struct {
	pdf  *fpdf.Fpdf
	doc  Document
	up   []*Element
	mcid int
}

const sampleHeight = 792.0

var sampleTime = time.Date(2026, 3, 4, 15, 16, 17, 0, time.FixedZone("", -6*3600))

func newSample() *sample {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: 612, Ht: sampleHeight}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(sampleTime)
	pdf.SetModificationDate(sampleTime)
	pdf.SetProducer("sample", true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddUTF8FontFromBytes("sans", "", fonts.Sans)
	pdf.AddUTF8FontFromBytes("sans", "B", fonts.SansSemiBold)
	pdf.AddUTF8FontFromBytes("cond", "", fonts.SansCondensed)
	pdf.AddUTF8FontFromBytes("mono", "", fonts.Mono)
	root := &Element{Role: RoleDocument}
	return &sample{pdf: pdf, up: []*Element{root}, doc: Document{
		Title: "Tower 7 – fan turnover", Author: "Example Contractor & Sons", Subject: "As-left readings <draft>",
		Keywords: []string{"tower", "fan"}, Creator: "asleft 0.1.0", Lang: "en-US", Issued: sampleTime,
		Root: root, ColorProfile: fonts.SRGB,
		Fonts: []Font{{"utf8sans", "IBMPlexSans"}, {"utf8sansB", "IBMPlexSans-SemiBold"},
			{"utf8cond", "IBMPlexSansCondensed"}, {"utf8mono", "IBMPlexMono"}},
	}}
}

func (s *sample) page() int { return len(s.doc.Pages) - 1 }

// addPage starts a page with a running head as an artifact.
func (s *sample) addPage() {
	s.pdf.AddPage()
	s.doc.Pages = append(s.doc.Pages, Page{Label: fmt.Sprint(len(s.doc.Pages) + 1)})
	s.mcid = 0
	s.pdf.SetFont("cond", "", 8)
	s.artifact("/Artifact <</Type /Pagination /Subtype /Header>> BDC", func() {
		s.pdf.Text(72, 40, "Tower 7, page "+s.doc.Pages[s.page()].Label)
		s.pdf.Line(72, 44, 540, 44)
	})
}

func (s *sample) artifact(open string, draw func()) {
	s.pdf.RawWriteStr(open)
	draw()
	s.pdf.RawWriteStr("EMC")
}

// in adds an element under the current one and fills it.
func (s *sample) in(e *Element, fill func()) *Element {
	top := s.up[len(s.up)-1]
	top.Kids = append(top.Kids, Kid{Element: e})
	s.up = append(s.up, e)
	fill()
	s.up = s.up[:len(s.up)-1]
	return e
}

// run draws one marked run of the current element.
func (s *sample) run(draw func()) {
	top := s.up[len(s.up)-1]
	s.pdf.RawWriteStr(fmt.Sprintf("/%s <</MCID %d>> BDC", top.Role, s.mcid))
	draw()
	s.pdf.RawWriteStr("EMC")
	top.Kids = append(top.Kids, Kid{Run: &Run{s.page(), s.mcid}})
	s.mcid++
	s.doc.Pages[s.page()].Runs = s.mcid
}

// text adds an element that holds one line.
func (s *sample) text(role Role, font string, size, x, y float64, text string) *Element {
	return s.in(&Element{Role: role}, func() { s.line(font, size, x, y, text) })
}

func (s *sample) line(font string, size, x, y float64, text string) {
	style := ""
	if font == "bold" {
		font, style = "sans", "B"
	}
	s.pdf.SetFont(font, style, size)
	s.run(func() { s.pdf.Text(x, y, text) })
}

// table draws a table of rows × 8 with a head in two rows, spanning cells and
// identified values; on a repeat the head is an artifact.
func (s *sample) table(name string, y float64, rows int) {
	s.in(&Element{Role: RoleTable}, func() {
		s.text(RoleCaption, "sans", 9, 72, y-6, "Readings of "+name)
		s.in(&Element{Role: RoleTableHead}, func() {
			s.in(&Element{Role: RoleRow}, func() {
				s.in(&Element{Role: RoleHeadCell, Scope: "Column", RowSpan: 2}, func() { s.line("bold", 8, 74, y+10, "Position") })
				s.in(&Element{Role: RoleHeadCell, Scope: "Column", ColSpan: 7, ID: name + ".rounds.1.unit"}, func() { s.line("bold", 8, 140, y+10, "Gap, in") })
			})
			s.in(&Element{Role: RoleRow}, func() {
				for c := range 7 {
					s.in(&Element{Role: RoleHeadCell, Scope: "Column"}, func() { s.line("bold", 8, 140+50*float64(c), y+22, fmt.Sprint("blade ", c+1)) })
				}
			})
		})
		s.in(&Element{Role: RoleTableBody}, func() {
			for r := range rows {
				at := y + 34 + 12*float64(r)
				s.artifact("/Artifact <</Type /Layout>> BDC", func() { s.pdf.Line(72, at+2, 540, at+2) })
				s.in(&Element{Role: RoleRow}, func() {
					s.in(&Element{Role: RoleHeadCell, Scope: "Row"}, func() { s.line("cond", 8, 74, at, fmt.Sprintf("%d°", 15*r)) })
					for c := range 7 {
						id := fmt.Sprintf("%s.rounds.1.readings.%d.%d", name, r, c)
						s.in(&Element{Role: RoleCell, ID: id}, func() {
							s.line("cond", 8, 140+50*float64(c), at, fmt.Sprintf("0.%03d", (r*37+c*11)%1000))
						})
					}
				})
			}
		})
	})
}

// figure draws circles and labels as one marked run.
func (s *sample) figure(y float64) {
	s.in(&Element{Role: RoleFigure, Detail: &Detail{Alt: "Tip clearance as left: least 0.41 in at 210°, within limits",
		BBox: Rect{72, sampleHeight - y - 100, 200, sampleHeight - y}}}, func() {
		s.run(func() {
			s.pdf.RawWriteStr("q 0.2 0.4 0.6 RG 0.5 w [2 1] 0 d")
			for i := range 5 {
				s.pdf.Circle(130, y+50, float64(10*i+8), "D")
			}
			s.pdf.RawWriteStr("Q")
			s.pdf.SetFont("cond", "", 7)
			s.pdf.Text(120, y+12, "0° motor ½")
		})
		s.text(RoleCaption, "sans", 8, 72, y+112, "Tip clearance, seen from above")
	})
}

// photo draws a picture with text around it.
func (s *sample) photo(kind string, y float64) {
	picture := image.NewRGBA(image.Rect(0, 0, 12, 8))
	for i := range picture.Pix {
		picture.Pix[i] = byte(i*7) | byte(i%4/3)*255 // opaque
	}
	var b bytes.Buffer
	if kind == "PNG" {
		_ = png.Encode(&b, picture)
	} else {
		_ = jpeg.Encode(&b, picture, nil)
	}
	s.pdf.RegisterImageOptionsReader(kind, fpdf.ImageOptions{ImageType: kind}, &b)
	s.in(&Element{Role: RoleFigure, Detail: &Detail{Alt: "Photo of the hub", BBox: Rect{400, sampleHeight - y - 40, 460, sampleHeight - y}}}, func() {
		s.run(func() { s.pdf.ImageOptions(kind, 400, y, 60, 40, false, fpdf.ImageOptions{}, 0, "") })
	})
}

// drawSample draws a document with one of everything.
func drawSample() *sample {
	s := newSample()
	s.addPage()
	s.text(RoleH1, "bold", 18, 72, 90, "Fan turnover")
	s.text(RoleP, "sans", 10, 72, 110, "Plain text, Ελληνικά and Русский; “quotes” (and parentheses\\). ")
	s.in(&Element{Role: RoleContents}, func() {
		s.in(&Element{Role: RoleEntry}, func() {
			s.in(&Element{Role: RoleReference}, func() {
				s.in(&Element{Role: RoleLink}, func() {
					s.line("sans", 10, 72, 140, "Cell 1 … 2")
					s.link(Rect{72, sampleHeight - 142, 200, sampleHeight - 130}, 1, "Cell 1, page 2")
				})
			})
		})
	})
	s.in(&Element{Role: RoleList}, func() {
		for i, item := range []string{"lock out, tag and try the motor", "block the fan"} {
			y := 170 + 14*float64(i)
			s.in(&Element{Role: RoleItem}, func() {
				s.text(RoleLabel, "sans", 10, 72, y, fmt.Sprint(i+1, "."))
				s.text(RoleItemBody, "sans", 10, 90, y, item)
			})
		}
	})
	s.in(&Element{Role: RoleP, Detail: &Detail{Lang: "de"}}, func() { s.line("mono", 9, 72, 210, "Prüfsumme 00ff17ab") })
	s.addPage()
	s.in(&Element{Role: RoleSect, Detail: &Detail{Title: "Cell 1"}}, func() {
		s.text(RoleH2, "bold", 14, 72, 90, "Cell 1")
		s.table("cells.1", 120, 20)
		s.figure(420)
		s.photo("JPG", 420)
		s.photo("PNG", 480)
		s.splitParagraph()
		s.table("cells.1b", 320, 5)
	})
	s.text(RoleH2, "bold", 14, 72, 480, "Sign-off")
	for i, role := range []string{"contractor", "owner"} {
		s.field("sign."+role, 520+60*float64(i))
	}
	s.doc.Outline = []Bookmark{{Text: "Fan turnover", To: Target{0, 720}}, {Text: "Cell 1 – within", To: Target{1, 720},
		Kids: []Bookmark{{Text: "Readings", To: Target{1, 690}}, {Text: "Figure", To: Target{1, 380}}}}, {Text: "Sign-off", To: Target{2, 320}}}
	s.doc.Files = []File{
		{"tower.xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "The workbook as received", Source, sampleTime, bytes.Repeat([]byte("xlsx"), 900), nil},
		{"data.json", "application/json", "All readings and verdicts", Data, sampleTime, bytes.Repeat([]byte(`{"a":1}`), 400), nil},
		{"manifest.txt", "text/plain", "Hashes of all files", Supplement, sampleTime, []byte("nothing\n"), nil},
	}
	return s
}

// splitParagraph is one paragraph over two pages.
func (s *sample) splitParagraph() {
	s.in(&Element{Role: RoleP}, func() {
		s.line("sans", 10, 72, 700, "A paragraph that starts here and ")
		s.addPage()
		s.line("sans", 10, 72, 90, "goes on over the page: ")
		s.in(&Element{Role: RoleSpan, ID: "cells.1.verdict", Detail: &Detail{Actual: "within"}}, func() {
			s.run(func() { s.pdf.Circle(200, 86, 4, "F") })
		})
	})
}

func (s *sample) link(r Rect, page int, text string) {
	top := s.up[len(s.up)-1]
	top.Kids = append(top.Kids, Kid{Link: &Link{Page: s.page(), Rect: r, To: Target{page, 720}, Text: text}})
}

func (s *sample) field(name string, y float64) {
	s.in(&Element{Role: RoleForm}, func() {
		top := s.up[len(s.up)-1]
		top.Kids = append(top.Kids, Kid{Field: &Field{Name: name, Page: s.page(),
			Rect: Rect{72, sampleHeight - y - 40, 300, sampleHeight - y}, Text: "Signature of " + name}})
	})
}

// output is the page writer's file.
func (s *sample) output(t testing.TB) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := s.pdf.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// finished is the sample's finished file.
func (s *sample) finished(t testing.TB) []byte {
	t.Helper()
	out, err := Finish(s.output(t), s.doc)
	if err != nil {
		t.Fatal(err)
	}
	return out
}
