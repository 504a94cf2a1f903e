package sign

import (
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"unicode/utf16"

	"asleft/internal/archive"
)

// appendObject writes an object as it goes into a file. Dictionaries are written
// in the order of their keys, so that the same object gives the same bytes.
func appendObject(dst []byte, o archive.Object) []byte {
	switch v := o.(type) {
	case bool:
		return strconv.AppendBool(dst, v)
	case int64:
		return strconv.AppendInt(dst, v, 10)
	case archive.Real:
		return append(dst, v...)
	case archive.Name:
		return appendName(dst, v)
	case archive.String:
		return appendString(dst, v)
	case archive.Ref:
		return fmt.Appendf(dst, "%d 0 R", v)
	case archive.Array:
		dst = append(dst, '[')
		for i, e := range v {
			if i > 0 {
				dst = append(dst, ' ')
			}
			dst = appendObject(dst, e)
		}
		return append(dst, ']')
	case archive.Dict:
		dst = append(dst, "<<"...)
		for _, k := range slices.Sorted(maps.Keys(v)) {
			dst = append(appendName(dst, k), ' ')
			dst = appendObject(dst, v[k])
		}
		return append(dst, ">>"...)
	}
	return append(dst, "null"...) // streams are never inside other objects
}

// appendName writes a name; other than regular characters become #xx
// (ISO 32000-1, 7.3.5).
func appendName(dst []byte, n archive.Name) []byte {
	dst = append(dst, '/')
	for i := range len(n) {
		c := n[i]
		if c <= ' ' || c > '~' || slices.Contains([]byte("()<>[]{}/%#"), c) {
			dst = fmt.Appendf(dst, "#%02X", c)
			continue
		}
		dst = append(dst, c)
	}
	return dst
}

// appendString writes a string: as it is where that is plain, else in hex.
func appendString(dst []byte, s archive.String) []byte {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c > '~' || c == '(' || c == ')' || c == '\\' {
			dst = append(dst, '<')
			dst = hex.AppendEncode(dst, []byte(s))
			return append(dst, '>')
		}
	}
	dst = append(dst, '(')
	dst = append(dst, s...)
	return append(dst, ')')
}

// textString is a text as a string: plain where it is ASCII, else UTF-16 with its
// byte-order mark (ISO 32000-1, 7.9.2.2).
func textString(s string) archive.String {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			wide := []byte{0xFE, 0xFF}
			for _, u := range utf16.Encode([]rune(s)) {
				wide = append(wide, byte(u>>8), byte(u))
			}
			return archive.String(wide)
		}
	}
	return archive.String(s)
}
