package audit

import (
	"fmt"

	"asleft/internal/archive"
)

// compareShapes holds the shape of every character in use against the one that the
// typeface of that name has for it. Where it is that of another character, or the
// typeface is the same cut and the shape is none of its own, somebody changed it.
// Where the other version had another cut of the typeface, or another typeface,
// shapes may differ rightly: that is asked, and not called a change.
func (a *audit) compareShapes(is *archive.Reader) {
	used, err := is.UsedTypefaces()
	if err != nil {
		a.add(Differs, CodeUnread, text("what", "typeface"), text("fact", err.Error()))
		return
	}
	for _, u := range used {
		own := a.o.Typefaces[u.Name]
		if own == nil {
			a.shapesUnknown = true
			a.addFinding(Finding{Severity: Question, Code: CodeTypefaceOther, Page: firstUse(u), Args: []Arg{text("typeface", u.Name)}})
			continue
		}
		if !u.Hinted() {
			own = own.Unhinted()
		}
		a.typeface(u, own)
	}
}

func (a *audit) typeface(u *archive.UsedTypeface, own *archive.Typeface) {
	same, others := u.SameCut(own), 0
	for _, c := range u.Chars() {
		shape := u.Shape(c)
		if shape == own.Shape(c) && shape != "" {
			continue
		}
		f := Finding{Severity: Differs, Code: CodeGlyphsRedrawn, Page: u.First[c] + 1,
			Args: []Arg{text("char", string(c)), text("typeface", u.Name)}}
		if other, ok := own.Showing(shape); ok {
			f.Code = CodeGlyphsSwapped
			f.Args = append(f.Args, text("shown", string(other)))
		} else if !same {
			others++
			continue
		}
		a.addFinding(f)
	}
	if !same {
		a.shapesUnknown = a.shapesUnknown || others > 0
		a.addFinding(Finding{Severity: Question, Code: CodeTypefaceCut, Page: firstUse(u),
			Args: []Arg{text("typeface", u.Name), text("n", fmt.Sprint(others)), text("of", fmt.Sprint(len(u.First)))}})
	}
}

// firstUse is the first page on which a typeface is used, from 1.
func firstUse(u *archive.UsedTypeface) int {
	first := 0
	for _, page := range u.First {
		if first == 0 || page+1 < first {
			first = page + 1
		}
	}
	return first
}
