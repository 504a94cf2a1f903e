package archive

import (
	"strconv"
)

// tokenKind tells what a token is.
type tokenKind uint8

const (
	tokenEnd tokenKind = iota
	tokenInt
	tokenReal
	tokenName
	tokenString
	tokenHex
	tokenArrayOpen
	tokenArrayClose
	tokenDictOpen
	tokenDictClose
	tokenWord // keyword or operator
)

// token is a piece of source: src[start:end], delimiters included.
type token struct {
	kind       tokenKind
	start, end int
}

// lexer cuts objects and content streams into tokens without copying.
type lexer struct {
	src []byte
	pos int
}

// character classes of ISO 32000-1, 7.2.2.
const (
	classRegular = iota
	classSpace
	classDelimiter
)

func classOf(c byte) int {
	switch c {
	case 0, '\t', '\n', '\f', '\r', ' ':
		return classSpace
	case '(', ')', '<', '>', '[', ']', '{', '}', '/', '%':
		return classDelimiter
	}
	return classRegular
}

// skipSpace moves over white space and comments.
func (l *lexer) skipSpace() {
	for l.pos < len(l.src) {
		c := l.src[l.pos]
		if c == '%' {
			for l.pos < len(l.src) && l.src[l.pos] != '\n' && l.src[l.pos] != '\r' {
				l.pos++
			}
			continue
		}
		if classOf(c) != classSpace {
			return
		}
		l.pos++
	}
}

// next returns the next token, or tokenEnd at the end of the source.
func (l *lexer) next() (token, error) {
	l.skipSpace()
	t := token{start: l.pos}
	if l.pos >= len(l.src) {
		t.end = l.pos
		return t, nil
	}
	switch c := l.src[l.pos]; c {
	case '/':
		l.pos++
		l.regular()
		t.kind = tokenName
	case '(':
		return l.literal(t)
	case '<':
		if l.at(1) != '<' {
			return l.hex(t)
		}
		l.pos += 2
		t.kind = tokenDictOpen
	case '>':
		if l.at(1) != '>' {
			return t, malformed(l.pos, "stray >")
		}
		l.pos += 2
		t.kind = tokenDictClose
	case '[':
		l.pos++
		t.kind = tokenArrayOpen
	case ']':
		l.pos++
		t.kind = tokenArrayClose
	case '{', '}', ')':
		return t, malformed(l.pos, "stray %c", c)
	default:
		l.regular()
		t.kind = wordKind(l.src[t.start:l.pos])
	}
	t.end = l.pos
	return t, nil
}

// at is the byte n places ahead, or 0 behind the end.
func (l *lexer) at(n int) byte {
	if l.pos+n < len(l.src) {
		return l.src[l.pos+n]
	}
	return 0
}

// regular moves over regular characters.
func (l *lexer) regular() {
	for l.pos < len(l.src) && classOf(l.src[l.pos]) == classRegular {
		l.pos++
	}
}

// literal reads (…) with balanced and escaped parentheses.
func (l *lexer) literal(t token) (token, error) {
	depth := 0
	for ; l.pos < len(l.src); l.pos++ {
		switch l.src[l.pos] {
		case '\\':
			l.pos++
		case '(':
			depth++
		case ')':
			depth--
			if depth == 0 {
				l.pos++
				t.kind, t.end = tokenString, l.pos
				return t, nil
			}
		}
	}
	l.pos = len(l.src)
	return t, malformed(t.start, "string does not end")
}

// hex reads <…>: hexadecimal digits and white space only.
func (l *lexer) hex(t token) (token, error) {
	for l.pos++; l.pos < len(l.src); l.pos++ {
		c := l.src[l.pos]
		if c == '>' {
			l.pos++
			t.kind, t.end = tokenHex, l.pos
			return t, nil
		}
		if hexDigit(c) < 0 && classOf(c) != classSpace {
			return t, malformed(l.pos, "not a hexadecimal digit")
		}
	}
	return t, malformed(t.start, "hexadecimal string does not end")
}

// wordKind tells numbers from keywords.
func wordKind(b []byte) tokenKind {
	digits, points := 0, 0
	for i, c := range b {
		switch {
		case c >= '0' && c <= '9':
			digits++
		case c == '.':
			points++
		case (c == '-' || c == '+') && i == 0:
		default:
			return tokenWord
		}
	}
	switch {
	case digits == 0 || points > 1:
		return tokenWord
	case points == 1:
		return tokenReal
	}
	return tokenInt
}

func hexDigit(c byte) int {
	switch {
	case c >= '0' && c <= '9':
		return int(c - '0')
	case c >= 'a' && c <= 'f':
		return int(c-'a') + 10
	case c >= 'A' && c <= 'F':
		return int(c-'A') + 10
	}
	return -1
}

// text is the source of a token.
func (l *lexer) text(t token) []byte { return l.src[t.start:t.end] }

// integer is the value of a tokenInt.
func (l *lexer) integer(t token) (int64, error) {
	n, err := strconv.ParseInt(string(l.text(t)), 10, 64)
	if err != nil {
		return 0, malformed(t.start, "number out of range")
	}
	return n, nil
}

// name undoes the slash and #xx of a tokenName.
func (l *lexer) name(t token) (Name, error) {
	b := l.text(t)[1:]
	if len(b) > maxNameLength {
		return "", overLimit(t.start, "name of %d bytes", len(b))
	}
	plain := true
	for _, c := range b {
		plain = plain && c != '#'
	}
	if plain {
		return Name(b), nil
	}
	out := make([]byte, 0, len(b))
	for i := 0; i < len(b); i++ {
		if b[i] != '#' {
			out = append(out, b[i])
			continue
		}
		if i+2 >= len(b) || hexDigit(b[i+1]) < 0 || hexDigit(b[i+2]) < 0 {
			return "", malformed(t.start, "# in a name without two digits")
		}
		out = append(out, byte(hexDigit(b[i+1])<<4|hexDigit(b[i+2])))
		i += 2
	}
	return Name(out), nil
}

// appendString appends the bytes of a tokenString or tokenHex to dst.
func (l *lexer) appendString(dst []byte, t token) []byte {
	b := l.text(t)[1 : t.end-t.start-1]
	if t.kind == tokenHex {
		return appendHex(dst, b)
	}
	for i := 0; i < len(b); i++ {
		switch c := b[i]; {
		case c == '\r': // any end of line inside a string reads as \n
			dst = append(dst, '\n')
			if i+1 < len(b) && b[i+1] == '\n' {
				i++
			}
		case c != '\\' || i+1 == len(b):
			dst = append(dst, c)
		default:
			dst, i = appendEscape(dst, b, i+1)
		}
	}
	return dst
}

// appendEscape undoes the escape whose character behind the backslash is
// b[i]; it returns the index of the last byte used.
func appendEscape(dst, b []byte, i int) ([]byte, int) {
	const letters, codes = "nrtbf", "\n\r\t\b\f"
	c := b[i]
	for k := range letters {
		if c == letters[k] {
			return append(dst, codes[k]), i
		}
	}
	switch {
	case c == '\r' && i+1 < len(b) && b[i+1] == '\n':
		return dst, i + 1
	case c == '\r' || c == '\n':
		return dst, i
	case c < '0' || c > '7':
		return append(dst, c), i
	}
	code, k := 0, i
	for ; k < len(b) && k < i+3 && b[k] >= '0' && b[k] <= '7'; k++ {
		code = code<<3 | int(b[k]-'0')
	}
	return append(dst, byte(code)), k - 1
}

// appendHex undoes hexadecimal digits; a missing last digit counts as 0.
func appendHex(dst, b []byte) []byte {
	high := -1
	for _, c := range b {
		d := hexDigit(c)
		switch {
		case d < 0:
		case high < 0:
			high = d
		default:
			dst = append(dst, byte(high<<4|d))
			high = -1
		}
	}
	if high >= 0 {
		dst = append(dst, byte(high<<4))
	}
	return dst
}
