// Package enclosure takes the pictures, certificates and manuals that a
// workbook names, and makes of them what goes into the package.
//
// In come the rows of the attachments sheet and the folders in which the
// workbooks lie, each a file system that leads nowhere else ([Load]). Out come
// the files of the package ([File]), the rows filled in with what was stored,
// and a fault with its cell for every file that is not there, leads out of the
// folder, is damaged, or is too large.
//
// A picture becomes a JPEG of plain RGB: turned as its camera says, scaled down
// to [MaxSide], transparent parts white, and nothing but pixels in it, no place,
// no owner, no camera. The hash of the original stays with it. Scaling counts in
// whole numbers, so that every machine makes the same bytes. A PDF goes in as it
// is, once it is seen to open without a password and to have pages.
//
// [Restore] is the way back: from the files of a finished package, without the
// originals, to the same rows and bytes.
//
// The package makes no words, draws nothing and knows no verdict.
package enclosure
