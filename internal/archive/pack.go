package archive

import (
	"bytes"
	"slices"
)

// packer writes the content of a page again, shorter, and so that it draws the
// same: settings only where they differ from what holds, one text object over
// all text that follows without a path in between, lines of text placed from the
// line before (rows of a table then repeat to the letter, which compresses well),
// and a text that begins where the last one ended without a place of its own,
// q and Q only around a change of coordinates, fonts under short names, numbers
// without zeros that say nothing, texts in the short codes of codes.go. What pages share,
// heads and feet, goes into streams of its own.
type packer struct {
	*recording
	lexer
	side                     // being written
	other  side              // what is shared; while that is being written, the page
	shared bool              // what is shared is being written
	head   bool              // what is being written is a head, and follows none but heads
	cut    int               // where heads end in what is shared
	blank  settings          // those of a page that has made none
	fonts  map[Name]string   // short names
	faces  map[Name]*rawFont // whose widths tell where a text ends
	face   map[int32]face    // the same by the setting

	want   settings // what the page has asked for
	levels []level
	known  map[string]int32 // settings by their text
	texts  []string

	x, y        int64 // line of the page's text object
	placed      bool  // the line has not been written on
	plain       bool  // the mark being written holds text only
	cids, codes []byte
	path        int // first operation of the path under construction, -1 if none
}

// side is one of the two streams that come of a page.
type side struct {
	out          []byte
	have         settings // what it has set
	open         bool     // text object in it
	lineX, lineY int64    // its line, in hundredths of a point
	pen          int64    // where the last text ended, in 100 000ths of a point; -1 where that is not known
	ended        int      // where that stands in out
}

// face is a font in a size, in hundredths of a point.
type face struct {
	font *rawFont
	size int64
}

// recording is the operations of a page as the scanner found them.
type recording struct {
	ops  []operation
	args []token
}

// operation is an operator with its operands.
type operation struct {
	word        token
	first, last int // in args
}

func (r *recording) add(word token, operands []token) {
	first := len(r.args)
	r.args = append(r.args, operands...)
	r.ops = append(r.ops, operation{word, first, len(r.args)})
}

// The settings that a page makes.
const (
	setFont = iota
	setFill
	setStroke
	setWidth
	setCap
	setJoin
	setMiter
	setDash
	setRender
	settingCount
)

// setters are the operators that make them.
var setters = map[string]int{"Tf": setFont, "rg": setFill, "RG": setStroke, "w": setWidth, "J": setCap, "j": setJoin,
	"M": setMiter, "d": setDash, "Tr": setRender}

// settings are numbers of texts; 0 is unknown.
type settings [settingCount]int32

// level is what q keeps. It stands in the output only where it must.
type level struct {
	want, have settings
	real       bool
}

// initialSettings hold at the top of every page (ISO 32000-1, table 52).
var initialSettings = map[int]string{setWidth: "1 w", setCap: "0 J", setJoin: "0 j", setMiter: "10 M", setDash: "[]0 d", setRender: "0 Tr"}

// pack returns the content of a page made short, and of it what other pages have
// as well, which is to be drawn first: the head, which pages of one part share, and
// the rest. The results are valid until the next call.
func (p *packer) pack(src []byte, r *recording) (own []byte, shared [2][]byte) {
	p.reset(src, r)
	for i := range p.ops {
		if !p.op(i) {
			p.reset(src, r)
			p.verbatim()
			break
		}
	}
	p.closeText()
	return p.out, [2][]byte{p.other.out[:p.cut], p.other.out[p.cut:]}
}

func (p *packer) reset(src []byte, r *recording) {
	if p.shared {
		p.swap()
	}
	p.recording, p.src, p.out, p.other.out = r, src, p.out[:0], p.other.out[:0]
	if p.known == nil {
		p.known, p.texts = map[string]int32{}, []string{""}
	}
	p.want = settings{}
	for i, text := range initialSettings {
		p.want[i] = p.number([]byte(text))
	}
	p.blank, p.have, p.other.have, p.levels = p.want, p.want, p.want, p.levels[:0]
	p.head, p.cut = false, 0
	p.open, p.other.open, p.plain, p.path = false, false, false, -1
	p.ended, p.other.ended = 0, 0
}

// swap goes on with the other side.
func (p *packer) swap() { p.side, p.other, p.shared = p.other, p.side, !p.shared }

// number is the number of a setting's text.
func (p *packer) number(text []byte) int32 {
	n, ok := p.known[string(text)]
	if !ok {
		n = int32(len(p.texts))
		p.texts = append(p.texts, string(text))
		p.known[string(text)] = n
	}
	return n
}

// verbatim writes all operations as they are, under the short names.
func (p *packer) verbatim() {
	for _, o := range p.ops {
		p.write(o)
	}
}

// write appends an operation.
func (p *packer) write(o operation) {
	for _, t := range p.args[o.first:o.last] {
		p.operand(t)
	}
	p.join(p.text(o.word))
	p.out = append(p.out, '\n')
}

// operand appends an operand in its shortest form.
func (p *packer) operand(t token) {
	b := p.text(t)
	switch t.kind {
	case tokenReal:
		b = shortNumber(b)
	case tokenString, tokenHex:
		p.string(t)
		return
	case tokenName:
		if short, ok := p.fonts[Name(b[1:])]; ok {
			p.join([]byte(short))
			return
		}
	}
	p.join(b)
}

// string appends a text in the codes of a finished file.
func (p *packer) string(t token) {
	p.cids = p.appendString(p.cids[:0], t)
	p.codes = p.codes[:0]
	for i := 0; i+1 < len(p.cids); i += 2 {
		p.codes = appendCode(p.codes, int(p.cids[i])<<8|int(p.cids[i+1]))
	}
	p.out = appendLiteral(p.out, p.codes)
}

// join appends a token, with a space where it would run into the one before.
func (p *packer) join(b []byte) {
	if n := len(p.out); n > 0 && classOf(p.out[n-1]) == classRegular && classOf(b[0]) == classRegular {
		p.out = append(p.out, ' ')
	}
	p.out = append(p.out, b...)
}

// shortNumber leaves out zeros that say nothing.
func shortNumber(b []byte) []byte {
	if bytes.IndexByte(b, '.') < 0 {
		return b
	}
	b = bytes.TrimRight(b, "0")
	b = bytes.TrimSuffix(b, []byte("."))
	switch {
	case len(b) > 1 && b[0] == '0':
		b = b[1:]
	case len(b) > 2 && b[0] == '-' && b[1] == '0':
		b = append([]byte{'-'}, b[2:]...)
	}
	if len(b) == 0 || string(b) == "-" || string(b) == "-0" {
		return []byte("0")
	}
	return b
}

// op takes one operation; false is one whose effect it does not follow.
func (p *packer) op(i int) bool {
	o := p.ops[i]
	word := p.text(o.word)
	if p.path >= 0 && !pathWord(word) {
		return false
	}
	if setting, ok := setters[string(word)]; ok {
		p.set(setting, o)
		return true
	}
	switch string(word) {
	case "q":
		p.levels = append(p.levels, level{want: p.want})
	case "Q":
		p.restore()
	case "cm":
		return p.transform(o)
	case "m", "l", "c", "v", "y", "re", "h":
		if p.path < 0 {
			p.path = i
		}
	case "f", "f*":
		return p.paint(i, setFill, setFill)
	case "S", "s":
		return p.paint(i, setStroke, setDash)
	case "B", "B*", "b", "b*":
		return p.paint(i, setFill, setDash)
	case "Do":
		p.closeText()
		p.write(o)
	case "BT":
		p.x, p.y, p.placed = 0, 0, true
	case "ET":
	case "Td":
		return p.move(o)
	case "Tj":
		return p.show(o)
	case "BDC", "BMC":
		p.begin(i)
	case "EMC":
		p.end(o)
	default:
		return false
	}
	return true
}

// pathWord tells what may follow in a path under construction.
func pathWord(word []byte) bool {
	switch string(word) {
	case "m", "l", "c", "v", "y", "re", "h", "f", "f*", "S", "s", "B", "B*", "b", "b*":
		return true
	}
	return false
}

// set notes a setting; it is written where something depends on it.
func (p *packer) set(which int, o operation) {
	start := len(p.out)
	p.out = append(p.out, ' ') // keeps join from looking further back
	p.write(o)
	n := p.number(p.out[start+1 : len(p.out)-1])
	p.want[which] = n
	p.out = p.out[:start]
	if which == setFont {
		size, ok := hundredths(p.text(p.args[o.first+1]))
		if font := p.faces[Name(p.text(p.args[o.first])[1:])]; font != nil && ok {
			if p.face == nil {
				p.face = map[int32]face{}
			}
			p.face[n] = face{font, size}
		}
	}
}

// settle writes the settings from first to last that do not hold yet. It is
// false where the page falls back on one that it never made.
func (p *packer) settle(first, last int) bool {
	for i := first; i <= last; i++ {
		if p.want[i] == p.have[i] {
			continue
		}
		if p.want[i] == 0 {
			return false
		}
		p.out = append(append(p.out, p.texts[p.want[i]]...), '\n')
		p.have[i] = p.want[i]
	}
	return true
}

func (p *packer) restore() {
	l := p.levels[len(p.levels)-1]
	p.levels = p.levels[:len(p.levels)-1]
	p.want = l.want
	if l.real {
		p.closeText()
		p.out = append(p.out, "Q\n"...)
		p.have = l.have
	}
}

// transform changes coordinates, for which the level must be a real one.
func (p *packer) transform(o operation) bool {
	if len(p.levels) == 0 {
		return false
	}
	p.closeText()
	if l := &p.levels[len(p.levels)-1]; !l.real {
		l.real, l.have = true, p.have
		p.out = append(p.out, "q\n"...)
	}
	p.write(o)
	return true
}

// paint writes a path with the settings that its painting depends on.
func (p *packer) paint(i, first, last int) bool {
	if p.path < 0 {
		return false
	}
	p.closeText()
	if !p.settle(first, last) {
		return false
	}
	for _, o := range p.ops[p.path : i+1] {
		p.write(o)
	}
	p.path = -1
	return true
}

// begin opens marked content: within the text object if it holds text only,
// else outside of any.
func (p *packer) begin(i int) {
	if part := p.furniture(p.ops[i]); part != "" && len(p.levels) == 0 {
		p.swap()
		p.head = part == "/Header" && len(p.out) == p.cut
	}
	shows := false
	p.plain = true
	for k := i + 1; k < len(p.ops) && p.plain; k++ {
		switch string(p.text(p.ops[k].word)) {
		case "EMC":
			k = len(p.ops)
		case "Tj":
			shows = true
		case "cm", "m", "re", "Do":
			p.plain = false
		}
	}
	switch {
	case !p.plain:
		p.closeText()
	case shows:
		p.openText()
	}
	p.mark(p.ops[i])
}

// mark begins marked content. A run that is no figure has one tag whatever its
// element is, which the structure tells.
func (p *packer) mark(o operation) {
	if args := p.args[o.first:o.last]; len(args) > 0 {
		if role := roleOf(p.text(args[0])[1:]); role != "" && role != RoleFigure {
			p.join([]byte("/" + RoleP))
			o.first++
		}
	}
	p.write(o)
}

func (p *packer) end(o operation) {
	if !p.plain {
		p.closeText()
	}
	p.plain = false
	p.write(o)
	if p.shared {
		p.closeText()
		if p.head { // what follows is drawn without it
			p.cut, p.have = len(p.out), p.blank
		}
		p.swap()
	}
}

// furniture is which part of the page, shared by pages, a mark begins; "" for none.
func (p *packer) furniture(o operation) string {
	args := p.args[o.first:o.last]
	if len(args) == 0 || string(p.text(args[0])) != "/Artifact" {
		return ""
	}
	i := slices.IndexFunc(args, func(t token) bool { return t.kind == tokenName && string(p.text(t)) == "/Subtype" })
	if i < 0 || i+1 == len(args) {
		return ""
	}
	return string(p.text(args[i+1]))
}
