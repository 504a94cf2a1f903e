package compose

import (
	"asleft/internal/assess"
	"asleft/internal/page"
)

// marks gives every verdict its sign, in addition to its word.
var marks = map[assess.Verdict]page.Mark{
	assess.Within:      page.MarkWithin,
	assess.NearLimit:   page.MarkNear,
	assess.Outside:     page.MarkOutside,
	assess.Recheck:     page.MarkRecheck,
	assess.Missing:     page.MarkMissing,
	assess.NoLimit:     page.MarkNoLimit,
	assess.NotRequired: page.MarkNotAsked,
	assess.ByOthers:    page.MarkByOthers,
	accepted:           page.MarkAccepted,
}

// accepted is how a check outside its limit is told where an accepted deviation
// takes all that stood against it. It is a word of the pages; the verdict itself
// stays outside.
const accepted assess.Verdict = "accepted"

// told is the verdict of a check as it is told of its cell.
func (c towerCell) told(k *assess.Check) assess.Verdict {
	if k.Verdict != assess.Outside || k.Deviation == nil {
		return k.Verdict
	}
	for _, r := range c.judged.Reasons {
		if r.Check == k.Key {
			return k.Verdict
		}
	}
	return accepted
}

// verdicts lists all verdicts in the order of the design, worst not first.
var verdicts = []assess.Verdict{
	assess.Within, assess.NearLimit, assess.Outside, accepted, assess.Recheck,
	assess.Missing, assess.NoLimit, assess.NotRequired, assess.ByOthers,
}

// verdictTone is the ground of a table cell. What needs nobody's attention has
// none, so that what does stands out.
func verdictTone(v assess.Verdict) page.Tone {
	switch v {
	case assess.Outside:
		return page.Bad
	case assess.Recheck:
		return page.Again
	case assess.Missing, assess.NoLimit:
		return page.Warn
	case assess.NearLimit, accepted:
		return page.Good
	case assess.NotRequired, assess.ByOthers:
		return page.Quiet
	}
	return page.Plain
}

// verdictFace sets what stands against a cell in semibold.
func verdictFace(v assess.Verdict) page.Face {
	switch v {
	case assess.Outside, assess.Recheck, assess.Missing, assess.NoLimit:
		return page.Bold
	}
	return page.Regular
}

// verdict is the word of a verdict with its mark.
func (b *book) verdict(v assess.Verdict) page.Run {
	return page.Run{Text: b.word(v), Mark: marks[v], Face: verdictFace(v)}
}

func (b *book) word(v assess.Verdict) string { return b.say("verdict." + string(v)) }

// shortWord is a verdict in the fewest words.
func (b *book) shortWord(v assess.Verdict) string {
	if words := b.optional("verdictshort." + string(v)); words != "" {
		return words
	}
	return b.word(v)
}

// verdictCell is a table cell with a verdict.
func (b *book) verdictCell(v assess.Verdict) page.TableCell {
	return page.TableCell{Runs: []page.Run{b.verdict(v)}, Tone: verdictTone(v)}
}

// state is the word of a state with its mark.
func (b *book) state(s assess.State) page.Run {
	mark := page.MarkNotReady
	switch s {
	case assess.Ready:
		mark = page.MarkReady
	case waits:
		mark = page.MarkWaits
	}
	return page.Run{Text: b.say("state." + string(s)), Mark: mark, Face: page.Bold}
}

// waits is how a cell is told that nothing of its own holds back. It is a word of
// the pages; the state itself is not ready.
const waits assess.State = "waits"

// state is the state of a cell as it is told.
func (c towerCell) state() assess.State {
	if c.judged.State == assess.NotReady && len(c.judged.Own()) == 0 {
		return waits
	}
	return c.judged.State
}

func stateTone(s assess.State) page.Tone {
	if s == waits {
		return page.Plain
	}
	if s == assess.Ready {
		return page.Good
	}
	return page.Bad
}

// lookUp tells whether a reader will want to see what a verdict rests on: it is not
// plainly within, and something was read, or a reason given why not.
func (c towerCell) lookUp(k *assess.Check) bool {
	switch c.told(k) {
	case assess.Within, assess.NotRequired, assess.ByOthers:
		return false
	}
	return len(k.Rounds) > 0
}
