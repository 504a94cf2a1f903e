package audit

import (
	"strings"

	"asleft/internal/archive"
)

// compareValues compares every printed value of a package of another version with
// the one that this version prints, and with the value stated in the data file:
// the layout may have changed, the values not.
func (a *audit) compareValues(is, again *archive.Reader) {
	x, y := printedValues(is), printedValues(again)
	for _, id := range x.order {
		v, w := x.byID[id], y.byID[id]
		if w != nil && v.text == w.text {
			continue
		}
		stated, ok := a.values.Find(id)
		switch {
		case !ok:
			a.printedValue(id, v, nil)
		case w == nil || !strings.Contains(v.text, stated.Text):
			f := Finding{Severity: Question, Code: CodeValue, Path: id, Page: v.page, keys: keysOf(id),
				Args: []Arg{text("printed", v.text), text("recomputed", stated.Text)}}
			if w != nil {
				f.Args[1] = text("recomputed", w.text)
			}
			a.addFinding(f)
		}
	}
	a.compareFonts(is)
}

// compareFonts looks at what codes mean: this program's codes are the characters
// themselves, in every version.
func (a *audit) compareFonts(is *archive.Reader) {
	pages, err := is.Pages()
	if err != nil {
		return
	}
	for i := range pages {
		list, err := is.Meanings(i)
		if err != nil {
			a.addFinding(Finding{Severity: Differs, Code: CodeUnread, Page: i + 1, Args: []Arg{text("what", "page"), text("fact", err.Error())}})
			continue
		}
		for code, meaning := range list {
			if meaning != string(rune(code)) {
				a.place(CodeMeaning, i+1, "")
			}
		}
	}
}
