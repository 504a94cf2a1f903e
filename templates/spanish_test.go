package templates

import (
	"slices"
	"strings"
	"testing"
)

// inEnglish are the parts that other languages may leave in English: what the
// program says on the terminal, and what only those read who check a package.
var inEnglish = []string{"cli.", "audit.", "screen.", "form.", "choice.", "expected.", "fault.", "motorstacks."}

func mayBeEnglish(key string) bool {
	return slices.ContainsFunc(inEnglish, func(part string) bool { return strings.HasPrefix(key, part) })
}

// TestEveryLanguageIsComplete: each has every phrase of English, with the same
// places to be filled in, and none that English has not.
func TestEveryLanguageIsComplete(t *testing.T) {
	en, err := read(english)
	if err != nil {
		t.Fatal(err)
	}
	for _, tag := range Languages() {
		w, err := read(tag)
		if err != nil {
			t.Fatal(err)
		}
		for _, key := range en.Keys() {
			switch {
			case !w.Has(key) && !mayBeEnglish(key):
				t.Errorf("%s: no words for %s", tag, key)
			case w.Has(key) && !slices.Equal(places(w.Say(key)), places(en.Say(key))):
				t.Errorf("%s: %s has places %v, in English %v", tag, key, places(w.Say(key)), places(en.Say(key)))
			}
		}
		for _, key := range w.Keys() {
			if !en.Has(key) {
				t.Errorf("%s: %s is not in English", tag, key)
			}
		}
	}
}

// places are the names in braces of a phrase, each once, sorted.
func places(phrase string) []string {
	var out []string
	for {
		_, rest, ok := strings.Cut(phrase, "{")
		if !ok {
			slices.Sort(out)
			return slices.Compact(out)
		}
		name, rest, _ := strings.Cut(rest, "}")
		out, phrase = append(out, name), rest
	}
}

func TestUnreviewedSafetyHasEnglishBeside(t *testing.T) {
	for tag, want := range map[string]bool{"en": false, "es": true} {
		w, err := Language(tag)
		if err != nil {
			t.Fatal(err)
		}
		if got := w.Beside() != nil; got != want {
			t.Errorf("%s: English beside: %v", tag, got)
		}
	}
}
