package page

import "unicode"

// span is one line: glyphs a to b, trailing space included, so that the text
// read back from the page has its words apart. glued: the next line goes on
// with the same value and stays on the page. cut: it ends inside a word or a number
// that has no place to break.
type span struct {
	a, b  int
	glued bool
	cut   bool
}

// breaksAfter: a line may end after glyph i. Values do not break, nor do
// fractions, dates, ranges of digits, and codes in capitals.
func breaksAfter(gs []glyph, runs []Run, i int) bool {
	if i+1 >= len(gs) || sameValue(gs, runs, i+1) {
		return false
	}
	c, next := gs[i].r, gs[i+1].r
	switch c {
	case ' ':
		return next != ' '
	case '—':
		return true
	case '-', '/', '–', '_':
		return lowerBefore(gs, i) && unicode.IsLower(next)
	}
	return false
}

// lowerBefore: enough small letters stand before glyph i that a line may end with
// it.
func lowerBefore(gs []glyph, i int) bool {
	const enough = 3
	if i < enough {
		return false
	}
	for _, g := range gs[i-enough : i] {
		if !unicode.IsLower(g.r) {
			return false
		}
	}
	return true
}

// sameValue: a cut before glyph i would go through a value, or part a mark from
// its text.
func sameValue(gs []glyph, runs []Run, i int) bool {
	if gs[i-1].run != gs[i].run {
		return false
	}
	return gs[i-1].r == 0 || runs[gs[i].run].ID != ""
}

// breakLines fills lines of width w one after the other. What has no place to
// break and is longer than a line is broken where it must; ok is false if not
// even one character fits.
func breakLines(gs []glyph, runs []Run, w mp) (lines []span, ok bool) {
	var x mp
	start, last := 0, 0 // begin of the line, latest place to break it
	for i := 0; i < len(gs); i++ {
		if gs[i].wrap && i > start {
			lines = append(lines, span{a: start, b: i})
			start, last, x = i, i, 0
		}
		for x+gs[i].adv > w && gs[i].r != ' ' && i > start {
			cut := last
			if cut <= start {
				cut = forced(gs, runs, start, i)
			}
			inside := cut != last && gs[cut-1].r != ' '
			lines = append(lines, span{start, cut, sameValue(gs, runs, cut), inside})
			start = cut
			x = 0
			for _, g := range gs[start:i] {
				x += g.adv
			}
		}
		x += gs[i].adv
		if breaksAfter(gs, runs, i) {
			last = i + 1
		}
	}
	lines = append(lines, span{a: start, b: len(gs)})
	for _, l := range lines {
		if width(gs[l.a:l.b]) > w {
			return nil, false
		}
	}
	return lines, true
}

// forced is where to cut the line from start, which is full before glyph i and
// has no place to break: after punctuation in its second half, else at its end;
// before a value rather than inside it; inside a value at a space.
func forced(gs []glyph, runs []Run, start, i int) int {
	plain := -1
	for c := i; c > start; c-- {
		if sameValue(gs, runs, c) {
			continue
		}
		if plain < 0 {
			plain = c
		}
		if 2*(c-start) > i-start && !unicode.IsLetter(gs[c-1].r) && !unicode.IsDigit(gs[c-1].r) {
			return c
		}
	}
	if plain > 0 {
		return plain
	}
	for c := i; c > start; c-- {
		if gs[c-1].r == ' ' {
			return c
		}
	}
	return i
}
