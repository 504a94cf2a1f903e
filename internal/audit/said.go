package audit

import (
	"fmt"
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
	for _, p := range merged(more) {
		f := Finding{Severity: Question, Code: CodeSaidExtra, Page: p.page, Args: []Arg{text("printed", p.text), text("n", fmt.Sprint(p.times))}}
		for i, q := range gone {
			if !q.taken && squeezed(q.before) == squeezed(p.before) && q.edge == p.edge {
				gone[i].taken = true
				f.Code, f.Args = CodeSaid, []Arg{f.Args[0], text("recomputed", q.text), f.Args[1]}
				break
			}
		}
		a.addFinding(f)
	}
	for _, q := range merged(gone) {
		if !q.taken {
			a.addFinding(Finding{Severity: Question, Code: CodeSaidMissing, Page: q.page, Args: []Arg{text("recomputed", q.text), text("n", fmt.Sprint(q.times))}})
		}
	}
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
