package archive

import "strings"

// maxSeveral is how many values one element may show.
const maxSeveral = 8

// Several parts the identifier of an element that shows several values, as "7 of 8"
// does, into their paths, and tells what each of them shows: the whole numbers in
// the text, in order. Where there are not as many, each shows all of the text. With
// one path there is one value.
func Several(id, text string) (paths, texts []string) {
	paths = strings.Split(id, " ")
	texts = wholeNumbers(text)
	if len(paths) == 1 || len(texts) != len(paths) {
		texts = make([]string, len(paths))
		for i := range texts {
			texts[i] = text
		}
	}
	return paths, texts
}

func wholeNumbers(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return !digit(r) })
}

func digit(r rune) bool { return '0' <= r && r <= '9' }
