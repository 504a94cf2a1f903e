package archive

// operatorKind groups the operators that a page may use.
type operatorKind uint8

const (
	opState      operatorKind = iota + 1 // graphics and text state, paths under construction
	opPaint                              // puts marks on paper
	opShow                               // puts text on paper; the last operand is the text
	opPush                               // q
	opPop                                // Q
	opTextBegin                          // BT
	opTextEnd                            // ET
	opFont                               // Tf
	opRender                             // Tr
	opImage                              // Do
	opBeginPlain                         // BMC
	opBegin                              // BDC
	opEnd                                // EMC
)

// operator is what one operator takes.
type operator struct {
	kind    operatorKind
	numbers int8 // operands, all numbers; -1 where the scanner looks itself
}

// lookup knows every operator that the page writer and the page layer use
// (ISO 32000-1, annex A). Others are refused: patterns, shadings, inline images,
// graphics state dictionaries, CMYK and spot colors, compatibility sections. A
// switch on strings is several times as fast as a map here.
func lookup(op []byte) (operator, bool) {
	switch string(op) {
	case "m", "l", "Td", "TD":
		return operator{opState, 2}, true
	case "h", "n", "W", "W*", "T*":
		return operator{opState, 0}, true
	case "w", "J", "j", "M", "i", "g", "G", "Tc", "Tw", "Tz", "TL", "Ts":
		return operator{opState, 1}, true
	case "rg", "RG":
		return operator{opState, 3}, true
	case "re", "v", "y":
		return operator{opState, 4}, true
	case "c", "cm", "Tm":
		return operator{opState, 6}, true
	case "d":
		return operator{opState, -1}, true
	case "S", "s", "f", "f*", "B", "B*", "b", "b*":
		return operator{opPaint, 0}, true
	case "Tj", "TJ", "'":
		return operator{opShow, -1}, true
	case "q":
		return operator{opPush, 0}, true
	case "Q":
		return operator{opPop, 0}, true
	case "BT":
		return operator{opTextBegin, 0}, true
	case "ET":
		return operator{opTextEnd, 0}, true
	case "Tf":
		return operator{opFont, -1}, true
	case "Tr":
		return operator{opRender, 1}, true
	case "Do":
		return operator{opImage, -1}, true
	case "BMC":
		return operator{opBeginPlain, -1}, true
	case "BDC":
		return operator{opBegin, -1}, true
	case "EMC":
		return operator{opEnd, 0}, true
	}
	return operator{}, false
}

// invisibleRender is the first text rendering mode that hides text or clips
// with it (ISO 32000-1, table 106).
const invisibleRender = 3
