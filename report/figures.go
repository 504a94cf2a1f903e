package report

import (
	"fmt"

	"asleft/internal/compose"
	"asleft/internal/plot"
)

// File is a file to be written beside or instead of the package.
type File struct {
	Name  string // plain ASCII, no path
	Bytes []byte
}

// Figures are the figures of the package as SVG files, e.g.
// "cell-03-clearance.svg".
func (j *Job) Figures() ([]File, error) {
	figures, err := compose.Figures(j.input())
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrRefused, err)
	}
	fonts, err := plot.EmbeddedFonts()
	if err != nil {
		return nil, err
	}
	var files []File
	for _, f := range figures {
		svg, err := plot.SVG(f.Figure, fonts, f.Title, f.Alt)
		if err != nil {
			return nil, fmt.Errorf("%w: figure %s: %w", ErrRefused, f.Name, err)
		}
		files = append(files, File{f.Name + ".svg", svg})
	}
	return files, nil
}
