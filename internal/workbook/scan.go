package workbook

import (
	"bytes"
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"
)

// scanner walks over the tags and texts of an XML part without building
// anything. It knows as much XML as spreadsheets write: no document types, no
// entities of their own.
type scanner struct {
	b []byte
	i int
}

// token is a tag or a text between tags. Its slices point into the part.
type token struct {
	kind  tokenKind
	name  []byte // local name of a tag
	attrs []byte // unparsed
	text  []byte // of textToken, still escaped
	empty bool   // a start tag that is its own end: <c/>
}

type tokenKind int

const (
	endOfPart tokenKind = iota
	startTag
	endTag
	textToken
)

var errXML = errors.New("not well-formed")

// next returns the next token; comments and instructions are passed over.
func (s *scanner) next() (token, error) {
	for s.i < len(s.b) {
		rest := s.b[s.i:]
		switch {
		case rest[0] != '<':
			end := bytes.IndexByte(rest, '<')
			if end < 0 {
				end = len(rest)
			}
			s.i += end
			return token{kind: textToken, text: rest[:end]}, nil
		case bytes.HasPrefix(rest, []byte("<?")):
			if !s.skip("?>") {
				return token{}, errXML
			}
		case bytes.HasPrefix(rest, []byte("<!--")):
			if !s.skip("-->") {
				return token{}, errXML
			}
		case bytes.HasPrefix(rest, []byte("<!")): // a document type, or CDATA, which no spreadsheet writes
			return token{}, errXML
		default:
			return s.tag()
		}
	}
	return token{}, nil
}

// skip moves past the next mark.
func (s *scanner) skip(mark string) bool {
	end := bytes.Index(s.b[s.i:], []byte(mark))
	s.i += end + len(mark)
	return end >= 0
}

// tag reads a tag at the current place. A > inside a quoted attribute is legal
// and does not end it.
func (s *scanner) tag() (token, error) {
	start, quote := s.i+1, byte(0)
	for i := start; i < len(s.b); i++ {
		c := s.b[i]
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '>':
			s.i = i + 1
			return parseTag(s.b[start:i])
		}
	}
	return token{}, errXML
}

func parseTag(body []byte) (token, error) {
	t := token{kind: startTag}
	if len(body) > 0 && body[0] == '/' {
		t.kind, body = endTag, body[1:]
	} else if len(body) > 0 && body[len(body)-1] == '/' {
		t.empty, body = true, body[:len(body)-1]
	}
	end := 0
	for end < len(body) && !blankByte(body[end]) {
		end++
	}
	t.name, t.attrs = body[:end], body[end:]
	if colon := bytes.IndexByte(t.name, ':'); colon >= 0 {
		t.name = t.name[colon+1:]
	}
	if len(t.name) == 0 {
		return token{}, errXML
	}
	return t, nil
}

// is tells the local name of a tag.
func (t token) is(name string) bool { return string(t.name) == name }

// attr is the value of an attribute by its local name, "" where there is none.
func (t token) attr(name string) string { return unescape(t.rawAttr(name)) }

// rawAttr is an attribute's value, still escaped.
func (t token) rawAttr(name string) []byte {
	rest := t.attrs
	for {
		eq := bytes.IndexByte(rest, '=')
		if eq < 0 || eq+1 >= len(rest) {
			return nil
		}
		key := trimRight(trimLeft(rest[:eq]))
		rest = trimLeft(rest[eq+1:])
		if len(rest) == 0 || rest[0] != '"' && rest[0] != '\'' {
			return nil
		}
		end := bytes.IndexByte(rest[1:], rest[0])
		if end < 0 {
			return nil
		}
		if colon := bytes.IndexByte(key, ':'); colon >= 0 {
			key = key[colon+1:]
		}
		if string(key) == name {
			return rest[1 : 1+end]
		}
		rest = rest[end+2:]
	}
}

// blankByte reports white space of XML; with the two below it is quicker than
// the library's, which knows more kinds.
func blankByte(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

func trimLeft(b []byte) []byte {
	for len(b) > 0 && blankByte(b[0]) {
		b = b[1:]
	}
	return b
}

func trimRight(b []byte) []byte {
	for len(b) > 0 && blankByte(b[len(b)-1]) {
		b = b[:len(b)-1]
	}
	return b
}

// entities are the five of XML itself.
var entities = map[string]string{"amp": "&", "lt": "<", "gt": ">", "quot": `"`, "apos": "'"}

// unescape turns entities into characters. One that is not known stays as it
// is written.
func unescape(b []byte) string {
	if bytes.IndexByte(b, '&') < 0 {
		return string(b)
	}
	var out strings.Builder
	for len(b) > 0 {
		amp := bytes.IndexByte(b, '&')
		if amp < 0 {
			out.Write(b)
			break
		}
		out.Write(b[:amp])
		b = b[amp:]
		end := bytes.IndexByte(b, ';')
		if end < 0 || end >= longestEntity {
			end = 0
		}
		out.WriteString(entity(string(b[:end+1])))
		b = b[end+1:]
	}
	return out.String()
}

// knownEntities tells whether all entities of a part are characters that
// [unescape] knows.
func knownEntities(b []byte) bool {
	for {
		at := bytes.IndexByte(b, '&')
		if at < 0 {
			return true
		}
		b = b[at:]
		end := bytes.IndexByte(b[:min(len(b), longestEntity)], ';')
		if end < 0 {
			return false
		}
		if whole := string(b[:end+1]); entity(whole) == whole {
			return false
		}
		b = b[end+1:]
	}
}

// longestEntity is the length of "&#x10FFFF;" and a few zeros more.
const longestEntity = 16

// entity is the character of "&lt;" or "&#x2044;", or the text itself.
func entity(s string) string {
	name := strings.TrimSuffix(strings.TrimPrefix(s, "&"), ";")
	if text, ok := entities[name]; ok {
		return text
	}
	digits, base := strings.TrimPrefix(name, "#"), 10
	if digits == name {
		return s
	}
	if strings.HasPrefix(digits, "x") {
		digits, base = digits[1:], 16
	}
	n, err := strconv.ParseUint(digits, base, 32)
	if err != nil || !utf8.ValidRune(rune(n)) {
		return s
	}
	return string(rune(n))
}

// underscores turns the format's own escapes, "_x000D_", into characters.
func underscores(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	var out strings.Builder
	for i := 0; i < len(s); {
		if len(s) >= i+7 && s[i] == '_' && s[i+1] == 'x' && s[i+6] == '_' {
			if n, err := strconv.ParseUint(s[i+2:i+6], 16, 16); err == nil && utf8.ValidRune(rune(n)) {
				out.WriteRune(rune(n))
				i += 7
				continue
			}
		}
		out.WriteByte(s[i])
		i++
	}
	return out.String()
}
