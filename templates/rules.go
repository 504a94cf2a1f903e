package templates

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"github.com/BurntSushi/toml"
)

// Rules is the rule set as plain values.
type Rules struct {
	Version string
	Hash    string // SHA-256 of the file, hex
	Events  []RuleEvent
}

// RuleEvent is an event of the move log, the keys of the checks it overtakes, in
// the order of the file, and what it calls for that no check reads.
type RuleEvent struct {
	Key       string
	Overtakes []string
	Due       []string
}

// RuleSet reads the built-in rule set.
func RuleSet() (Rules, error) {
	const name = "rules.toml"
	text, err := files.ReadFile(name)
	if err != nil {
		return Rules{}, err
	}
	rules, err := parseRules(text)
	if err != nil {
		return Rules{}, fmt.Errorf("%s: %w", name, err)
	}
	return rules, nil
}

// parseRules refuses a rule set that could be misread: unknown entries, no
// version, an event without a key or with a key that stands twice.
func parseRules(text []byte) (Rules, error) {
	var file struct {
		Version string
		Event   []struct {
			Key       string
			Overtakes []string
			Due       []string
		}
	}
	meta, err := toml.Decode(string(text), &file)
	if err != nil {
		return Rules{}, err
	}
	if extra := meta.Undecoded(); len(extra) > 0 {
		return Rules{}, fmt.Errorf("unknown entry %s", extra[0])
	}
	if file.Version == "" {
		return Rules{}, fmt.Errorf("no version")
	}
	sum := sha256.Sum256(text)
	rules := Rules{Version: file.Version, Hash: hex.EncodeToString(sum[:])}
	seen := map[string]bool{}
	for i, e := range file.Event {
		if e.Key == "" || seen[e.Key] {
			return Rules{}, fmt.Errorf("event %d: key %q is blank or stands twice", i+1, e.Key)
		}
		seen[e.Key] = true
		rules.Events = append(rules.Events, RuleEvent{e.Key, e.Overtakes, e.Due})
	}
	return rules, nil
}
