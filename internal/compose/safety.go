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
	for n := 1; b.in.Words.Has(topicKey(n) + ".title"); n += 2 {
		blocks = append(blocks, page.Columns{Widths: []float64{50, 50},
			Blocks: [][]page.Block{b.topic(n), b.topic(n + 1)}})
	}
	return append(blocks,
		b.h3("safety.rules"),
		b.lead("safety.rulesintro"),
		page.List{Items: b.steps("safety.rule")},
	)
}

func topicKey(n int) string { return fmt.Sprintf("safety.%d", n) }

// topic is one topic with its steps; nothing where there is none of the number.
func (b *book) topic(n int) []page.Block {
	key := topicKey(n)
	if !b.in.Words.Has(key + ".title") {
		return nil
	}
	return []page.Block{b.h3(key + ".title"), page.List{Items: b.steps(key)}}
}
