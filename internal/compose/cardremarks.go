package compose

import (
	"strings"

	"asleft/internal/field"
	"asleft/internal/page"
)

// mostRemark is how many letters of a remark a card has room for; the rest is on
// the cell's sheet.
const mostRemark = 300

// cardRemarks are what the crew wrote of the cell, and what they said cannot be
// moved: it stands beside the moves, since it may be the reason not to make them.
func (b *book) cardRemarks(c towerCell) []page.Block {
	var out []page.Block
	line := func(key, text string) {
		out = append(out, page.Paragraph{Size: cardText, Runs: []page.Run{
			{Text: b.say(key) + " ", Face: page.Bold}, {Text: b.shortened(text)}}})
	}
	if r := b.text(c.read.Remarks); r != "" {
		line("card.remarks", r)
	}
	if list := b.stuckList(c); list != "" {
		line("card.stuck", list)
	}
	return out
}

func (b *book) shortened(text string) string {
	r := []rune(text)
	if len(r) <= mostRemark {
		return text
	}
	return strings.TrimSpace(string(r[:mostRemark])) + b.say("card.more")
}

// stuckList is what the crew said cannot be moved, empty where all of it moves.
func (b *book) stuckList(c towerCell) string {
	var stuck []string
	for _, s := range c.read.Stuck {
		stuck = append(stuck, b.stuckText(s))
	}
	if len(stuck) == 0 {
		return ""
	}
	return strings.Join(stuck, "; ") + "."
}

// stuckLine says so in the package.
func (b *book) stuckLine(c towerCell) []page.Block {
	list := b.stuckList(c)
	if list == "" {
		return nil
	}
	return []page.Block{page.Paragraph{Runs: []page.Run{{Text: b.say("card.stuck") + " ", Face: page.Bold}, {Text: list}}}}
}

// stuckText is a line of what cannot be moved: "gear reducer, foot 3: up or down
// (anchor bolt seized)".
func (b *book) stuckText(s field.Stuck) string {
	what := b.say("moved." + s.What.Value)
	switch {
	case s.Foot.Set:
		what = b.say("stuck.foot", "what", what, "foot", itoa(s.Foot.Value))
	case s.Feet.Set:
		what = b.say("stuck.feet", "what", what, "feet", b.say("end."+s.Feet.Value))
	}
	way := b.say("direction."+s.Way.Value, "side", b.sideName())
	if s.What.Value == "motor" {
		way = b.motorWay(s.Way.Value)
	}
	if why := b.text(s.Reason); why != "" {
		return b.say("stuck.why", "what", what, "way", way, "why", why)
	}
	return b.say("stuck.way", "what", what, "way", way)
}
