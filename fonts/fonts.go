// Package fonts holds the typefaces and the color profile that go into every
// file, each as it came from its maker and with its license beside it. It
// knows nothing of pages.
package fonts

import _ "embed"

// Sans is for running text; SansCondensed is for tables and figures; Mono
// is for hashes, serial numbers and file names. All three have digits of equal
// width. Copyright and license (SIL Open Font License 1.1): OFL.txt.
var (
	//go:embed IBMPlexSans-Regular.ttf
	Sans []byte
	//go:embed IBMPlexSans-SemiBold.ttf
	SansSemiBold []byte
	//go:embed IBMPlexSansCondensed-Regular.ttf
	SansCondensed []byte
	//go:embed IBMPlexSansCondensed-SemiBold.ttf
	SansCondensedSemiBold []byte
	//go:embed IBMPlexMono-Regular.ttf
	Mono []byte
)

// SRGB is the color profile for output intents. License: sRGB-LICENSE.txt.
//
//go:embed sRGB.icc
var SRGB []byte

// Licenses are the texts that must travel with the fonts and the profile.
var (
	//go:embed OFL.txt
	FontLicense string
	//go:embed sRGB-LICENSE.txt
	ProfileLicense string
)
