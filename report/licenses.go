package report

import "asleft/internal/licenses"

// License is the license of something that the program, or a package, is made
// of: by an identifier of the SPDX list, and in full.
type License struct{ Name, Version, License, Text string }

// Licenses lists the modules built into the program, and the typefaces and the
// color profile that are also in every package.
func Licenses() []License {
	var out []License
	for _, p := range append(licenses.Modules(), licenses.Embedded()...) {
		out = append(out, License(p))
	}
	return out
}
