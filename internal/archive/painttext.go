package archive

import "math"

// textOp follows the operators of text but for showing it.
func (p *painter) textOp(o operation) bool {
	s := &p.state
	switch string(p.lexer.text(o.word)) {
	case "BT":
		p.text, p.line = unit, unit
	case "Td", "TD":
		p.next(p.value(o, 0), p.value(o, 1))
		if p.lexer.text(o.word)[1] == 'D' {
			s.leading = -p.value(o, 1)
		}
	case "Tm":
		p.line = p.matrixOf(o)
		p.text = p.line
	case "T*":
		p.next(0, -s.leading)
	case "Tf":
		s.font, _ = p.name(p.args[o.first])
		s.size = p.value(o, 1)
	case "Tc":
		s.char = p.value(o, 0)
	case "Tw":
		s.word = p.value(o, 0)
	case "Tz":
		s.scale = p.value(o, 0) / 100
	case "TL":
		s.leading = p.value(o, 0)
	case "Ts":
		s.rise = p.value(o, 0)
	default:
		return false
	}
	return true
}

func (p *painter) next(x, y float64) {
	p.line = matrix{1, 0, 0, 1, x, y}.then(p.line)
	p.text = p.line
}

// show places the glyphs of Tj, TJ and '.
func (p *painter) show(o operation) error {
	switch string(p.lexer.text(o.word)) {
	case "'":
		p.next(0, -p.state.leading)
	case "Tj", "TJ":
	default:
		return nil
	}
	f, err := p.font(p.state.font)
	if err != nil {
		return err
	}
	out := Paint{Kind: PaintText, Run: p.run, Color: p.state.fill, Bounds: nowhere, Size: math.Inf(1), Hollow: p.state.hollow}
	var all []rune
	for _, t := range p.args[o.first:o.last] {
		switch t.kind {
		case tokenString, tokenHex:
			p.raw, p.codes = p.appendString(p.raw[:0], t), p.codes[:0]
			if p.short[p.state.font] {
				p.codes, _ = appendCIDs(p.codes, p.raw)
			} else {
				p.codes = append(p.codes, p.raw...)
			}
			for i := 0; i+1 < len(p.codes); i += 2 {
				cid := int(p.codes[i])<<8 | int(p.codes[i+1])
				all = append(all, rune(cid))
				p.glyph(f, cid, &out)
			}
		case tokenInt, tokenReal:
			move := numberOf(p.lexer.text(t)) / 1000 * p.state.size * p.state.scale
			p.text = matrix{1, 0, 0, 1, -move, 0}.then(p.text)
		}
	}
	out.Text = string(all)
	if len(out.Chars) > 0 {
		p.list = append(p.list, out)
	}
	return nil
}

// font reads a font once.
func (p *painter) font(name Name) (*rawFont, error) {
	ref, ok := p.fonts[name].(Ref)
	if !ok {
		return nil, foreign("font is no object of its own")
	}
	if f := p.reader.fonts[ref]; f != nil {
		return f, nil
	}
	d, err := p.reader.dict(ref, "font")
	if err != nil {
		return nil, err
	}
	f, err := p.reader.embeddedFont(d)
	if err != nil {
		return nil, err
	}
	if p.reader.fonts == nil {
		p.reader.fonts = map[Ref]*rawFont{}
	}
	p.reader.fonts[ref] = f
	return f, nil
}

// glyph notes a character with its ink and moves on.
func (p *painter) glyph(f *rawFont, cid int, out *Paint) {
	s := &p.state
	m := matrix{s.size * s.scale, 0, 0, s.size, 0, s.rise}.then(p.text).then(s.matrix)
	if ink, has := f.ink(cid, m); has {
		out.Chars, out.Ink = append(out.Chars, rune(cid)), append(out.Ink, ink)
		out.Bounds = out.Bounds.union(ink)
		out.Size = min(out.Size, math.Hypot(m[0], m[1]), math.Hypot(m[2], m[3]))
		out.Leaning = out.Leaning || m[0] <= 0 || m[3] <= 0 || m[1] != 0 || m[2] != 0
		shown := s.clip.meet(ink)
		out.Clipped = out.Clipped || s.oddClip || shown.area() < ink.area()*(1-slack)
	}
	move := float64(f.width(cid))/1000*s.size + s.char
	if cid == ' ' && p.short[s.font] { // only a code of one byte (ISO 32000-1, 9.3.3)
		move += s.word
	}
	p.text = matrix{1, 0, 0, 1, move * s.scale, 0}.then(p.text)
}

// ink is the area that a glyph is drawn in; false for one that draws nothing.
func (f *rawFont) ink(cid int, m matrix) (Box, bool) {
	b, ok := f.program.bounds(f.glyph(cid))
	em, ink := float64(f.program.em), nowhere
	if !ok {
		return nowhere, false
	}
	for _, x := range []int{b[0], b[2]} {
		for _, y := range []int{b[1], b[3]} {
			ink = ink.include(m.apply(Point{float64(x) / em, float64(y) / em}))
		}
	}
	return ink, true
}

// slack is the part of an area that does not count.
const slack = 0.01

func numberOf(b []byte) float64 {
	v := coordinate(Real(b))
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return 0
	}
	return v
}
