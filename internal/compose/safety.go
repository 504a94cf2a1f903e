package compose

import (
	"fmt"

	"asleft/internal/page"
)

// safety prints the topics safety.1, safety.2 … in their order, the paragraph
// of deference, and the titles of the rules that may apply. Wording that nobody
// of the trade has reviewed stands beside the English.
func (b *book) safety() []page.Block {
	if b.in.Beside != nil {
		return b.safetyBeside()
	}
	blocks := append([]page.Block{b.h2("safety.title", anchorSafety)}, b.deference()...)
	for n := 1; b.in.Words.Has(topicKey(n) + ".title"); n += 2 {
		blocks = append(blocks, halves(b.topic(n), b.topic(n+1)))
	}
	return append(blocks, b.safetyRules()...)
}

// safetyBeside has two columns, each topic beside the same one in English.
func (b *book) safetyBeside() []page.Block {
	e := b.beside()
	blocks := []page.Block{b.h2("safety.title", anchorSafety), halves(b.deference(), e.foreign(e.deference()))}
	for n := 1; b.in.Words.Has(topicKey(n) + ".title"); n++ {
		blocks = append(blocks, halves(b.topic(n), e.foreign(e.topic(n))))
	}
	return append(blocks, b.safetyRules()...)
}

// beside is the book in the other words; its mistakes are those of the book.
func (b *book) beside() *book {
	in := *b.in
	in.Words = b.in.Beside
	e := *b
	e.in, e.fails = &in, b
	return &e
}

// foreign marks blocks as being in the language of the words.
func (b *book) foreign(blocks []page.Block) []page.Block {
	return []page.Block{page.Foreign{Lang: b.in.Words.Tag(), Blocks: blocks}}
}

func (b *book) deference() []page.Block {
	return []page.Block{page.Panel{Tone: page.Warn, Blocks: []page.Block{
		page.Paragraph{Runs: bold(b.say("safety.first")), Keep: true},
		b.para("safety.defer"),
	}}}
}

func (b *book) safetyRules() []page.Block {
	return []page.Block{b.h3("safety.rules"), b.lead("safety.rulesintro"), page.List{Items: b.steps("safety.rule")}}
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
