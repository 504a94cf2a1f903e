package templates

import (
	"fmt"
	"sort"

	"github.com/BurntSushi/toml"
)

// StartingLimit is a limit that the form prefills, marked as not from the
// contract. Values are as people type them, with a unit; blank ones do not
// apply to the check's criterion.
type StartingLimit struct {
	Check                        string `toml:"-"`
	Min, Nominal, Max, Tolerance string
}

// StartingLimits reads the starting values, sorted by check key.
func StartingLimits() ([]StartingLimit, error) {
	text, err := files.ReadFile("limits.toml")
	if err != nil {
		return nil, err
	}
	var byCheck map[string]StartingLimit
	meta, err := toml.Decode(string(text), &byCheck)
	if err != nil {
		return nil, fmt.Errorf("limits.toml: %w", err)
	}
	if extra := meta.Undecoded(); len(extra) > 0 {
		return nil, fmt.Errorf("limits.toml: %s is not known", extra[0])
	}
	limits := make([]StartingLimit, 0, len(byCheck))
	for check, limit := range byCheck {
		limit.Check = check
		limits = append(limits, limit)
	}
	sort.Slice(limits, func(i, j int) bool { return limits[i].Check < limits[j].Check })
	return limits, nil
}
