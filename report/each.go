package report

import (
	"fmt"
	"strings"
)

// CellJob is the part of a job that is about one cell: a package of its own,
// with its own state and fingerprint.
type CellJob struct {
	*Job
	Cell int
	Name string // of a file, without ending, e.g. "cell-03" or "cell-03-CT-1C"
}

// Each gives a job for every cell of the package. What holds for the whole tower,
// such as limits and instruments, is in each of them.
func (j *Job) Each() []CellJob {
	var out []CellJob
	for i := range j.assessment.Cells {
		c := &j.assessment.Cells[i]
		if !c.InPackage {
			continue
		}
		one := *j
		one.cell = c.Number
		one.record.Attachments = attachedTo(j.record.Attachments, c.Number)
		one.judge()
		out = append(out, CellJob{&one, c.Number, j.fileName(c.Number)})
	}
	return out
}

// fileName names a cell's file by its number and, where the owner has a tag for
// it, that.
func (j *Job) fileName(cell int) string {
	name := fmt.Sprintf("cell-%02d", cell)
	for _, c := range j.record.Cells {
		if tag := plainName(c.Name.Value); c.Number == cell && tag != "" && tag != fmt.Sprint(cell) {
			name += "-" + tag
		}
	}
	return name
}

// maxTag is how much of a tag a file name takes.
const maxTag = 40

// plainName keeps of a text what every system takes in a file name.
func plainName(text string) string {
	name := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		case r == ' ', r == '/', r == '.':
			return '-'
		}
		return -1
	}, text)
	return strings.Trim(name[:min(len(name), maxTag)], "-")
}
