package archive

import (
	"strings"
)

// textReader decodes the text of marked runs.
type textReader struct {
	r     *Reader
	pages map[int]map[int]string // by page and identifier
	fonts map[Ref]map[int]string // meaning of codes, by font object
	bad   map[int]error          // pages that cannot be read
}

// PageText is the text on a page: of each run by its identifier, and of all that
// is no real content under -1.
func (r *Reader) PageText(i int) (map[int]string, error) {
	return r.texts().page(i)
}

// Meanings is what the codes of the fonts of a page are read as. A code that two
// fonts read differently is there with what is not the code itself.
func (r *Reader) Meanings(i int) (map[int]string, error) {
	pages, err := r.Pages()
	if err != nil {
		return nil, err
	}
	fonts, err := r.texts().pageFonts(pages[i])
	out := map[int]string{}
	for _, f := range fonts {
		for code, s := range f {
			if _, known := out[code]; !known || s != string(rune(code)) {
				out[code] = s
			}
		}
	}
	return out, err
}

// texts is the reader of texts, which keeps what it has read.
func (r *Reader) texts() *textReader {
	if r.text == nil {
		r.text = &textReader{r: r, pages: map[int]map[int]string{}, fonts: map[Ref]map[int]string{}, bad: map[int]error{}}
	}
	return r.text
}

// page returns the text of each run of a page. It reads a page once.
func (t *textReader) page(i int) (map[int]string, error) {
	if runs, ok := t.pages[i]; ok {
		return runs, nil
	}
	if err := t.bad[i]; err != nil {
		return nil, err
	}
	runs, err := t.read(i)
	if err != nil {
		t.bad[i] = err
		return nil, err
	}
	t.pages[i] = runs
	return runs, nil
}

func (t *textReader) read(i int) (map[int]string, error) {
	pages, err := t.r.Pages()
	if err != nil {
		return nil, err
	}
	content, err := t.r.content(pages[i])
	if err != nil {
		return nil, err
	}
	fonts, err := t.pageFonts(pages[i])
	if err != nil {
		return nil, err
	}
	short, err := t.codes(pages[i])
	if err != nil {
		return nil, err
	}
	building := map[int]*strings.Builder{}
	s := pageScan{short: short, show: func(mcid int, font Name, codes []byte) {
		b := building[mcid]
		if b == nil {
			b = new(strings.Builder)
			building[mcid] = b
		}
		for k := 0; k+1 < len(codes); k += 2 {
			b.WriteString(fonts[font][int(codes[k])<<8|int(codes[k+1])])
		}
	}}
	scan(content, &s)
	if len(s.faults) > 0 {
		return nil, foreign("%s: %s: %s", pageName(i), s.faults[0].Rule, s.faults[0].Fact)
	}
	runs := map[int]string{}
	for mcid, b := range building {
		runs[mcid] = b.String()
	}
	return runs, nil
}

// codes tells for each font of a page whether it has short codes.
func (t *textReader) codes(p PageObject) (map[Name]bool, error) {
	resources, err := t.r.dict(p.Dict["Resources"], "resources")
	if err != nil {
		return nil, err
	}
	fonts, err := t.r.dict(resources["Font"], "fonts")
	if err != nil {
		return nil, err
	}
	return t.r.codesOf(fonts)
}

// pageFonts returns the meaning of the codes of each font of a page.
func (t *textReader) pageFonts(p PageObject) (map[Name]map[int]string, error) {
	resources, err := t.r.dict(p.Dict["Resources"], "resources")
	if err != nil {
		return nil, err
	}
	dict, err := t.r.dict(resources["Font"], "fonts")
	if err != nil {
		return nil, err
	}
	out := map[Name]map[int]string{}
	for name, o := range dict {
		ref, ok := o.(Ref)
		if !ok {
			return nil, foreign("font is no object of its own")
		}
		if t.fonts[ref] == nil {
			if t.fonts[ref], err = t.r.meanings(ref); err != nil {
				return nil, err
			}
		}
		out[name] = t.fonts[ref]
	}
	return out, nil
}

// meanings reads the ToUnicode map of a font.
func (r *Reader) meanings(o Object) (map[int]string, error) {
	d, err := r.dict(o, "font")
	if err != nil {
		return nil, err
	}
	_, b, err := r.stream(d["ToUnicode"], "ToUnicode map")
	if err != nil {
		return nil, err
	}
	return readToUnicode(b)
}

// readToUnicode reads the bfchar blocks of a ToUnicode map; we write no others.
func readToUnicode(b []byte) (map[int]string, error) {
	out := map[int]string{}
	l := lexer{src: b}
	var code []byte
	inside := false
	for {
		t, err := l.next()
		if err != nil {
			return nil, err
		}
		word := ""
		if t.kind == tokenWord {
			word = string(l.text(t))
		}
		switch {
		case t.kind == tokenEnd:
			return out, nil
		case word == "beginbfrange":
			return nil, foreign("range in a ToUnicode map")
		case word == "beginbfchar" || word == "endbfchar":
			inside, code = word == "beginbfchar", nil
		case inside && t.kind != tokenHex:
			return nil, malformed(t.start, "ToUnicode map")
		case inside && code == nil:
			if code = l.appendString(nil, t); len(code) != 2 {
				var ok bool
				if code, ok = appendCIDs(nil, code); !ok || len(code) != 2 {
					return nil, malformed(t.start, "code in a ToUnicode map")
				}
			}
		case inside:
			key := int(code[0])<<8 | int(code[1])
			if _, twice := out[key]; twice {
				return nil, malformed(t.start, "code twice in a ToUnicode map")
			}
			out[key] = Text("\xFE\xFF" + String(l.appendString(nil, t)))
			code = nil
		}
	}
}
