// Package sign puts digital signatures into the empty fields of finished files,
// and verifies signatures.
//
// In comes a finished file, an [Identity] (key and certificates) and a [Request]
// that says in words what is signed; [Apply] appends one revision with the
// signature and leaves every earlier byte as it was. Out goes the file and what
// [Verify] finds in it: the level reached, never the one wished for. Verify takes
// any such file, also one signed by another program, and never panics.
//
// Signatures follow ETSI EN 319 142-1 (PAdES), level B-B, or with a time-stamp of
// RFC 3161 level B-T. RSA with 2048 bits or more and ECDSA on P-256 or P-384 are
// used; SHA-1 never is, and is reported as weak where it is found.
//
// The package does not know what the file says, whether it is ready to be
// signed, nor any words: all text of the appearance comes in. It reads no clock
// (the time of signing comes in) and no file; the only network it uses is the
// time-stamp [Service] it is given. A digital signature is not the stamp of a
// licensed engineer, and the package does not make it look like one.
package sign
