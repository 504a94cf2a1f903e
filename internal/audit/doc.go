// Package audit recomputes a finished package from what is inside it and says
// where the two differ.
//
// In come the bytes of a file and a [Maker], which turns workbooks into a package
// the way the program does. Out comes a [Result]: how far the file could be
// followed ([Strength]), who stands behind it ([Origin]), and every difference as
// a [Finding], a code with arguments. The same bytes and options give the same
// result.
//
//	signatures  what was signed, when, how, and what came after
//	files       attached files against the manifest and the printed hashes
//	rebuild     workbooks -> package; equal bytes end the matter
//	questions   on the readings as a whole, from package screen
//	data        stated values against recomputed ones, by path
//	pages       printed values, texts, drawing, fonts, layers, against recomputed ones
//	previous    what changed since an earlier package
//
// A file made anew from other readings agrees with itself. Only a signature, an
// earlier package or a fingerprint kept elsewhere shows that, and the result says
// so every time ([NotProvedRemade]).
//
// The package decides nothing about the tower and forms no words. It reads no
// file, no clock and no network, takes bytes from anybody, and never panics; what
// it reads is bounded by the limits of the readers below it.
package audit
