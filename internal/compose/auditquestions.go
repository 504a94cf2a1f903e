package compose

import (
	"strconv"
	"strings"

	"asleft/internal/audit"
	"asleft/internal/screen"
)

// question puts a question on the readings as a whole into words.
func (d describer) question(q *audit.Asked) AuditQuestion {
	pairs := make([]string, 0, 2*len(q.Args))
	for _, a := range q.Args {
		text := visible(a.Text)
		switch a.Kind {
		case audit.ArgCheck:
			text = first(d.optional("check."+a.Text), text)
		case audit.ArgRound:
			text = first(d.optional("round."+a.Text), text)
		}
		pairs = append(pairs, a.Name, text)
	}
	out := AuditQuestion{Text: d.say("screen.question."+q.Code, pairs...), Rule: d.say("screen.rule."+q.Code, pairs...)}
	if q.N > 0 {
		out.N = d.say("screen.n", "n", strconv.Itoa(q.N))
	}
	switch odds := strconv.Itoa(q.Odds); {
	case q.Odds == 0:
		out.Odds = d.say("screen.nochance")
	case q.Odds == screen.MostOdds:
		out.Odds = d.say("screen.oddsmost", "odds", odds)
	default:
		out.Odds = d.say("screen.odds", "odds", odds)
	}
	if len(q.At) > 0 {
		out.Where = d.say("audit.look", "cells", visible(strings.Join(q.At, ", ")))
	}
	return out
}
