package register

import (
	"encoding/json"
	"io"

	"asleft/internal/data"
)

// SchemaName stands first in the register as JSON. Like the data file it only
// ever grows.
const SchemaName = "asleft-register/1"

// The register as JSON: keys as in the data file, amounts exact.
type (
	jsonRegister struct {
		Schema string      `json:"schema"`
		Towers []jsonTower `json:"towers"`
		Checks []jsonLine  `json:"checks"` // what fails most first
		Faults []jsonFault `json:"notRead"`
	}
	jsonTower struct {
		Path        string          `json:"path"`
		Package     bool            `json:"package"`
		Workbooks   []string        `json:"workbooks"`
		Fingerprint string          `json:"fingerprint,omitempty"`
		Program     string          `json:"program"`
		Plant       string          `json:"plant"`
		Tag         string          `json:"tag"`
		Document    string          `json:"document"`
		Revision    string          `json:"revision"`
		Issued      string          `json:"issued"`
		State       string          `json:"state"`
		Reasons     int             `json:"reasons"`
		Fields      int             `json:"signatureFields"`
		Signatures  []jsonSignature `json:"signatures"`
		Same        []string        `json:"sameAs,omitempty"`
		Cells       []jsonCell      `json:"cells"`
	}
	jsonSignature struct {
		Field  string `json:"field"`
		By     string `json:"by"`
		Level  string `json:"level,omitempty"`
		Intact bool   `json:"intact"`
	}
	jsonCell struct {
		Number    int         `json:"number"`
		Name      string      `json:"name"`
		State     string      `json:"state"`
		Milestone string      `json:"milestone,omitempty"`
		Reasons   int         `json:"reasons"`
		Checks    []jsonCheck `json:"checks"`
	}
	jsonCheck struct {
		Check    string       `json:"check"`
		Verdict  string       `json:"verdict"`
		Accepted bool         `json:"accepted,omitempty"`
		First    string       `json:"first,omitempty"`
		Margin   *data.Amount `json:"margin,omitempty"`
	}
	jsonLine struct {
		Check     string       `json:"check"`
		Judged    int          `json:"judged"`
		Within    int          `json:"within"`
		Near      int          `json:"near"`
		Outside   int          `json:"outside"`
		Accepted  int          `json:"accepted"`
		Recheck   int          `json:"recheck"`
		Missing   int          `json:"missing"`
		NoLimit   int          `json:"noLimit"`
		Exempt    int          `json:"exempt"`
		First     int          `json:"rightFirst"`
		FirstOf   int          `json:"firstJudged"`
		Worst     *data.Amount `json:"worst,omitempty"` // margin, negative
		Median    *data.Amount `json:"median,omitempty"`
		WorstPath string       `json:"worstPath,omitempty"`
		WorstCell int          `json:"worstCell,omitempty"`
	}
	jsonFault struct {
		Path string `json:"path"`
		Text string `json:"text"`
	}
)

// WriteJSON writes the whole register, one member a line.
func (r *Register) WriteJSON(w io.Writer) error {
	out := jsonRegister{Schema: SchemaName, Towers: []jsonTower{}, Checks: []jsonLine{}, Faults: []jsonFault{}}
	for i := range r.Towers {
		out.Towers = append(out.Towers, encodeTower(&r.Towers[i]))
	}
	for _, l := range r.Summary() {
		out.Checks = append(out.Checks, encodeLine(&l))
	}
	for _, f := range r.Faults {
		out.Faults = append(out.Faults, jsonFault(f))
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(out)
}

func encodeTower(t *Tower) jsonTower {
	o := jsonTower{Path: t.Path, Package: t.InPackage, Workbooks: append([]string{}, t.Workbooks...), Fingerprint: t.Fingerprint,
		Program: t.Program, Plant: t.Plant, Tag: t.Tag, Document: t.Document, Revision: t.Revision, Issued: t.Issued,
		State: t.State, Reasons: t.Reasons, Fields: t.Signatures.Fields, Signatures: []jsonSignature{}, Same: t.Same, Cells: []jsonCell{}}
	for _, s := range t.Signatures.Signed {
		o.Signatures = append(o.Signatures, jsonSignature(s))
	}
	for _, c := range t.Cells {
		cell := jsonCell{c.Number, c.Name, c.State, c.Milestone, c.Reasons, []jsonCheck{}}
		for _, k := range c.Checks {
			cell.Checks = append(cell.Checks, jsonCheck{k.Key, k.Verdict, k.Accepted, k.First, k.Margin})
		}
		o.Cells = append(o.Cells, cell)
	}
	return o
}

func encodeLine(l *Line) jsonLine {
	o := jsonLine{Check: l.Check, Judged: l.Judged(), Within: l.Within, Near: l.Near, Outside: l.Outside, Accepted: l.Accepted,
		Recheck: l.Recheck, Missing: l.Missing, NoLimit: l.NoLimit, Exempt: l.Exempt, First: l.First, FirstOf: l.FirstOf,
		Worst: l.Worst, Median: l.Median, WorstCell: l.WorstCell}
	if l.WorstAt != nil {
		o.WorstPath = l.WorstAt.Path
	}
	return o
}
