package assess

// Rules is the rule set: data, parsed elsewhere and passed in, so that
// [Assess] stays a pure function of record and rules.
type Rules struct {
	Version string
	Hash    string // SHA-256 of the file the rules came from, hex
	Events  []Event
}

// Event is something that can happen to a cell, the checks it overtakes, and what
// it calls for.
type Event struct {
	Key       string   // e.g. "gear.shim"
	Overtakes []string // keys of checks and codes of fastener sets that need a re-check until read again
	Due       []string // "balance", "runout": jobs that no check of the form reads
}
