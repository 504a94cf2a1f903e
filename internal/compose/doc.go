// Package compose says what stands on the pages: which pages there are, in
// which order, and in which words.
//
// In comes an [Input]: the record, its assessment, the phrases of a language
// and what was asked for. Out comes a [page.Book] that holds content only
// ([Package]), or the bytes of the finished file ([Write]):
//
//	record, assessment --data--> files, fingerprint --Package--> book --place, emit--> pages --finish--> file
//
// The package decides nothing: every verdict and every result comes from the
// assessment, and a state has the same word wherever it stands. It forms no
// phrase of its own: each comes from the language by its key, and a key that
// has no phrase is an error, as is a text of the workbook that cannot be
// printed. It knows no font, no coordinate, no clock and no file.
//
// Each value of the data file is printed once under its path (see
// [book.value]), so that a reader of the finished file can find any number
// again; other places repeat it without the path.
package compose
