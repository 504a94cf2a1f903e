package templates

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"
	"testing"
)

func TestRuleSet(t *testing.T) {
	rules, err := RuleSet()
	if err != nil {
		t.Fatal(err)
	}
	text, err := files.ReadFile("rules.toml")
	if err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(text)
	if rules.Version != "1" || rules.Hash != hex.EncodeToString(sum[:]) {
		t.Errorf("version %q, hash %q", rules.Version, rules.Hash)
	}
	i := slices.IndexFunc(rules.Events, func(e RuleEvent) bool { return e.Key == "cylinder.adjust" })
	if i < 0 || !slices.Equal(rules.Events[i].Overtakes, []string{"clearance", "clearanceall", "tilt", "cylinderplumb", "cylinderround"}) {
		t.Errorf("cylinder.adjust: %v", rules.Events)
	}
}

func TestParseRulesRefuses(t *testing.T) {
	const good = "version = \"1\"\n[[event]]\nkey = \"a\"\novertakes = [\"tilt\"]\n"
	if _, err := parseRules([]byte(good)); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"not toml":      good + "[[",
		"no version":    strings.TrimPrefix(good, "version = \"1\"\n"),
		"unknown entry": good + "undoes = [\"track\"]\n",
		"no key":        good + "[[event]]\novertakes = []\n",
		"key twice":     good + "[[event]]\nkey = \"a\"\n",
		"not a list":    "version = \"1\"\n[[event]]\nkey = \"a\"\novertakes = \"tilt\"\n",
	} {
		if rules, err := parseRules([]byte(text)); err == nil {
			t.Errorf("%s: read as %v", name, rules)
		}
	}
}
