package data

import (
	"strconv"
	"strings"

	"asleft/internal/assess"
)

// Paths use a dot between keys. Keys are numbers or words; those of items may
// hold a dot themselves, which leads to no second meaning since nothing else
// stands beside them.

// CellID is the path of a cell.
func CellID(cell int) string { return join("cells", strconv.Itoa(cell)) }

// CheckID is the path of a check of a cell.
func CheckID(cell int, check string) string { return join(CellID(cell), "checks", check) }

// VerdictID is the path of a check's verdict.
func VerdictID(cell int, check string) string { return join(CheckID(cell, check), "verdict") }

// RoundID is the path of a round. Its verdict, margin, expected and found are
// reached with [Under].
func RoundID(cell int, check, round string) string {
	return join(CheckID(cell, check), "rounds", round)
}

// ResultID is the path of a result of a round by its name (see [ResultNames]).
func ResultID(cell int, check, round, name string) string {
	return join(RoundID(cell, check, round), "results", name)
}

// ResultNames are the names under which the results of a round stand: the key,
// and, from the second one of a key on, the key and the index, as in
// "longest-5" where two blades tie.
func ResultNames(results []assess.Result) []string {
	seen := map[string]bool{}
	names := make([]string, 0, len(results))
	for _, r := range results {
		name := r.Key
		if seen[name] {
			name += "-" + strconv.Itoa(r.Index)
		}
		seen[r.Key] = true
		names = append(names, name)
	}
	return names
}

// ReadingID is the path of a reading by position or blade number. What was
// typed is its member "read", what counts is "counted".
func ReadingID(cell int, check, round string, index int) string {
	return join(RoundID(cell, check, round), "readings", strconv.Itoa(index))
}

// ItemID is the path of an item of a round by its key.
func ItemID(cell int, check, round, item string) string {
	return join(RoundID(cell, check, round), "items", item)
}

// BlockID is the path of an entry typed once for a block of readings, e.g.
// BlockID(3, "tilt", "radius").
func BlockID(cell int, check, entry string) string {
	return join(CellID(cell), "blocks", check, entry)
}

// GeometryID is the path of an entry of the drive's geometry, e.g. "hubHeight".
func GeometryID(entry string) string { return join("geometry", entry) }

// FootID is the path of an entry of a foot of what is shimmed: "along", "across".
func FootID(foot int, entry string) string { return join("feet", strconv.Itoa(foot), entry) }

// StackID is the path of an entry of the shims under a foot: "now", "pieces".
func StackID(cell, foot int, entry string) string {
	return join(CellID(cell), "stacks", strconv.Itoa(foot), entry)
}

// FastenersID is the path of an entry of a set of fasteners by the key of its
// item, e.g. FastenersID(3, "gear.holddown", "final").
func FastenersID(cell int, item, entry string) string {
	return join(CellID(cell), "fasteners", item, entry)
}

// PinsID is the path of an entry of a set of pins by the key of its item.
func PinsID(cell int, item, entry string) string { return join(CellID(cell), "pins", item, entry) }

// PreStartID is the path of an entry of a line of the pre-start list: "done",
// "by", "date", "note".
func PreStartID(cell int, line, entry string) string {
	return join(CellID(cell), "preStart", line, entry)
}

// StartUpID is the path of an entry of a start-up by the key of its round, e.g.
// StartUpID(3, "run1", "volts12"). Points of vibration are counted from 1:
// "vibrationPoint-1", "vibrationAxis-1", "vibration-1", "vibrationDetector-1",
// "vibrationLimit-1".
func StartUpID(cell int, run, entry string) string {
	return join(CellID(cell), "startUps", run, entry)
}

// MoveID is the path of an entry of a row of the move log by its index. Shims at
// a foot are "was-1" and "now-1".
func MoveID(cell, index int, entry string) string {
	return join(CellID(cell), "moves", strconv.Itoa(index), entry)
}

// DueID is the path of the code of something due, by its index.
func DueID(cell, index int) string { return join(CellID(cell), "due", strconv.Itoa(index), "code") }

// LimitID is the path of a value of the limit row of a check: "min",
// "nominal", "max", "tolerance", "angleNominal", "angleTolerance", "slope",
// "quantityMin", "quantityNominal", "quantityMax", "quantityTolerance", "minCount".
func LimitID(check, entry string) string { return join("limits", check, entry) }

// Under is the path of a named member of what stands at the path.
func Under(path, name string) string { return join(path, name) }

// Again is the ID of a value that is printed a second time or later (n = 2, 3,
// …): IDs on pages are unique, and what stands after "~" is no part of the path.
func Again(path string, n int) string { return path + "~" + strconv.Itoa(n) }

func join(keys ...string) string { return strings.Join(keys, ".") }
