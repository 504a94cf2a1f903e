package compose

import (
	"fmt"

	"asleft/internal/page"
)

// safety prints the topics safety.1, safety.2 … in their order, the paragraph
// of deference, and the titles of the rules that may apply.
func (b *book) safety() []page.Block {
	blocks := []page.Block{
		b.h2("safety.title", anchorSafety),
		page.Panel{Tone: page.Warn, Blocks: []page.Block{
			page.Paragraph{Runs: bold(b.say("safety.first")), Keep: true},
			b.para("safety.defer"),
		}},
	}
	var topics [2][]page.Block
	n := 0
	for b.in.Words.Has(fmt.Sprintf("safety.%d.title", n+1)) {
		n++
	}
	for i := 1; i <= n; i++ {
		key := fmt.Sprintf("safety.%d", i)
		side := 0
		if i > (n+1)/2 {
			side = 1
		}
		topics[side] = append(topics[side], b.h3(key+".title"), page.List{Items: b.steps(key)})
	}
	return append(blocks,
		page.Columns{Widths: []float64{50, 50}, Blocks: topics[:]},
		b.h3("safety.rules"),
		b.lead("safety.rulesintro"),
		page.List{Items: b.steps("safety.rule")},
	)
}
