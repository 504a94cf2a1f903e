package templates

import "testing"

func TestSayFillsOnce(t *testing.T) {
	w := &Words{phrases: map[string]string{"k": "{a} and {b}, {c} {a} {"}}
	if got, want := w.Say("k", "a", "{b}", "b", "x", "z"), "{b} and x, {c} {b} {"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := w.Say("k"); got != "{a} and {b}, {c} {a} {" {
		t.Errorf("without pairs: %q", got)
	}
}
