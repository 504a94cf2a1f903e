// Package page sets a document on paper.
//
// In comes a [Book]: headings, paragraphs, tables, figures, tiles and signature
// blocks, said as what they are. [Place] finds where everything lands: a pure
// function of the book and of the [Metrics] of the embedded faces, in whole
// thousandths of a point, so that what fits does so on every machine. What it
// returns prints as text ([Placed.Dump]) and counts its table rows. [Emit] draws
// a placed book, once, and tells beside the drawn file what each marked run of
// content is; [Write] does all of it and hands the result to the finishing pass
// of package archive:
//
//	out, err := page.Write(book)
//
// # Breaking pages
//
// A section is set in strips that are never cut: a line, a table row, a figure.
// A strip may hold on to the next one, by a bond of some strength; a group that
// is higher than a page gives way at its weakest bonds first. That alone makes
// all rules: two lines or rows stay together at the foot and at the head of a
// page, a heading stays with two lines or rows of what follows it, panels stay
// whole if they can, and a printed value always does. Only a table row higher
// than a page is set line by line over pages. Nothing vanishes: what cannot be
// placed is an error.
//
// # What is drawn
//
// Grounds, rules, running heads and feet, the draft mark and repeated table
// heads are artifacts. All else is in the structure tree in reading order. A run
// with an ID is one marked run in an element of its own, so that a value can be
// read back from the page by its ID.
//
// The package knows no reading, no limit and no verdict, makes no words, reads
// no clock and no file. It is the only one that knows fpdf.
package page
