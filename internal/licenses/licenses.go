// Package licenses holds what the program is made of besides its own code: the
// modules that are built into it, the typefaces and the color profile, each with
// its license. A test compares the list with the modules of the build.
package licenses

import (
	"embed"
	"strings"

	"asleft/fonts"
)

//go:embed list.tsv texts
var files embed.FS

// Part is something made by others.
type Part struct {
	Name    string
	Version string // blank where it has none
	License string // its identifier on the SPDX list
	Text    string // in full
}

// Modules are the libraries built into the program and the one that comes with
// the language, by path.
func Modules() []Part {
	list, err := files.ReadFile("list.tsv")
	if err != nil {
		return nil
	}
	var parts []Part
	for line := range strings.Lines(string(list)) {
		f := strings.Split(strings.TrimSuffix(line, "\n"), "\t")
		if len(f) != 3 {
			continue
		}
		text, err := files.ReadFile("texts/" + fileName(f[0]))
		if err != nil {
			continue
		}
		parts = append(parts, Part{f[0], f[1], f[2], string(text)})
	}
	return parts
}

// fileName is where the license of a module stands.
func fileName(module string) string {
	return strings.NewReplacer("/", "_", " ", "_").Replace(module) + ".txt"
}

// Embedded are the typefaces and the profile that are also in every package.
func Embedded() []Part {
	return []Part{
		{"IBM Plex Sans, Sans Condensed, Mono", "", "OFL-1.1", fonts.FontLicense},
		{"sRGB color profile", "", "Zlib", fonts.ProfileLicense},
	}
}
