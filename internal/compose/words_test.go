package compose

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"

	"asleft/internal/archive"
	"asleft/internal/assess"
	"asleft/internal/licenses"
	"asleft/internal/page"
	"asleft/templates"
)

// pseudo is a language made from another: every phrase is longer, accented and
// in brackets, so that a text from elsewhere shows.
type pseudo struct{ Words }

const (
	phraseOpen  = "«"
	phraseClose = "»"
)

func (p pseudo) Say(key string, pairs ...string) string {
	return phraseOpen + accented.Replace(p.Words.Say(key, pairs...)) + strings.Repeat("é", 3) + phraseClose
}

var accented = strings.NewReplacer("a", "á", "o", "ö", "u", "ü")

// wordless are the words that may stand outside phrases: units, and names that
// are the same in every language.
var wordless = []string{"in", "mm", "ft", "m", "k", "asleft", "json", "csv", "data", "readings", "items", "limits", "entries", "manifest", "en",
	"jpg", "previous", "lbf", "kN", "V", "A", "MΩ", "F", "r", "min", "h", "s", "rms"}

func TestEveryWordComesFromTheLanguage(t *testing.T) {
	for profile, p := range map[archive.Profile]plan{archive.PDFA3A: wholePlan, archive.PDFA2A: demoPlan} {
		in := inputOf(t, p)
		in.Options.Profile = profile
		attach(t, &in)
		before, err := Data(inputOf(t, goodPlan))
		if err != nil {
			t.Fatal(err)
		}
		if in.Previous, err = NewPrevious(before, nil); err != nil {
			t.Fatal(err)
		}
		english, err := Package(in)
		if err != nil {
			t.Fatal(err)
		}
		if len(printedIn(english)) < 1000 {
			t.Fatalf("only %d texts found", len(printedIn(english)))
		}
		known := knownWords(in)
		in.Words = pseudo{in.Words}
		b, err := Package(in)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range printedIn(b) {
			if profile == archive.PDFA2A && strings.Contains(p.text, `"`) {
				continue // a line of the manifest
			}
			if p.text == licensed(licenses.Modules()) || p.text == licensed(licenses.Embedded()) {
				continue // names of libraries, typefaces and licenses
			}
			if w := strange(outsidePhrases(t, strings.ReplaceAll(p.text, page.Topic, "")), known); w != "" {
				t.Errorf("%s: %q holds %q, which no phrase says", p.where, p.text, w)
			}
		}
	}
}

// outsidePhrases is what stands outside all brackets.
func outsidePhrases(t *testing.T, s string) string {
	t.Helper()
	var out strings.Builder
	depth := 0
	for _, r := range s {
		switch {
		case string(r) == phraseOpen:
			depth++
		case string(r) == phraseClose:
			depth--
		case depth == 0:
			out.WriteRune(r)
		}
	}
	if depth != 0 {
		t.Errorf("%q: a phrase was cut", s)
	}
	return out.String()
}

// strange is the first word that is neither of the workbook nor wordless.
func strange(s string, known map[string]bool) string {
	for _, w := range splitWords(s) {
		if !known[w] {
			return w
		}
	}
	return ""
}

func splitWords(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) })
}

// knownWords are the words of the record and of hashes.
func knownWords(in Input) map[string]bool {
	var texts []printed
	walk(reflect.ValueOf(in.Record), "record", &texts)
	walk(reflect.ValueOf(in.Record.Files), "files", &texts)
	texts = append(texts, printed{"", in.Record.Project.Paper.Value}) // names and papers are fields of the record, too
	for _, c := range in.Record.Cells {
		texts = append(texts, printed{"", c.Name.Value})
		for _, f := range c.Fasteners {
			texts = append(texts, printed{"", f.Name.Value})
		}
	}
	out := map[string]bool{}
	for _, p := range texts {
		for _, w := range splitWords(p.text) {
			out[w] = true
		}
	}
	for _, w := range wordless {
		out[w] = true
	}
	for _, f := range in.Record.Files {
		for _, w := range splitWords(f.Name) {
			out[w] = true
		}
	}
	for _, a := range in.Record.Attachments { // hashes are printed in halves, too
		hash := a.Stored.Original
		for _, w := range splitWords(a.File.Value + " " + hash + " " + hash[:len(hash)/2] + " " + hash[len(hash)/2:]) {
			out[w] = true
		}
	}
	for _, p := range in.Record.People {
		for _, w := range splitWords(p.Name.Value) {
			out[w] = true
		}
	}
	m, err := makeFiles(&in)
	if err != nil {
		panic(err)
	}
	for _, w := range splitWords(in.Rules.Hash + " " + m.fingerprint) {
		out[w] = true
	}
	for _, p := range m.parts {
		for _, w := range splitWords(p.SHA256()) {
			out[w] = true
		}
	}
	return out
}

// TestEveryCodeHasWords goes through all that can be said but need not come up
// in a test tower.
func TestEveryCodeHasWords(t *testing.T) {
	w, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	need := map[string][]string{
		"drivetype": {"rightangle", "direct", "closecoupled", "belt", "twopiece", "horizontal"},
		"verdict":   {"within", "near", "outside", "recheck", "missing", "nolimit", "notrequired", "byothers"},
		"meaning":   {"within", "near", "outside", "recheck", "missing", "nolimit", "notrequired", "byothers"},
		"state":     {"ready", "notready"},
		"signoff":   {"ready", "notready"},
		"round":     {"asfound", "second", "third", "asleft"},
		"authority": {"contract", "manual", "standard", "start"},
		"surface":   {"dry", "wet", "ice"}, "water": {"on", "off"}, "gear": {"hot", "cold"},
		"rotation": {"cw", "ccw"}, "class": {"calibrated", "checked"}, "status": {"open", "closed"},
		"limits.rule": {"simple", "guarded"},
		"check":       slices.Concat(assess.AllChecks(), assess.Sets(), []string{"dowel.gear", "dowel.motor", "dowel.support"}),
		"criterion":   assess.AllChecks(), "short": assess.AllChecks(),
		"reading": assess.AllChecks(), "method.judged": assess.AllChecks(),
		"limits.criterion": {assess.CriterionRange, assess.CriterionPlane, assess.CriterionTotal},
		"locking":          assess.Lockings(), "lubricant": assess.Lubricants(), "prestart": assess.PreStartLines(),
		"lockingtime": {"before", "after"}, "material": {"steel", "galvanized", "stainless"}, "pins.at": {"gear", "motor", "support"},
		"winding": {"random", "form", "old"}, "axis.direction": {"h", "v", "a"}, "detector": {"rms", "peak"},
		"how.stood": {"motor", "gear"}, "items": assess.OnceChecks(),
	}
	rules, err := templates.RuleSet()
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range rules.Events {
		need["event"] = append(need["event"], e.Key)
	}
	for kind, codes := range need {
		for _, c := range codes {
			if key := kind + "." + c; !w.Has(key) {
				t.Errorf("no words for %s", key)
			}
		}
	}
	for _, c := range assess.Codes() {
		if !w.Has(c.Key) {
			t.Errorf("no words for %s", c.Key)
		}
		for _, place := range places(w.Say(c.Key)) {
			if !slices.Contains(c.Args, place) {
				t.Errorf("%s has no argument {%s}", c.Key, place)
			}
		}
	}
}

// places are the names in braces of a phrase.
func places(phrase string) []string {
	var out []string
	for {
		_, rest, ok := strings.Cut(phrase, "{")
		if !ok {
			return out
		}
		name, rest, _ := strings.Cut(rest, "}")
		out, phrase = append(out, name), rest
	}
}

// mute has no words for one key.
type mute struct {
	Words
	key string
}

func (m mute) Has(key string) bool { return key != m.key && m.Words.Has(key) }

func TestPhraseThatIsMissingIsAnError(t *testing.T) {
	in := inputOf(t, demoPlan)
	in.Words = mute{in.Words, "method.event"}
	if _, err := Package(in); err == nil || !strings.Contains(err.Error(), `no words for "method.event"`) {
		t.Fatalf("got %v", err)
	}
}
