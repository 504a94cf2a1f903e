package workbook

import "strings"

// numberStyle is what a number format makes of a number.
type numberStyle struct {
	date, clock, percent bool
	denominator          int // of a fraction format; 9, 99, 999 for one, two, three digits; 0 for none
}

// styleOf reads a number format. Identifiers below 164 stand for formats that
// every spreadsheet knows (ECMA-376 part 1, 18.8.30); 27 to 36 and 50 to 58 are
// dates in East Asian versions.
func styleOf(id int, code string) numberStyle {
	switch {
	case code != "":
		return codeStyle(code)
	case id == 9 || id == 10:
		return numberStyle{percent: true}
	case id == 12:
		return numberStyle{denominator: 9}
	case id == 13:
		return numberStyle{denominator: 99}
	case id >= 18 && id <= 21 || id >= 45 && id <= 47:
		return numberStyle{clock: true}
	case id == 22:
		return numberStyle{date: true, clock: true}
	case id >= 14 && id <= 17 || id >= 27 && id <= 36 || id >= 50 && id <= 58:
		return numberStyle{date: true}
	}
	return numberStyle{}
}

// codeStyle reads a format code. Quoted, escaped and bracketed pieces are words
// and colors, except brackets of hours, minutes and seconds.
func codeStyle(code string) numberStyle {
	bare := strings.ToLower(bareCode(code))
	var s numberStyle
	s.percent = strings.Contains(bare, "%")
	s.clock = strings.ContainsAny(bare, "hs")
	s.date = strings.ContainsAny(bare, "yd") || strings.Contains(bare, "m") && !s.clock
	if strings.Contains(bare, "general") || strings.Contains(bare, "@") {
		s.clock, s.date = false, false
	}
	if !s.date && !s.clock {
		s.denominator = denominatorOf(bare)
	}
	return s
}

// bareCode leaves out what a format prints as it stands.
func bareCode(code string) string {
	var out strings.Builder
	for i := 0; i < len(code); i++ {
		switch c := code[i]; c {
		case '"':
			end := strings.IndexByte(code[i+1:], '"')
			if end < 0 {
				return out.String()
			}
			i += end + 1
		case '\\', '_', '*':
			i++
		case '[':
			end := strings.IndexByte(code[i:], ']')
			if end < 0 {
				return out.String()
			}
			inside := strings.ToLower(code[i+1 : i+end])
			if inside != "" && strings.Trim(inside, inside[:1]) == "" && strings.Contains("hms", inside[:1]) {
				out.WriteString("h") // an elapsed time
			}
			i += end
		case ';': // the first section is the one for positive numbers
			return out.String()
		default:
			out.WriteByte(c)
		}
	}
	return out.String()
}

// denominatorOf is that of "# ?/?", "# ??/??" or "# ?/16", 0 where there is no
// fraction.
func denominatorOf(bare string) int {
	before, after, found := strings.Cut(bare, "/")
	if !found || !strings.HasSuffix(strings.TrimRight(before, " "), "?") &&
		!strings.HasSuffix(strings.TrimRight(before, " "), "#") {
		return 0
	}
	after = strings.TrimLeft(after, " ")
	end := 0
	for end < len(after) && strings.IndexByte("?#0123456789", after[end]) >= 0 {
		end++
	}
	marks := after[:end]
	if strings.Trim(marks, "0123456789") == "" {
		return min(max(atoi(marks), 0), 999)
	}
	return [...]int{0, 9, 99, 999}[min(len(marks), 3)]
}
