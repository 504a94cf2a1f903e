package screen_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"asleft/internal/screen"
	"asleft/templates"
)

var place = regexp.MustCompile(`{([a-z]+)}`)

func TestEveryQuestionHasNeutralWords(t *testing.T) {
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, c := range screen.Codes() {
		for _, kind := range []string{"question", "rule"} {
			key := "screen." + kind + "." + c.Code
			known[key] = true
			if !words.Has(key) {
				t.Errorf("no words for %s", key)
			}
			for _, m := range place.FindAllStringSubmatch(words.Say(key), -1) {
				if !slices.Contains(c.Args, m[1]) {
					t.Errorf("%s has no argument {%s}", key, m[1])
				}
			}
		}
	}
	for _, key := range words.Keys() {
		rest, ours := strings.CutPrefix(key, "screen.")
		if ours && strings.Contains(rest, ".") && !known[key] {
			t.Errorf("nobody asks %s", key)
		}
		for _, harsh := range []string{"fak", "fraud", "cheat", "false", "forg", "invent", "copied", "suspic", "dishonest"} {
			if ours && strings.Contains(strings.ToLower(words.Say(key)), harsh) {
				t.Errorf("%s says %q", key, harsh)
			}
		}
	}
}
