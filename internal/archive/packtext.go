package archive

import (
	"slices"
	"strconv"
)

func (p *packer) move(o operation) bool {
	dx, ok := hundredths(p.text(p.args[o.first]))
	dy, fine := hundredths(p.text(p.args[o.first+1]))
	p.x, p.y, p.placed = p.x+dx, p.y+dy, true
	return ok && fine
}

// show writes a line of text, placed from the one before in the same object.
func (p *packer) show(o operation) bool {
	if !p.placed { // goes on behind a text whose width is not known here
		return false
	}
	p.placed = false
	last := setFill
	if p.texts[p.want[setRender]] != initialSettings[setRender] {
		last = setDash
	}
	p.openText()
	if !p.settle(setFont, last) || !p.settle(setRender, setRender) {
		return false
	}
	text := p.args[o.first]
	if !p.follows() {
		x, y := p.grid(p.x), p.grid(p.y)
		p.out = appendHundredths(p.out, x-p.lineX)
		p.out = appendHundredths(append(p.out, ' '), y-p.lineY)
		p.out = append(p.out, " Td"...)
		p.lineX, p.lineY, p.pen = x, y, x*1000
		p.string(text)
	} else if n := len(p.out) - len(")"+shown); p.ended == len(p.out) {
		p.out = p.out[:n]
		p.string(text)
		p.out = slices.Delete(p.out, n, n+1) // one literal
	} else {
		p.string(text)
	}
	p.out = append(p.out, shown...)
	p.ended = len(p.out)
	p.advance()
	return true
}

// shown stands behind a literal.
const shown = "Tj\n"

// follows tells whether the text to be shown begins where the last one ended, off by
// no more than the grid makes any text.
func (p *packer) follows() bool {
	const slack = 6000
	off := p.pen - p.x*1000
	return p.pen >= 0 && p.grid(p.y) == p.lineY && -slack <= off && off <= slack
}

// advance moves the pen to the end of the text just shown.
func (p *packer) advance() {
	f, known := p.face[p.have[setFont]]
	if !known {
		p.pen = -1
		return
	}
	for i := 0; i+1 < len(p.cids); i += 2 {
		p.pen += int64(f.font.width(int(p.cids[i])<<8|int(p.cids[i+1]))) * f.size
	}
}

// grid puts a position, in hundredths of a point, on the grid of tenths, off by no
// more than the eye can tell; within coordinates that were changed it stays.
func (p *packer) grid(n int64) int64 {
	const step = 10
	if slices.ContainsFunc(p.levels, func(l level) bool { return l.real }) {
		return n
	}
	if n < 0 {
		return -((-n + step/2) / step * step)
	}
	return (n + step/2) / step * step
}

func (p *packer) openText() {
	if !p.open {
		p.out = append(p.out, "BT\n"...)
		p.open, p.lineX, p.lineY, p.pen = true, 0, 0, -1
	}
}

func (p *packer) closeText() {
	if p.open {
		p.out = append(p.out, "ET\n"...)
		p.open = false
	}
}

// maxHundredths keeps sums of positions far from overflow.
const maxHundredths = 1 << 40

// hundredths reads a number of at most two decimals.
func hundredths(b []byte) (int64, bool) {
	negative := len(b) > 0 && b[0] == '-'
	if negative {
		b = b[1:]
	}
	n, decimals := int64(0), -1
	for _, c := range b {
		switch {
		case c == '.' && decimals < 0:
			decimals = 0
			continue
		case c < '0' || c > '9' || decimals == 2 || n > maxHundredths:
			return 0, false
		}
		n = 10*n + int64(c-'0')
		if decimals >= 0 {
			decimals++
		}
	}
	for range 2 - max(decimals, 0) {
		n *= 10
	}
	if negative {
		n = -n
	}
	return n, true
}

// appendHundredths writes a number of hundredths, without a zero that says
// nothing.
func appendHundredths(dst []byte, n int64) []byte {
	if n < 0 {
		dst, n = append(dst, '-'), -n
	}
	whole, part := n/100, n%100
	if whole > 0 || part == 0 {
		dst = strconv.AppendInt(dst, whole, 10)
	}
	if part == 0 {
		return dst
	}
	dst = append(dst, '.', byte('0'+part/10))
	if part%10 != 0 {
		dst = append(dst, byte('0'+part%10))
	}
	return dst
}
