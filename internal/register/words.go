package register

import (
	"strconv"
	"strings"

	"asleft/internal/data"
	"asleft/templates"
)

// Print is how a register is written.
type Print struct {
	Words *templates.Words
	// Millimeters asks for lengths in millimeters rather than inches, and for
	// slopes in millimeters to the meter rather than inches to the foot.
	Millimeters bool
	// Link turns a path into what a link in the register leads to, relative to
	// where it will lie; nil for none.
	Link func(path string) string
}

func (p *Print) say(key string, pairs ...string) string {
	return p.Words.Say("register."+key, pairs...)
}

func (p *Print) head(key string, pairs ...string) string { return p.say("head."+key, pairs...) }

// check is the name of a check. One that a later version knows keeps its key.
func (p *Print) check(key string) string { return p.known("check."+key, key) }

// verdict is the word of a verdict, with its acceptance.
func (p *Print) verdict(k *Check) string {
	word := p.known("verdict."+k.Verdict, k.Verdict)
	if k.Accepted && k.Verdict == "outside" {
		return word + ", " + p.say("note.accepted")
	}
	return word
}

func (p *Print) state(key string) string { return p.known("state."+key, key) }

func (p *Print) milestone(key string) string {
	if key == "" {
		return ""
	}
	return p.known("register.milestone."+key, key)
}

func (p *Print) known(key, otherwise string) string {
	if p.Words.Has(key) {
		return p.Words.Say(key)
	}
	return otherwise
}

// signed says how many fields are signed, and whether the signatures hold.
func (p *Print) signed(t *Tower) string {
	s := &t.Signatures
	key := "some"
	switch {
	case !t.InPackage:
		key = "nopackage"
	case len(s.Signed) == 0:
		key = "unsigned"
	case s.Broken() > 0:
		key = "broken"
	}
	return p.say("signed."+key, "signed", strconv.Itoa(len(s.Signed)), "fields", strconv.Itoa(s.Fields),
		"broken", strconv.Itoa(s.Broken()))
}

// signatories names who signed.
func (p *Print) signatories(s *Signatures) string {
	var all []string
	for _, one := range s.Signed {
		by, key := one.By, "signed.one"
		if by == "" {
			by = p.say("signed.nobody")
		}
		if !one.Intact {
			key = "signed.oneBroken"
		}
		all = append(all, p.say(key, "by", by, "level", one.Level))
	}
	return strings.Join(all, "; ")
}

func (p *Print) note(t *Tower) string {
	if len(t.Same) == 0 {
		return ""
	}
	return p.say("note.same", "files", strings.Join(t.Same, ", "))
}

// amount is a number in the unit of the register.
type amount struct {
	value    float64
	unit     string
	decimals int
}

// Bases of the units of [data.Amount].
const (
	nanometersInch = 25_400_000
	nanometersMM   = 1_000_000
	billion        = 1_000_000_000
	inchesFoot     = 12
)

// amount brings lengths and slopes to one unit, so that columns can be compared
// and sorted; anything else keeps its own.
func (p *Print) amount(a *data.Amount) amount {
	base := float64(a.Base)
	switch {
	case a.Unit == "in" || a.Unit == "mm":
		if p.Millimeters {
			return amount{base / nanometersMM, "mm", 2}
		}
		return amount{base / nanometersInch, "in", 3}
	case a.Unit == "m/m" && p.Millimeters:
		return amount{base / billion * 1000, "mm/m", 2}
	case a.Unit == "m/m":
		return amount{base / billion * inchesFoot, "in/ft", 4}
	}
	value, _ := strconv.ParseFloat(a.Value, 64) // a decimal of ours
	return amount{value, a.Unit, 3}
}

// text prints an amount with its sign and unit.
func (a amount) text() string {
	s := strconv.FormatFloat(a.value, 'f', a.decimals, 64)
	if a.value > 0 {
		s = "+" + s
	}
	return strings.TrimSpace(strings.Replace(s, "-", "−", 1) + " " + a.unit)
}
