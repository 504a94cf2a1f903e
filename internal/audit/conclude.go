package audit

import (
	"errors"
	"slices"

	"asleft/internal/data"
	"asleft/internal/sign"
)

var (
	errNoData     = errors.New("no data file inside")
	errManyPaints = errors.New("too much is painted")
)

// conclude says what was proved and what was not.
func (a *audit) conclude() {
	a.settle()
	out := a.out
	out.Agrees = !a.has(Differs, Question) && len(out.Questions) == 0
	out.Strength, out.Origin = a.strength(), a.origin()
	prove := func(s Statement, holds bool) {
		if holds {
			out.Proved = append(out.Proved, s)
		}
	}
	doubt := func(s Statement, holds bool) {
		if holds {
			out.NotProved = append(out.NotProved, s)
		}
	}
	out.Proved, out.NotProved = []Statement{}, []Statement{}
	rebuilt := out.Strength == StrengthBytes || out.Strength == StrengthValues
	prove(ProvedBytes, out.Strength == StrengthBytes)
	prove(ProvedValues, out.Strength == StrengthValues)
	prove(ProvedUnchanged, a.intact() > 0)
	prove(ProvedWho, out.Origin == OriginTrusted)
	prove(ProvedFingerprint, a.known)
	doubt(NotProvedContent, a.has(Differs))
	doubt(NotProvedRebuild, !rebuilt && a.made == nil)
	doubt(NotProvedDrawn, a.foreign && a.made != nil && !a.equal)
	doubt(NotProvedShapes, a.shapesUnknown)
	doubt(NotProvedOrigin, a.intact() == 0)
	doubt(NotProvedWho, a.intact() > 0 && out.Origin != OriginTrusted)
	doubt(NotProvedRemade, a.intact() == 0 && !a.known && !out.Compared)
	doubt(NotProvedEnclosed, slices.ContainsFunc(a.parts, func(p data.Part) bool { return p.Kind == data.Supplement }))
	doubt(NotProvedReadings, true)
}

// intact counts the signatures that hold.
func (a *audit) intact() int {
	n := 0
	for i := range a.signed.Fields {
		if f := &a.signed.Fields[i]; f.Intact() && f.Named {
			n++
		}
	}
	return n
}

// strength is what was reached. Differences end it: what differs was not followed.
func (a *audit) strength() Strength {
	switch {
	case a.equal && !a.has(Differs):
		return StrengthBytes
	case a.made != nil && !a.has(Differs):
		return StrengthValues
	case a.intact() > 0:
		return StrengthSignatures
	}
	return StrengthNone
}

func (a *audit) origin() Origin {
	for i := range a.signed.Fields {
		if f := &a.signed.Fields[i]; f.Intact() && f.Named && f.Trust == sign.TrustRoot {
			return OriginTrusted
		}
	}
	switch {
	case a.intact() > 0:
		return OriginSigned
	case a.known:
		return OriginFingerprint
	}
	return OriginNone
}
