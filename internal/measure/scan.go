package measure

import (
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A scanner reads one cleaned text from left to right. Its methods move pos
// only over what they understood.
type scanner struct {
	original string // as typed, for errors
	s        string // cleaned
	pos      int
}

// newScanner cleans a text and refuses what no parser here would read.
func newScanner(text string) (*scanner, error) {
	s, err := clean(text)
	if err != nil {
		return nil, err
	}
	if mark := vague(s); mark != "" {
		return nil, refuse(Vague, text, mark)
	}
	if dateLike(s) {
		return nil, refuse(LooksLikeDate, text, "")
	}
	return &scanner{original: text, s: s}, nil
}

func (c *scanner) rest() string { return c.s[c.pos:] }
func (c *scanner) done() bool   { return c.pos == len(c.s) }

// refuse builds an error about what follows the current position.
func (c *scanner) refuse(kind ErrorKind) error {
	return refuse(kind, c.original, c.rest())
}

// spaces skips spaces and reports whether there were any.
func (c *scanner) spaces() bool {
	start := c.pos
	for c.take(' ') {
	}
	return c.pos > start
}

// take consumes the rune r if it is next.
func (c *scanner) take(r rune) bool {
	next, size := utf8.DecodeRuneInString(c.rest())
	if size == 0 || next != r {
		return false
	}
	c.pos += size
	return true
}

// digits consumes a run of ASCII digits and returns it, possibly empty. Digits
// of other scripts are not numbers here: they cannot be printed back.
func (c *scanner) digits() string {
	rest := c.rest()
	n := len(rest) - len(strings.TrimLeft(rest, "0123456789"))
	c.pos += n
	return rest[:n]
}

// letters consumes a run of letters, with one full stop after it ("in."),
// unless that may be a decimal point ("ft.5").
func (c *scanner) letters() string {
	rest := c.rest()
	n := strings.IndexFunc(rest, func(r rune) bool { return !unicode.IsLetter(r) })
	if n < 0 {
		n = len(rest)
	}
	c.pos += n
	if after := rest[n:]; n > 0 && !(len(after) > 1 && after[0] == '.' && isDigit(after[1])) {
		c.take('.')
	}
	return rest[:n]
}

func isSign(r rune) bool { return r == '+' || r == '-' || r == minusSign }

// sign consumes a leading sign and reports whether it was a minus.
func (c *scanner) sign() (negative bool) {
	negative = c.take('-') || c.take(minusSign)
	if !negative {
		c.take('+')
	}
	return negative
}

// number consumes an unsigned number: "0.5", "12,7", "9/16", "1-1/4", "1 1/4",
// "½", "1¼". Whole reports digits only, as a part before a smaller unit must be.
func (c *scanner) number() (value *big.Rat, whole bool, err error) {
	start := c.pos
	lead := c.digits()
	if strings.ContainsAny(c.peek(), ".,") {
		value, err = c.decimal(start, lead)
		return value, false, err
	}
	if lead == "" {
		value, err = c.fraction()
		if value == nil && err == nil {
			err = c.refuse(NotANumber)
		}
		return value, false, err
	}
	if c.slashDigit() {
		c.pos = start
		value, err = c.fraction()
		return value, false, err
	}
	value = rational(lead)
	part, err := c.mixedPart()
	if err != nil || part == nil {
		return value, part == nil, err
	}
	return value.Add(value, part), false, nil
}

// peek returns the next rune as a string, or "".
func (c *scanner) peek() string {
	_, size := utf8.DecodeRuneInString(c.rest())
	return c.rest()[:size]
}

// atNumber reports whether an unsigned number with a leading digit or a
// one-character fraction begins here. A second part that begins with a point
// ("3 ft.5 in") is left unread: the point may have ended the unit.
func (c *scanner) atNumber() bool {
	next := c.peek()
	return next != "" && isDigit(next[0]) || vulgar(next) != nil
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// decimal consumes what follows the whole part of a decimal, from its point
// or comma on.
func (c *scanner) decimal(start int, lead string) (*big.Rat, error) {
	comma := c.take(',')
	if !comma {
		c.take('.')
	}
	frac := c.digits()
	if strings.ContainsAny(c.peek(), ".,") {
		if comma || c.peek() == "," {
			return nil, refuse(AmbiguousComma, c.original, c.s[start:])
		}
		return nil, refuse(NotANumber, c.original, c.s[start:])
	}
	if frac == "" { // "5." may be an unfinished entry
		return nil, refuse(NotANumber, c.original, c.s[start:])
	}
	if comma && len(frac) == 3 && strings.Trim(lead, "0") != "" {
		return nil, refuse(AmbiguousComma, c.original, c.s[start:c.pos])
	}
	return rational(lead + "." + frac), nil
}

// slashDigit reports whether a slash and a digit follow, spaces aside. A slash
// before a letter belongs to a unit ("120 1/min").
func (c *scanner) slashDigit() bool {
	rest := strings.TrimLeft(c.rest(), " ")
	if !strings.HasPrefix(rest, "/") {
		return false
	}
	rest = strings.TrimLeft(rest[1:], " ")
	return rest != "" && isDigit(rest[0])
}

// fraction consumes "9/16" or "½". It returns nil if neither follows.
func (c *scanner) fraction() (*big.Rat, error) {
	if v := vulgar(c.peek()); v != nil {
		c.pos += len(c.peek())
		return v, nil
	}
	start := c.pos
	num := c.digits()
	if num == "" || !c.slashDigit() {
		c.pos = start
		return nil, nil
	}
	c.spaces()
	c.take('/')
	c.spaces()
	den := rational(c.digits())
	if den.Sign() == 0 {
		return nil, refuse(DivideByZero, c.original, c.s[start:c.pos])
	}
	n := rational(num)
	return n.Quo(n, den), nil
}

// mixedPart consumes the fraction of a mixed number, joined to the whole part
// by nothing ("1¼"), by spaces or by one hyphen. It returns nil if none
// follows.
func (c *scanner) mixedPart() (*big.Rat, error) {
	start := c.pos
	joined := c.spaces() || c.take('-')
	if !joined && vulgar(c.peek()) == nil {
		return nil, nil
	}
	part, err := c.fraction()
	if err != nil {
		return nil, err
	}
	if part == nil {
		c.pos = start
		return nil, nil
	}
	if part.Sign() <= 0 || part.Cmp(big.NewRat(1, 1)) >= 0 {
		return nil, refuse(Improper, c.original, c.s[start:c.pos])
	}
	return part, nil
}

// rational reads a run of digits with at most one point. An empty whole part
// is zero.
func rational(decimal string) *big.Rat {
	r, ok := new(big.Rat).SetString("0" + decimal)
	if !ok { // not reachable: callers pass digits and one point
		return new(big.Rat)
	}
	return r
}

// vulgarFractions are the one-character fractions of Unicode, block Number
// Forms and Latin-1.
var vulgarFractions = [...]struct {
	mark     rune
	num, den int64
}{
	{'½', 1, 2}, {'⅓', 1, 3}, {'⅔', 2, 3}, {'¼', 1, 4}, {'¾', 3, 4},
	{'⅕', 1, 5}, {'⅖', 2, 5}, {'⅗', 3, 5}, {'⅘', 4, 5}, {'⅙', 1, 6}, {'⅚', 5, 6},
	{'⅐', 1, 7}, {'⅛', 1, 8}, {'⅜', 3, 8}, {'⅝', 5, 8}, {'⅞', 7, 8},
	{'⅑', 1, 9}, {'⅒', 1, 10},
}

// vulgar returns the value of a one-character fraction, or nil.
func vulgar(s string) *big.Rat {
	r, _ := utf8.DecodeRuneInString(s)
	for _, v := range vulgarFractions {
		if r == v.mark {
			return big.NewRat(v.num, v.den)
		}
	}
	return nil
}

// months are the words that a spreadsheet puts in place of a typed fraction
// or range.
var months = [...]string{"january", "february", "march", "april", "may", "june", "july",
	"august", "september", "october", "november", "december"}

// dateLike reports three numbers joined by one kind of separator
// ("03/04/26", "2026-09-16", "1.2.3") or a number joined to a month name.
func dateLike(s string) bool {
	for _, sep := range []string{"/", "-", "."} {
		parts := strings.Split(s, sep)
		if len(parts) == 3 && allDigits(parts[0]) && allDigits(parts[1]) && allDigits(parts[2]) {
			return true
		}
	}
	word := strings.ToLower(strings.Trim(s, "0123456789-/. ,"))
	if len(word) < 3 || len(word) == len(s) {
		return false
	}
	for _, month := range months {
		if strings.HasPrefix(month, word) {
			return true
		}
	}
	return false
}

func allDigits(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}
