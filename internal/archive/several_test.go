package archive

import (
	"slices"
	"testing"
)

func TestSeveral(t *testing.T) {
	for _, c := range []struct {
		id, text     string
		paths, texts []string
	}{
		{"a.found", "7 of 8", []string{"a.found"}, []string{"7 of 8"}},
		{"a.found a.expected", "7 of 8", []string{"a.found", "a.expected"}, []string{"7", "8"}},
		{"a.found a.expected", "12\u00a0de\u00a016", []string{"a.found", "a.expected"}, []string{"12", "16"}},
		{"a.found a.expected", "7 of", []string{"a.found", "a.expected"}, []string{"7 of", "7 of"}},
		{"a.found a.expected", "7 of 8 of 9", []string{"a.found", "a.expected"}, []string{"7 of 8 of 9", "7 of 8 of 9"}},
		{"a.found a.expected", "", []string{"a.found", "a.expected"}, []string{"", ""}},
	} {
		paths, texts := Several(c.id, c.text)
		if !slices.Equal(paths, c.paths) || !slices.Equal(texts, c.texts) {
			t.Errorf("%q %q: %q %q", c.id, c.text, paths, texts)
		}
	}
}
