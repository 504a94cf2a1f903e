package archive

// parser reads objects from tokens. It bounds their nesting.
type parser struct {
	lexer
	depth int
	// watch, if set, is a dictionary key whose value's place is noted in span.
	watch Name
	span  [2]int
	// longest string allowed, in bytes.
	longest int
}

func newParser(src []byte, pos int) *parser {
	return &parser{lexer: lexer{src: src, pos: pos}, longest: maxStringLength}
}

// object reads one object; at the end of the source it is an error.
func (p *parser) object() (Object, error) {
	t, err := p.next()
	if err != nil {
		return nil, err
	}
	return p.objectFrom(t)
}

// objectFrom reads the object that starts with t.
func (p *parser) objectFrom(t token) (Object, error) {
	switch t.kind {
	case tokenInt:
		return p.number(t)
	case tokenReal:
		return Real(p.text(t)), nil
	case tokenName:
		return p.name(t)
	case tokenString, tokenHex:
		s := p.appendString(nil, t)
		if len(s) > p.longest {
			return nil, overLimit(t.start, "string of %d bytes", len(s))
		}
		return String(s), nil
	case tokenArrayOpen:
		return p.array(t)
	case tokenDictOpen:
		return p.dict(t)
	case tokenWord:
		return p.word(t)
	}
	return nil, malformed(t.start, "no object")
}

// number reads an integer, or the reference that it starts.
func (p *parser) number(t token) (Object, error) {
	n, err := p.integer(t)
	if err != nil || n < 0 {
		return n, err
	}
	after := p.pos
	gen, err := p.next()
	if err != nil || gen.kind != tokenInt {
		p.pos = after
		return n, nil
	}
	r, err := p.next()
	if err != nil || r.kind != tokenWord || string(p.text(r)) != "R" {
		p.pos = after
		return n, nil
	}
	if string(p.text(gen)) != "0" {
		return nil, malformed(t.start, "reference to generation %s", p.text(gen))
	}
	if n < 1 || n > maxObjects {
		return nil, overLimit(t.start, "object number %d", n)
	}
	return Ref(n), nil
}

func (p *parser) word(t token) (Object, error) {
	switch string(p.text(t)) {
	case "true":
		return true, nil
	case "false":
		return false, nil
	case "null":
		return nil, nil
	}
	return nil, malformed(t.start, "unexpected word %.20q", p.text(t))
}

func (p *parser) enter(t token) error {
	if p.depth++; p.depth > maxNesting {
		return overLimit(t.start, "nesting deeper than %d", maxNesting)
	}
	return nil
}

func (p *parser) array(open token) (Object, error) {
	if err := p.enter(open); err != nil {
		return nil, err
	}
	defer func() { p.depth-- }()
	a := Array{}
	for {
		t, err := p.next()
		if err != nil {
			return nil, err
		}
		if t.kind == tokenArrayClose {
			return a, nil
		}
		o, err := p.objectFrom(t)
		if err != nil {
			return nil, err
		}
		a = append(a, o)
	}
}

func (p *parser) dict(open token) (Object, error) {
	if err := p.enter(open); err != nil {
		return nil, err
	}
	defer func() { p.depth-- }()
	d := Dict{}
	for {
		t, err := p.next()
		if err != nil {
			return nil, err
		}
		if t.kind == tokenDictClose {
			return d, nil
		}
		if t.kind != tokenName {
			return nil, malformed(t.start, "key of a dictionary is no name")
		}
		key, err := p.name(t)
		if err != nil {
			return nil, err
		}
		if _, twice := d[key]; twice {
			return nil, malformed(t.start, "key /%s twice", key)
		}
		if d[key], err = p.value(key); err != nil {
			return nil, err
		}
	}
}

// value reads the value of a key, noting its place if it is the watched one.
func (p *parser) value(key Name) (Object, error) {
	p.skipSpace()
	start := p.pos
	v, err := p.object()
	if p.watch != "" && key == p.watch && p.depth == 1 {
		p.span = [2]int{start, p.pos}
	}
	return v, err
}
