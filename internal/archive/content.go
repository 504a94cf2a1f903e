package archive

import (
	"fmt"
)

// mark is one marked-content sequence as found on a page.
type mark struct {
	tag  Name
	mcid int // -1 for an artifact
}

// pageScan is what one content stream holds.
type pageScan struct {
	marks     []mark // real content, in the order of drawing
	artifacts int
	fonts     map[Name]bool
	images    map[Name]bool
	faults    []Violation // without place
	// show, if set, gets each string shown: the identifier it stands in (-1 in an
	// artifact), its font, and its codes of two bytes each.
	show func(mcid int, font Name, codes []byte)
	// short are fonts with the codes of a finished file.
	short map[Name]bool
	// record, if set, takes down every operation.
	record *recording
}

// scanner walks over a content stream.
type scanner struct {
	parser
	out      *pageScan
	operands []token
	scratch  []byte
	raw      []byte

	font      Name   // of the current graphics state
	saved     []Name // fonts of the states under q
	inText    bool
	inMark    bool
	mcid      int
	markDepth int    // len(saved) when the mark began
	markText  bool   // inText when the mark began
	seen      []bool // by identifier
}

// maxOperands bounds the operands of one operator, elements of arrays included.
const maxOperands = 1 << 14

// maxFaults is how many faults of one page are told.
const maxFaults = 20

// scan walks over a content stream and notes what it uses and what is wrong.
func scan(src []byte, out *pageScan) {
	out.fonts, out.images = map[Name]bool{}, map[Name]bool{}
	s := scanner{parser: *newParser(src, 0), out: out}
	for len(out.faults) < maxFaults {
		t, err := s.next()
		if err != nil {
			s.fault(RuleContent, "%v", err)
			return
		}
		switch t.kind {
		case tokenEnd:
			s.finish()
			return
		case tokenWord:
			s.operator(t)
			s.operands = s.operands[:0]
		default:
			if len(s.operands) == maxOperands {
				s.fault(RuleContent, "more than %d operands", maxOperands)
				return
			}
			s.operands = append(s.operands, t)
		}
	}
}

func (s *scanner) fault(rule Rule, format string, args ...any) {
	s.out.faults = append(s.out.faults, Violation{Rule: rule, Fact: fmt.Sprintf(format, args...)})
}

// finish checks that everything begun has ended.
func (s *scanner) finish() {
	if s.inMark {
		s.fault(RuleMarks, "marked content does not end")
	}
	if s.inText || len(s.saved) > 0 {
		s.fault(RuleContent, "q or BT does not end")
	}
	if len(s.operands) > 0 {
		s.fault(RuleContent, "operands at the end")
	}
}

func (s *scanner) operator(t token) {
	op, known := lookup(s.text(t))
	if !known {
		s.fault(RuleContent, "operator %.12q", s.text(t))
		return
	}
	if op.numbers >= 0 && !s.numbers(int(op.numbers)) {
		s.fault(RuleContent, "operands of %s", s.text(t))
		return
	}
	if s.out.record != nil {
		s.out.record.add(t, s.operands)
	}
	switch op.kind {
	case opPaint:
		s.painting(t)
	case opShow:
		s.painting(t)
		s.showing()
	case opImage:
		s.painting(t)
		s.image()
	case opPush, opPop:
		s.graphicsState(op.kind)
	case opTextBegin, opTextEnd:
		s.textObject(op.kind)
	case opFont:
		s.setFont()
	case opRender:
		if n, err := s.integer(s.operands[0]); err != nil || n >= invisibleRender {
			s.fault(RuleContent, "invisible text")
		}
	case opBegin, opBeginPlain:
		s.begin(op.kind)
	case opEnd:
		s.end()
	}
}

// numbers tells whether the operands are exactly n numbers.
func (s *scanner) numbers(n int) bool {
	if len(s.operands) != n {
		return false
	}
	for _, t := range s.operands {
		if t.kind != tokenInt && t.kind != tokenReal {
			return false
		}
	}
	return true
}

func (s *scanner) painting(t token) {
	if !s.inMark {
		s.fault(RuleUnmarked, "%s at offset %d", s.text(t), t.start)
	}
}

func (s *scanner) graphicsState(kind operatorKind) {
	if kind == opPush {
		if len(s.saved) == maxGraphicsStates {
			s.fault(RuleContent, "q deeper than %d", maxGraphicsStates)
			return
		}
		s.saved = append(s.saved, s.font)
		return
	}
	if len(s.saved) == 0 || s.inMark && len(s.saved) == s.markDepth {
		s.fault(RuleMarks, "Q without its q on the same side of the mark")
		return
	}
	s.font = s.saved[len(s.saved)-1]
	s.saved = s.saved[:len(s.saved)-1]
}

func (s *scanner) textObject(kind operatorKind) {
	begin := kind == opTextBegin
	if s.inText == begin || !begin && s.inMark && s.markText {
		s.fault(RuleMarks, "BT and ET do not match within the mark")
	}
	s.inText = begin
}

func (s *scanner) setFont() {
	if len(s.operands) != 2 || s.operands[0].kind != tokenName {
		s.fault(RuleContent, "operands of Tf")
		return
	}
	if string(s.text(s.operands[0])[1:]) == string(s.font) {
		return // as nearly always: no name to build
	}
	name, err := s.name(s.operands[0])
	if err != nil {
		s.fault(RuleContent, "%v", err)
		return
	}
	s.font = name
	s.out.fonts[name] = true
}

// showing takes the strings of Tj, ' and TJ.
func (s *scanner) showing() {
	if s.font == "" || !s.inText {
		s.fault(RuleContent, "text without font or outside BT and ET")
		return
	}
	s.scratch = s.scratch[:0]
	whole := true
	for _, t := range s.operands {
		switch {
		case t.kind != tokenString && t.kind != tokenHex:
		case s.out.short[s.font]:
			s.raw = s.appendString(s.raw[:0], t)
			var ok bool
			s.scratch, ok = appendCIDs(s.scratch, s.raw)
			whole = whole && ok
		default:
			s.scratch = s.appendString(s.scratch, t)
		}
	}
	if !whole || len(s.scratch)%2 != 0 {
		s.fault(RuleContent, "half a code in a string")
		return
	}
	if s.out.show != nil {
		s.out.show(s.mcid, s.font, s.scratch)
	}
}

func (s *scanner) image() {
	if len(s.operands) != 1 || s.operands[0].kind != tokenName {
		s.fault(RuleContent, "operands of Do")
		return
	}
	name, err := s.name(s.operands[0])
	if err != nil {
		s.fault(RuleContent, "%v", err)
		return
	}
	s.out.images[name] = true
}

// begin starts marked content. Marks do not nest: an artifact inside real
// content or the other way round is forbidden (ISO 14289-1, 7.1), and a run
// inside a run would have two places in the reading order.
func (s *scanner) begin(kind operatorKind) {
	if s.inMark {
		s.fault(RuleMarks, "marked content inside marked content")
	}
	m, err := s.readMark(kind)
	if err != nil {
		s.fault(RuleMarks, "%v", err)
	}
	s.inMark, s.mcid = true, m.mcid
	s.markDepth, s.markText = len(s.saved), s.inText
	if m.mcid < 0 {
		s.out.artifacts++
		return
	}
	for len(s.seen) <= m.mcid {
		s.seen = append(s.seen, false)
	}
	if s.seen[m.mcid] {
		s.fault(RuleMarks, "identifier %d twice", m.mcid)
	}
	s.seen[m.mcid] = true
	s.out.marks = append(s.out.marks, m)
}

func (s *scanner) end() {
	switch {
	case !s.inMark:
		s.fault(RuleMarks, "EMC without BDC")
	case s.markDepth != len(s.saved) || s.markText != s.inText:
		s.fault(RuleMarks, "q, BT and marks cross each other")
	}
	s.inMark = false
}

// readMark reads "/Role <</MCID n>>" or "/Artifact <</Type /Pagination>>".
func (s *scanner) readMark(kind operatorKind) (mark, error) {
	none := mark{mcid: -1}
	if len(s.operands) == 0 || s.operands[0].kind != tokenName {
		return none, fmt.Errorf("mark without a tag")
	}
	tag := string(s.text(s.operands[0])[1:])
	if kind == opBeginPlain {
		if tag != "Artifact" || len(s.operands) != 1 {
			return none, fmt.Errorf("BMC for /%s", tag)
		}
		return none, nil
	}
	// The properties came as tokens. A run has exactly five with its tag; anything
	// else is read again as the dictionary that it is.
	if role := roleOf(s.text(s.operands[0])[1:]); role != "" {
		return s.readRun(role)
	}
	last := s.operands[len(s.operands)-1]
	p := newParser(s.src[:last.end], s.operands[0].end)
	o, err := p.object()
	d, ok := o.(Dict)
	if err != nil || !ok || p.pos != last.end || tag != "Artifact" {
		return none, fmt.Errorf("mark /%s with its properties", tag)
	}
	return none, artifactProperties(d)
}

// readRun reads "<</MCID n>>".
func (s *scanner) readRun(role Role) (mark, error) {
	const runTokens = 5 // tag, <<, key, value, >>
	o := s.operands
	if len(o) != runTokens || o[1].kind != tokenDictOpen || string(s.text(o[2])) != "/MCID" ||
		o[3].kind != tokenInt || o[4].kind != tokenDictClose {
		return mark{mcid: -1}, fmt.Errorf("properties of /%s", role)
	}
	n, err := s.integer(o[3])
	if err != nil || n < 0 || n > maxRuns {
		return mark{mcid: -1}, fmt.Errorf("identifier of /%s", role)
	}
	return mark{Name(role), int(n)}, nil
}

// maxRuns bounds the marked runs of a page.
const maxRuns = 1 << 20

func artifactProperties(d Dict) error {
	for key, value := range d {
		switch name, _ := value.(Name); {
		case key == "Type" && (name == "Pagination" || name == "Layout" || name == "Page" || name == "Background"):
		case key == "Subtype" && (name == "Header" || name == "Footer" || name == "Watermark"):
		default:
			return fmt.Errorf("artifact with /%s %v", key, value)
		}
	}
	return nil
}
