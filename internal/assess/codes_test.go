package assess_test

import (
	"regexp"
	"slices"
	"testing"

	"asleft/internal/assess"
	"asleft/templates"
)

// TestCodesHaveWords: every code has words in every language, and the words
// have no place that the code does not fill.
func TestCodesHaveWords(t *testing.T) {
	place := regexp.MustCompile(`\{(\w+)\}`)
	for _, tag := range templates.Languages() {
		words, err := templates.Language(tag)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range assess.Codes() {
			if !words.Has(c.Key) {
				t.Errorf("%s: no words for %s", tag, c.Key)
				continue
			}
			var places []string
			for _, m := range place.FindAllStringSubmatch(words.Say(c.Key), -1) {
				places = append(places, m[1])
			}
			slices.Sort(places)
			want := slices.Sorted(slices.Values(c.Args))
			if !slices.Equal(slices.Compact(places), want) {
				t.Errorf("%s: %s has the places %v, arguments are %v", tag, c.Key, places, want)
			}
		}
	}
}

// TestWordsAreUsed: no note, question or reason has words that no code asks
// for.
func TestWordsAreUsed(t *testing.T) {
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, c := range assess.Codes() {
		if known[c.Key] {
			t.Errorf("%s is listed twice", c.Key)
		}
		known[c.Key] = true
	}
	ours := regexp.MustCompile(`^(note|question|reason|due)\.`)
	for _, key := range words.Keys() {
		if ours.MatchString(key) && !known[key] {
			t.Errorf("%s has words and no code", key)
		}
	}
}

// TestRulesNameChecks: the built-in rules overtake nothing but checks and sets
// of fasteners there are.
func TestRulesNameChecks(t *testing.T) {
	known := append(assess.AllChecks(), assess.Sets()...)
	for _, e := range ruleSet(t).Events {
		for _, key := range e.Overtakes {
			if !slices.Contains(known, key) {
				t.Errorf("%s overtakes %q", e.Key, key)
			}
		}
	}
}

// TestKeysHaveWords: checks, sets, rounds of runs, lines and lockings are
// printed by name.
func TestKeysHaveWords(t *testing.T) {
	words, err := templates.Language("en")
	if err != nil {
		t.Fatal(err)
	}
	for prefix, keys := range map[string][]string{
		"check.":    slices.Concat(assess.AllChecks(), assess.Sets(), []string{"dowel.gear", "dowel.motor", "dowel.support"}),
		"prestart.": assess.PreStartLines(), "locking.": assess.Lockings(),
		"round.": {"run1", "run2", "run3", "run4", "run5", "run6", "run7", "run8"},
	} {
		for _, key := range keys {
			if !words.Has(prefix + key) {
				t.Errorf("no words for %s%s", prefix, key)
			}
		}
	}
}
