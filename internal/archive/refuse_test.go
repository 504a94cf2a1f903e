package archive

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/go-pdf/fpdf"
)

// refusals are the smallest changes that make a good document a bad one.
var refusals = []struct {
	name string
	rule Rule
	harm func(s *sample)
}{
	{"painting outside marks", RuleUnmarked, func(s *sample) { s.pdf.Line(1, 1, 9, 9) }},
	{"text outside marks", RuleUnmarked, func(s *sample) { s.pdf.Text(72, 99, "loose") }},
	{"image outside marks", RuleUnmarked, func(s *sample) { s.pdf.RawWriteStr("/I1 Do") }},
	{"mark without end", RuleMarks, func(s *sample) { s.pdf.RawWriteStr("/Artifact <</Type /Layout>> BDC") }},
	{"end without mark", RuleMarks, func(s *sample) { s.pdf.RawWriteStr("EMC") }},
	{"mark in mark", RuleMarks, func(s *sample) {
		s.artifact("/Artifact BMC", func() { s.artifact("/Artifact BMC", func() {}) })
	}},
	{"mark across q", RuleMarks, func(s *sample) { s.pdf.RawWriteStr("q /Artifact BMC Q EMC") }},
	{"mark across BT", RuleMarks, func(s *sample) { s.pdf.RawWriteStr("/Artifact BMC BT EMC ET") }},
	{"identifier twice", RuleMarks, func(s *sample) { s.pdf.RawWriteStr("/P <</MCID 0>> BDC EMC") }},
	{"unknown tag", RuleMarks, func(s *sample) { s.pdf.RawWriteStr("/Paragraph <</MCID 99>> BDC EMC") }},
	{"text in mark properties", RuleMarks, func(s *sample) { s.pdf.RawWriteStr("/P <</MCID 99 /ActualText (x)>> BDC EMC") }},
	{"unknown artifact type", RuleMarks, func(s *sample) { s.pdf.RawWriteStr("/Artifact <</Type /Other>> BDC EMC") }},
	{"q without Q", RuleContent, func(s *sample) { s.pdf.RawWriteStr("q") }},
	{"q too deep", RuleContent, func(s *sample) {
		for range maxGraphicsStates + 1 {
			s.pdf.RawWriteStr("q")
		}
		for range maxGraphicsStates + 1 {
			s.pdf.RawWriteStr("Q")
		}
	}},
	{"CMYK color", RuleContent, func(s *sample) { s.pdf.RawWriteStr("0 0 0 1 k") }},
	{"operand missing", RuleContent, func(s *sample) { s.pdf.RawWriteStr("0 0 rg") }},
	{"invisible text", RuleContent, func(s *sample) { s.pdf.RawWriteStr("3 Tr") }},
	{"damaged content", RuleContent, func(s *sample) { s.pdf.RawWriteStr("(never ends") }},
	{"font not in resources", RuleContent, func(s *sample) { s.pdf.RawWriteStr("BT /F0 9 Tf ET") }},
	{"missing glyph", RuleGlyph, func(s *sample) { s.artifact("/Artifact BMC", func() { s.pdf.Text(72, 99, "漢") }) }},
	{"private glyph", RuleGlyph, func(s *sample) { s.artifact("/Artifact BMC", func() { s.pdf.Text(72, 99, "\uE000") }) }},
	{"transparency", RuleShape, func(s *sample) { s.pdf.SetAlpha(0.5, "Normal") }},
	{"link of the page writer", RuleShape, func(s *sample) { s.pdf.LinkString(1, 1, 9, 9, "https://example.org") }},
	{"bookmark of the page writer", RuleShape, func(s *sample) { s.pdf.Bookmark("x", 0, 0) }},
	{"metadata of the page writer", RuleShape, func(s *sample) { s.pdf.SetXmpMetadata([]byte("<x/>")) }},
	{"script", RuleShape, func(s *sample) { s.pdf.SetJavascript("x") }},
	{"font not declared", RuleFont, func(s *sample) { s.doc.Fonts = s.doc.Fonts[1:] }},
	{"font name with space", RuleFont, func(s *sample) { s.doc.Fonts[0].Name = "IBM Plex" }},

	{"run drawn, not declared", RuleRun, func(s *sample) { s.pdf.RawWriteStr("/P <</MCID 30>> BDC EMC") }},
	{"run in no element", RuleRun, func(s *sample) { s.doc.Root.Kids[1].Element.Kids = nil }},
	{"run in two elements", RuleRun, func(s *sample) { s.doc.Root.Kids[1].Element.Kids[0].Run.MCID = 0 }},
	{"run that does not exist", RuleRun, func(s *sample) { s.doc.Root.Kids[1].Element.Kids[0].Run.MCID = 4711 }},
	{"page not declared", RulePage, func(s *sample) { s.pdf.AddPage() }},
	{"label twice", RulePage, func(s *sample) { s.doc.Pages[1].Label = "1" }},
	{"no label", RulePage, func(s *sample) { s.doc.Pages[1].Label = "" }},
	{"no root", RuleStructure, func(s *sample) { s.doc.Root = nil }},
	{"unknown role", RuleStructure, func(s *sample) { s.doc.Root.Kids[1].Element.Role = "Quote" }},
	{"row outside a table", RuleStructure, func(s *sample) { s.doc.Root.Kids[1].Element.Role = RoleRow }},
	{"text in a section", RuleStructure, func(s *sample) { s.doc.Root.Kids[1].Element.Role = RoleSect }},
	{"kid of two kinds", RuleStructure, func(s *sample) { s.doc.Root.Kids[1].Element.Kids[0].Link = &Link{} }},
	{"empty heading", RuleStructure, func(s *sample) { s.in(&Element{Role: RoleH2}, func() {}) }},
	{"element under itself", RuleStructure, func(s *sample) {
		e := s.doc.Root.Kids[1].Element
		e.Kids = []Kid{{Element: e}, {Element: e}}
	}},
	{"heading level skipped", RuleHeading, func(s *sample) { s.doc.Root.Kids[0].Element.Role = RoleH2 }},
	{"header cell without scope", RuleTable, func(s *sample) { s.find(RoleHeadCell).Scope = "" }},
	{"scope on a data cell", RuleTable, func(s *sample) { s.find(RoleCell).Scope = "Row" }},
	{"row too short", RuleTable, func(s *sample) { s.find(RoleHeadCell).RowSpan = 1 }},
	{"row too long", RuleTable, func(s *sample) { s.find(RoleHeadCell).ColSpan = 2 }},
	{"cell below the last row", RuleTable, func(s *sample) { s.find(RoleHeadCell).RowSpan = 3 }},
	{"table head without body", RuleTable, func(s *sample) {
		e := s.find(RoleTable)
		e.Kids = e.Kids[:2]
	}},
	{"caption in the middle", RuleStructure, func(s *sample) {
		e := s.find(RoleTable)
		e.Kids[0], e.Kids[1] = e.Kids[1], e.Kids[0]
	}},
	{"two captions", RuleStructure, func(s *sample) {
		e := s.find(RoleTable)
		e.Kids = append(e.Kids, Kid{Element: &Element{Role: RoleCaption}})
	}},
	{"page too small", RuleShape, func(s *sample) { s.pdf.AddPageFormat("P", fpdf.SizeType{Wd: 2, Ht: 792}) }},
	{"text too long", RuleStructure, func(s *sample) { s.find(RoleFigure).Detail.Alt = strings.Repeat("é", maxTextLength/2+1) }},
	{"figure without text", RuleFigure, func(s *sample) { s.find(RoleFigure).Detail.Alt = " " }},
	{"figure without box", RuleFigure, func(s *sample) { s.find(RoleFigure).Detail.BBox = Rect{} }},
	{"element identifier twice", RuleID, func(s *sample) { s.find(RoleFigure).ID = "cells.1.verdict" }},
	{"identifier with a tab", RuleID, func(s *sample) { s.find(RoleFigure).ID = "a\tb" }},
	{"identifier that is empty", RuleID, func(s *sample) { s.find(RoleFigure).ID = "a  b" }},
	{"one of two identifiers twice", RuleID, func(s *sample) { s.find(RoleFigure).ID = "a cells.1.verdict" }},
	{"too many identifiers", RuleID, func(s *sample) { s.find(RoleFigure).ID = "a b c d e f g h i" }},
	{"link without text", RuleLink, func(s *sample) { s.find(RoleLink).Kids[1].Link.Text = "" }},
	{"link in two places", RuleLink, func(s *sample) {
		e := s.find(RoleLink)
		e.Kids = append(e.Kids, e.Kids[1])
	}},
	{"link to nowhere", RuleLink, func(s *sample) { s.find(RoleLink).Kids[1].Link.To.Page = 3 }},
	{"link without area", RuleLink, func(s *sample) { s.find(RoleLink).Kids[1].Link.Rect.X1 = 0 }},
	{"link in a paragraph", RuleLink, func(s *sample) { s.find(RoleLink).Role = RoleP }},
	{"field without tooltip", RuleField, func(s *sample) { s.find(RoleForm).Kids[0].Field.Text = "" }},
	{"field name twice", RuleField, func(s *sample) { s.find(RoleForm).Kids[0].Field.Name = "sign.owner" }},
	{"field name within another", RuleField, func(s *sample) { s.find(RoleForm).Kids[0].Field.Name = "sign" }},
	{"field name with an empty part", RuleField, func(s *sample) { s.find(RoleForm).Kids[0].Field.Name = "sign." }},
	{"bookmark to nowhere", RuleOutline, func(s *sample) { s.doc.Outline[1].Kids[0].To.Page = -1 }},
	{"bookmark without text", RuleOutline, func(s *sample) { s.doc.Outline[0].Text = "" }},
	{"no title", RuleMetadata, func(s *sample) { s.doc.Title = "" }},
	{"control character in the subject", RuleMetadata, func(s *sample) { s.doc.Subject = "a\x01" }},
	{"no language", RuleMetadata, func(s *sample) { s.doc.Lang = "" }},
	{"language of an element", RuleMetadata, func(s *sample) { s.find(RoleFigure).Detail.Lang = "English" }},
	{"no date", RuleMetadata, func(s *sample) { s.doc.Issued = time.Time{} }},
	{"no color profile", RuleMetadata, func(s *sample) { s.doc.ColorProfile = nil }},
	{"color profile cut off", RuleMetadata, func(s *sample) { s.doc.ColorProfile = s.doc.ColorProfile[:1000] }},
	{"file name twice", RuleFile, func(s *sample) { s.doc.Files[0].Name = "DATA.json" }},
	{"file name with path", RuleFile, func(s *sample) { s.doc.Files[0].Name = "../data.json" }},
	{"file without type", RuleFile, func(s *sample) { s.doc.Files[0].MIME = "text" }},
	{"file without relationship", RuleFile, func(s *sample) { s.doc.Files[0].Relationship = "" }},
	{"files in PDF/A-2", RuleFile, func(s *sample) { s.doc.Profile = PDFA2A }},
}

// find returns the first element of a role.
func (s *sample) find(role Role) *Element {
	var search func(e *Element) *Element
	search = func(e *Element) *Element {
		if e.Role == role {
			return e
		}
		for _, k := range e.Kids {
			if k.Element == nil {
				continue
			}
			if found := search(k.Element); found != nil {
				return found
			}
		}
		return nil
	}
	return search(s.doc.Root)
}

func TestFinishRefuses(t *testing.T) {
	for _, c := range refusals {
		t.Run(c.name, func(t *testing.T) {
			s := drawSample()
			c.harm(s)
			out, err := Finish(s.output(t), s.doc)
			var refused *RefusedError
			if out != nil || !errors.As(err, &refused) {
				t.Fatalf("not refused: %v", err)
			}
			if !slices.ContainsFunc(refused.Violations, func(v Violation) bool { return v.Rule == c.rule }) {
				t.Errorf("no %q among %v", c.rule, refused.Violations)
			}
		})
	}
}

// Two faults in different places are told together.
func TestFinishTellsAllViolations(t *testing.T) {
	s := drawSample()
	s.doc.Title = ""
	s.find(RoleFigure).Detail.Alt = ""
	s.pdf.Line(1, 1, 9, 9)
	var refused *RefusedError
	if _, err := Finish(s.output(t), s.doc); !errors.As(err, &refused) || len(refused.Violations) != 3 {
		t.Errorf("want 3 violations, got %v", err)
	}
}

func TestFinishRefusesOtherFiles(t *testing.T) {
	s := drawSample()
	raw := s.output(t)
	for name, b := range map[string][]byte{
		"empty":          nil,
		"cut off":        raw[:len(raw)-20],
		"bytes behind":   append(slices.Clone(raw), "more"...),
		"finished twice": drawSample().finished(t),
	} {
		if _, err := Finish(b, s.doc); err == nil {
			t.Errorf("%s: not refused", name)
		}
	}
}
