package report

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"strings"

	"asleft/internal/compose"
	"asleft/internal/measure"
	"asleft/internal/register"
	"asleft/internal/workbook"
)

// Folder is a folder that is gone through with everything below it, and nothing
// that a link in it leads to elsewhere. Its name stands before the paths in it.
type Folder struct {
	Name string
	Root *os.Root
}

// Unread is a file that could not be read, or that nothing could be made of, and
// why; several causes are several lines.
type Unread struct{ Path, Text string }

// Many is how many towers are worked on.
type Many struct {
	Workers int // at the same time; 0 is one for each processor
	// Progress is told how many are done, from one goroutine at a time.
	Progress func(done, total int)
}

func roots(folders []Folder) []register.Root {
	var out []register.Root
	for _, f := range folders {
		out = append(out, register.Root{Name: f.Name, FS: f.Root.FS()})
	}
	return out
}

// Register is the register of many towers.
type Register struct{ r *register.Register }

// Gather makes the register of everything in the folders: packages, and the
// workbooks that lie in none of them, which are judged. A file that cannot be
// read stops nothing. The only error is that of the context.
func Gather(ctx context.Context, folders []Folder, m Many) (*Register, error) {
	r, err := register.Gather(ctx, roots(folders), register.Options{Judge: judge, Workers: m.Workers, Progress: m.Progress})
	return &Register{r}, err
}

// judge makes the data file of workbooks.
func judge(files []register.File) ([]byte, error) {
	j, err := OpenAll(sources(files, nil), Options{Unattached: true})
	if err != nil {
		return nil, told(err)
	}
	return compose.Data(j.input()) // a register shows no attachments
}

// sources are workbooks in their folder, nil where nothing is read from it.
func sources(files []register.File, folder fs.FS) []Source {
	var out []Source
	for _, f := range files {
		out = append(out, Source{Name: f.Name, Reader: bytes.NewReader(f.Bytes), Size: int64(len(f.Bytes)), Folder: folder})
	}
	return out
}

// told turns an error of opening into one that says everything that is wrong, a
// line each.
func told(err error) error {
	var faults *FaultError
	switch {
	case errors.Is(err, workbook.ErrNotForm):
		return register.ErrNoForm
	case !errors.As(err, &faults):
		return err
	}
	var lines []string
	for _, f := range faults.Faults {
		line := f.String()
		if faults.Several && f.File != "" && f.Sheet != "" {
			line = f.File + ": " + line
		}
		lines = append(lines, line)
	}
	return errors.New(strings.Join(lines, "\n"))
}

// Counts says what a register holds.
type Counts struct {
	Towers, Cells int
	Judged        int // towers worked out from their workbooks, the others read from packages
	Other         int // files that are neither a form nor a package
}

// Counts says what the register holds.
func (r *Register) Counts() Counts {
	return Counts{Towers: len(r.r.Towers), Cells: r.r.Cells(), Judged: r.r.Judged, Other: r.r.Other}
}

// Unread are the files that could not be read.
func (r *Register) Unread() []Unread { return unread(r.r.Faults) }

func unread(faults []register.Fault) []Unread {
	var out []Unread
	for _, f := range faults {
		out = append(out, Unread(f))
	}
	return out
}

// Formats of a register.
const (
	FormatXLSX = "xlsx" // cells, checks, towers, and what was not read
	FormatCSV  = "csv"  // the cells
	FormatJSON = "json" // everything, exact
)

// Print is how a register is written.
type Print struct {
	Format   string // "xlsx", "csv" or "json"
	Language string // BCP 47; blank is English
	Units    string // "in" or "mm"; blank is inches
	// Link turns a path into where a link leads from the register, with slashes.
	Link func(path string) string
}

// Write writes the register. The same files give the same bytes.
func (r *Register) Write(w io.Writer, p Print) error {
	words, err := language(p.Language)
	if err != nil {
		return err
	}
	units, err := unitOf(p.Units)
	if err != nil {
		return err
	}
	o := register.Print{Words: words, Millimeters: units == measure.UnitMillimeter, Link: p.Link}
	switch p.Format {
	case FormatXLSX:
		return r.r.WriteXLSX(w, o)
	case FormatCSV:
		return r.r.WriteCSV(w, o)
	case FormatJSON:
		return r.r.WriteJSON(w)
	}
	return &OptionError{"format", p.Format, strings.Join([]string{FormatXLSX, FormatCSV, FormatJSON}, ", ")}
}
