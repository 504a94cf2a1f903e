// Package templates holds what people may want to word or set differently
// without touching code: the words of every page in each language, the rule
// set that says what overtakes what, the starting values of limits. It parses
// and hands out; it knows nothing of readings, verdicts or pages.
package templates

import (
	"embed"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"sort"
	"strings"

	"github.com/BurntSushi/toml"
)

//go:embed words rules.toml limits.toml
var files embed.FS

// Words is one language: phrases by dotted key.
type Words struct {
	tag     string
	phrases map[string]string
	english *Words // nil in English itself
	// borrowed are the keys that are said in English.
	borrowed map[string]bool
}

// english is the language that has every phrase.
const english = "en"

// reviewed are the languages whose safety wording a native tradesman has read.
var reviewed = []string{english}

// Languages lists the tags there are words for.
func Languages() []string {
	dirs, err := fs.ReadDir(files, "words")
	if err != nil {
		return nil
	}
	var tags []string
	for _, d := range dirs {
		tags = append(tags, d.Name())
	}
	return tags
}

// Language reads the words of a language. What it has no phrase for it says in
// English: a test tells which parts may be so.
func Language(tag string) (*Words, error) {
	w, err := read(tag)
	if err != nil || tag == english {
		return w, err
	}
	if w.english, err = read(english); err != nil {
		return nil, err
	}
	for key, phrase := range w.english.phrases {
		if _, own := w.phrases[key]; !own {
			w.phrases[key] = phrase
			w.borrowed[key] = true
		}
	}
	return w, nil
}

// read reads all files words/TAG/*.toml, their tables flattened to dotted keys. A
// key that stands twice is an error.
func read(tag string) (*Words, error) {
	names, err := fs.Glob(files, path.Join("words", tag, "*.toml"))
	if err != nil || len(names) == 0 {
		return nil, fmt.Errorf("no words for language %q", tag)
	}
	w := &Words{tag: tag, phrases: map[string]string{}, borrowed: map[string]bool{}}
	for _, name := range names {
		if err := w.load(name); err != nil {
			return nil, err
		}
	}
	return w, nil
}

func (w *Words) load(name string) error {
	text, err := files.ReadFile(name)
	if err != nil {
		return err
	}
	var tree map[string]any
	if err := toml.Unmarshal(text, &tree); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return w.flatten(name, "", tree)
}

func (w *Words) flatten(name, prefix string, tree map[string]any) error {
	for key, v := range tree {
		full := prefix + key
		switch v := v.(type) {
		case map[string]any:
			if err := w.flatten(name, full+".", v); err != nil {
				return err
			}
		case string:
			if _, twice := w.phrases[full]; twice {
				return fmt.Errorf("%s: %s stands twice", name, full)
			}
			w.phrases[full] = v
		default:
			return fmt.Errorf("%s: %s is not a phrase", name, full)
		}
	}
	return nil
}

// Tag is the language's BCP 47 tag.
func (w *Words) Tag() string { return w.tag }

// Has tells whether there is a phrase for the key.
func (w *Words) Has(key string) bool {
	_, ok := w.phrases[key]
	return ok
}

// Owns tells whether the language has a phrase of its own for the key.
func (w *Words) Owns(key string) bool { return w.Has(key) && !w.borrowed[key] }

// Beside gives the English words that safety wording is printed with as well,
// nil where a native tradesman has reviewed that of the language.
func (w *Words) Beside() *Words {
	if slices.Contains(reviewed, w.tag) {
		return nil
	}
	return w.english
}

// Keys lists all keys, sorted.
func (w *Words) Keys() []string {
	keys := make([]string, 0, len(w.phrases))
	for k := range w.phrases {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

// Say returns the phrase of the key with its {name} places filled from pairs
// of name and value. A missing phrase comes back as "[key]", which no test of
// a page lets through.
func (w *Words) Say(key string, pairs ...string) string {
	phrase, ok := w.phrases[key]
	if !ok {
		return "[" + key + "]"
	}
	return fill(phrase, pairs)
}

// fill puts values in the places of a phrase, in one pass: what a value holds
// is not filled again. A place that no pair names stays as it is.
func fill(phrase string, pairs []string) string {
	next := strings.IndexByte(phrase, '{')
	if len(pairs) == 0 || next < 0 {
		return phrase
	}
	var out strings.Builder
	for ; next >= 0; next = strings.IndexByte(phrase, '{') {
		out.WriteString(phrase[:next])
		phrase = phrase[next:]
		end := strings.IndexByte(phrase, '}') + 1
		value, known := named(pairs, phrase[1:max(end-1, 1)])
		if !known {
			value, end = "{", 1
		}
		out.WriteString(value)
		phrase = phrase[end:]
	}
	out.WriteString(phrase)
	return out.String()
}

// named finds the value that follows a name.
func named(pairs []string, name string) (string, bool) {
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i] == name {
			return pairs[i+1], true
		}
	}
	return "", false
}
