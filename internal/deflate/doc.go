// Package deflate packs bytes into a zlib stream (RFC 1950, RFC 1951) that is
// smaller than a stream packer can make it. In come bytes that are there whole, out
// goes the stream.
//
// A package holds long lists of short, numbered objects. A packer that takes the
// longest match it sees spends more on such lists than needed: a digit written
// out is often cheaper than a short match far back. This one weighs every way
// through a stretch of the input against what the codes cost, and takes the
// cheapest. Measured on the object streams of the demonstration, that saves a
// quarter against the best level of the libraries.
//
// The output depends on the input alone: integers only, no table of the platform.
// The package knows nothing of PDF.
package deflate
