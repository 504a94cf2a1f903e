package audit

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"asleft/internal/archive"
)

// compareSaid compares what two files say besides their values, wherever it
// stands: layout may have changed between versions, and so may words, which is
// asked. What stands at the edge of pages is compared once for all pages.
func (a *audit) compareSaid(is, should *archive.Reader) {
	x, err := phrases(is)
	if err != nil {
		return // told by others
	}
	y, err := phrases(should)
	if err != nil {
		return
	}
	gone, more := leftOver(y, x), leftOver(x, y)
	var extra, missing []phrase
	for _, p := range merged(more) {
		i := slices.IndexFunc(gone, func(q phrase) bool {
			return !q.taken && squeezed(q.before) == squeezed(p.before) && q.edge == p.edge
		})
		if i < 0 {
			extra = append(extra, p)
			continue
		}
		gone[i].taken = true
		printed, recomputed := fromDifference(p.text, gone[i].text)
		a.addFinding(Finding{Severity: Question, Code: CodeSaid, Page: p.page,
			Args: []Arg{text("printed", printed), text("recomputed", recomputed), text("n", fmt.Sprint(p.times))}})
	}
	for _, q := range merged(gone) {
		if !q.taken {
			missing = append(missing, q)
		}
	}
	a.said(CodeSaidExtra, CodeSaidExtraMany, "printed", extra)
	a.said(CodeSaidMissing, CodeSaidMissingMany, "recomputed", missing)
}

// manySaid is from how many phrases on a page these are told together: then the
// page is another one, and to be looked at as a whole.
const manySaid = 9

// said tells of phrases that only one of two versions says, page by page.
func (a *audit) said(one, many Code, name string, list []phrase) {
	for len(list) > 0 {
		n := 1
		for n < len(list) && list[n].page == list[0].page {
			n++
		}
		now := list[:n]
		list = list[n:]
		if n >= manySaid {
			var all []string
			for _, p := range now {
				all = append(all, p.text)
			}
			a.addFinding(Finding{Severity: Question, Code: many, Page: now[0].page,
				Args: []Arg{text(name, strings.Join(all, " | ")), text("n", fmt.Sprint(n))}})
			continue
		}
		for _, p := range now {
			a.addFinding(Finding{Severity: Question, Code: one, Page: p.page, Args: []Arg{text(name, p.text), text("n", fmt.Sprint(p.times))}})
		}
	}
}

// fromDifference leaves out the beginning of two long texts that they have in
// common, but for a few words.
func fromDifference(s, t string) (string, string) {
	const long, words = longest / 2, 40
	x, y := []rune(s), []rune(t)
	n := 0
	for n < min(len(x), len(y)) && x[n] == y[n] {
		n++
	}
	if n < long {
		return s, t
	}
	return "… " + string(x[n-words:]), "… " + string(y[n-words:])
}

// leftOver are the phrases of a list that another one has not as often; at the edge
// of pages, not at all.
func leftOver(list, other []phrase) []phrase {
	count := map[string]int{}
	for _, p := range other {
		count[p.key()]++
		if p.head {
			p.edge = true
			count[p.key()]++
		}
	}
	var out []phrase
	for _, p := range list {
		k := p.key()
		if count[k] > 0 {
			if !p.edge {
				count[k]--
			}
			continue
		}
		out = append(out, p)
	}
	return out
}

// merged puts equal phrases together. One that was taken stays so.
func merged(list []phrase) []phrase {
	at := map[string]int{}
	var out []phrase
	for _, p := range list {
		k := p.key()
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, p)
		}
		out[i].times++
		out[i].taken = out[i].taken || p.taken
	}
	return out
}

// key is a phrase without spaces: where lines are broken makes no difference.
func (p *phrase) key() string {
	if p.edge {
		return "\n" + squeezed(p.text)
	}
	return squeezed(p.text)
}

func squeezed(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}
