// Package workbook writes the blank field form as a spreadsheet and reads
// filled forms back into a field record.
//
// One declarative layout (layout.go, tower.go, fan.go) says which blocks the
// form has, what each of their cells holds and which entry of the record it
// fills. The writer ([WriteForm]), the list of defined names ([Names]), the
// guide sheet and the reader ([Read]) all follow from it: a new block is a few
// lines of data there.
//
// A form has sheets for the tower, and three for each cell: one for the fan, one
// for the drive line and start-up, one for what was moved and bolted; each has
// columns that its boxes need, so that few are merged. What is the same in
// every cell, such as the fastener schedule, is typed once and given to each of
// them (aside.go). Several workbooks of one tower are united (merge.go); where
// two of them differ, that is a fault.
//
// The reader finds every block by its defined name, matches values to the
// labels beside them, and reports everything it cannot read as intended with
// sheet and cell. It never guesses: a date in a reading, a bare number among
// readings in another unit or a value beside no label is a fault, not a value.
//
// Writing uses a spreadsheet library. Reading does not: it takes the parts of
// the file apart with a small scanner that keeps only cells with contents and
// stops at named limits, because the library's cell access can be made to take
// gigabytes by a file of a few kilobytes.
//
// The package refuses to know limits beyond those typed, verdicts, the clock
// and the file system.
package workbook
