package compose

import (
	"slices"
	"strings"
	"testing"

	"asleft/internal/page"
	"asleft/templates"
)

// inSpanish is a package with what is printed in Spanish, safety beside English.
func inSpanish(t *testing.T, p plan) Input {
	t.Helper()
	w, err := templates.Language("es")
	if err != nil {
		t.Fatal(err)
	}
	in := inputOf(t, p)
	in.Words, in.Beside = w, w.Beside()
	return in
}

func TestSpanishFitsItsPages(t *testing.T) {
	for name, p := range map[string]plan{"whole job": wholePlan, "one cell": wholeGoodPlan} {
		t.Run(name, func(t *testing.T) { placed(t, inSpanish(t, p)) })
	}
}

// TestSafetyStandsBesideTheEnglish: every step of safety, in both, the English
// marked as such.
func TestSafetyStandsBesideTheEnglish(t *testing.T) {
	in := inSpanish(t, goodPlan)
	b, err := Package(in)
	if err != nil {
		t.Fatal(err)
	}
	var foreign []page.Block
	for _, s := range b.Sections {
		for _, block := range s.Blocks {
			c, ok := block.(page.Columns)
			if !ok || len(c.Blocks) != 2 || len(c.Blocks[1]) != 1 {
				continue
			}
			if f, ok := c.Blocks[1][0].(page.Foreign); ok && f.Lang == "en" {
				foreign = append(foreign, f)
			}
		}
	}
	english := printedIn(page.Book{Sections: []page.Section{{Blocks: foreign}}})
	all := printedIn(b)
	for _, key := range []string{"safety.first", "safety.1.title", "safety.2.4", "safety.4.1", "safety.10.1", "safety.11.2"} {
		if !holds(english, in.Beside.Say(key)) || !holds(all, in.Words.Say(key)) {
			t.Errorf("%s is not in both languages", key)
		}
	}
}

func holds(list []printed, text string) bool {
	return slices.ContainsFunc(list, func(p printed) bool { return strings.Contains(p.text, text) })
}
