package compose

import (
	"asleft/internal/field"
	"asleft/internal/page"
)

// signOff has one block per role, to be signed in ink or in its form field.
func (b *book) signOff() []page.Block {
	state := b.in.Assessment.State
	blocks := []page.Block{
		b.h2("signoff.title", anchorSignOff),
		page.Panel{Tone: stateTone(state), Blocks: []page.Block{
			page.Paragraph{Runs: []page.Run{b.state(state)}},
			b.para("signoff." + string(state)),
		}},
		b.para("signoff.intro", "document", b.documentName(), "fingerprint", b.made.fingerprint),
	}
	if len(b.in.Record.Roles) == 0 {
		return append(blocks, b.para("signoff.noroles"))
	}
	for _, r := range b.in.Record.Roles {
		blocks = append(blocks, b.signature(r))
	}
	return append(blocks, b.para("signoff.seal"))
}

// signature is the block of a role. What was typed is printed; the rest leaves
// a rule to write on.
func (b *book) signature(r field.Role) page.Signature {
	title := b.text(r.Title)
	line := func(key, text string) page.SignatureLine {
		return page.SignatureLine{Label: b.say(key), Text: text}
	}
	return page.Signature{
		Name:  "sign." + asciiName(r.Key),
		Title: title,
		Lines: []page.SignatureLine{
			line("signoff.name", b.text(r.Name)),
			line("signoff.organization", b.text(r.Organization)),
			line("signoff.meaning", b.text(r.Meaning)),
			line("signoff.date", ""),
			line("signoff.signature", ""),
		},
		Tooltip: join(", ", title, b.text(r.Organization), b.text(r.Meaning)),
	}
}
