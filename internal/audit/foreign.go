package audit

import (
	"errors"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"asleft/internal/archive"
	"asleft/internal/data"
)

// compareValues compares every printed value of a package of another version with
// the one that this version prints, or else with the value stated in the data file:
// the layout may have changed, the values not.
func (a *audit) compareValues(is, again *archive.Reader) {
	if a.otherCodes(is) {
		return
	}
	c := foreignValues{a: a, is: printedValues(is), again: printedValues(again), words: map[string]map[string]bool{}}
	if i := slices.IndexFunc(a.made.Files, func(p data.Part) bool { return p.Name == data.DataName }); i >= 0 {
		c.recomputed, _ = data.Flatten(a.made.Files[i].Bytes) // our own: it can be read
	}
	for id, w := range c.again.byID {
		if v, ok := c.recomputed.Find(id); ok {
			word := squeezed(w.text)
			if c.words[word] == nil {
				c.words[word] = map[string]bool{}
			}
			c.words[word][v.Text] = true
		}
	}
	for _, id := range c.is.order {
		c.value(id)
	}
	for _, id := range c.again.order {
		if _, ok := a.values.Find(id); ok && c.is.byID[id] == nil {
			w := c.again.byID[id]
			a.addFinding(Finding{Severity: Question, Code: CodeValueMissing, Path: id, Page: w.page, keys: keysOf(id),
				Args: []Arg{text("recomputed", w.text)}})
		}
	}
	a.compareInfo(is, again)
	a.compareFonts(is)
	a.compareShapes(is)
	a.compareCover(is)
	a.compareSaid(is, again)
	a.compareKeys(is, again)
}

// foreignValues are the printed values of two versions.
type foreignValues struct {
	a          *audit
	is, again  *values
	recomputed data.Values
	words      map[string]map[string]bool // what this version prints, and for which values
}

func (c *foreignValues) value(id string) {
	v, w := c.is.byID[id], c.again.byID[id]
	stated, ok := c.a.values.Find(id)
	if w != nil {
		if squeezed(v.text) != squeezed(w.text) {
			c.other(id, v, w.text, stated.Text)
		}
		return
	}
	switch rest := strings.Replace(v.text, stated.Text, "", 1); {
	case !ok:
		c.a.printedValue(id, v, nil)
	case !strings.Contains(v.text, stated.Text) || number.MatchString(rest):
		c.other(id, v, stated.Text, stated.Text)
	}
}

// other tells of a value that is printed otherwise. It is asked where this version
// judges otherwise, where all numbers are the same as far as they are printed, and
// where it may be another word for the same: not where that word is this version's
// for something else.
func (c *foreignValues) other(id string, v *printed, recomputed, stated string) {
	f := Finding{Severity: Differs, Code: CodeValue, Path: id, Page: v.page, keys: keysOf(id),
		Args: []Arg{text("printed", v.text), text("recomputed", recomputed)}}
	now, ok := c.recomputed.Find(id)
	word := c.words[squeezed(v.text)]
	switch hasNumber := number.MatchString(v.text) || number.MatchString(recomputed); {
	case ok && now.Text != stated,
		hasNumber && sameNumbers(v.text, recomputed),
		!hasNumber && (len(word) == 0 || word[stated]):
		f.Severity = Question
	}
	c.a.addFinding(f)
}

var number = regexp.MustCompile(`[0-9]+(?:[.,][0-9]+)?`)

// sameNumbers tells whether two texts have numbers, and the same ones, to as many
// decimals as both print.
func sameNumbers(s, t string) bool {
	x, y := number.FindAllString(s, -1), number.FindAllString(t, -1)
	if len(x) != len(y) || len(x) == 0 {
		return false
	}
	for i := range x {
		a, m := decimal(x[i])
		b, n := decimal(y[i])
		if unit := math.Pow(10, -float64(min(m, n))); math.Abs(a-b) > 0.51*unit || m == n && a != b {
			return false
		}
	}
	return true
}

// decimal is a number and how many decimals it has.
func decimal(s string) (float64, int) {
	s = strings.Replace(s, ",", ".", 1)
	_, part, _ := strings.Cut(s, ".")
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN(), 0
	}
	return v, len(part)
}

// compareInfo compares what a viewer shows about the file.
func (a *audit) compareInfo(is, again *archive.Reader) {
	x, _ := is.Info()
	y, _ := again.Info()
	for _, k := range sortedKeys(y) {
		if x[k] != y[k] && k != "Producer" && k != "Creator" {
			a.add(Question, CodeMetadata, text("place", k+": "+x[k]))
		}
	}
}

// otherCodes tells of codes that stand for other characters than this program's:
// then nothing on the pages can be read.
func (a *audit) otherCodes(is *archive.Reader) bool {
	pages, err := is.Pages()
	if err != nil {
		return false // told by others
	}
	for i := range pages {
		if _, err := is.PageText(i); errors.Is(err, archive.ErrCodes) {
			a.place(CodeGlyphs, i+1, "Encoding")
			return true
		}
	}
	return false
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
			a.unreadPage(i+1, err)
			continue
		}
		for code, meaning := range list {
			if meaning != string(rune(code)) {
				a.place(CodeMeaning, i+1, "")
			}
		}
	}
}
