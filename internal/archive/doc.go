// Package archive turns the plain output of the page writer into a file for
// the archive, and reads such files back.
//
// In comes a PDF as the page writer below leaves it, its marked runs numbered
// but without meaning, and a [Document] that says what each run is, what can be
// clicked, what is attached and who made it. [Finish] checks the one against
// the other and writes a new file of one revision that is PDF/A-3 level A (or
// PDF/A-2 level A) and PDF/UA-1: same input, same bytes. It refuses with all
// [Violation] values at once whatever it did not expect.
//
// [Open] reads our own files and signed revisions of them, and nothing else:
// strictly, within named limits, and without ever panicking. [Inspect] counts
// and checks a finished file from its bytes alone.
//
// The package does not know what a page says, how it is laid out, or what a
// signature is. It reads no clock, no file and no font of its own: the color
// profile and every date come with the [Document].
package archive
