// Package data writes what a machine reads later: the data file (data.json),
// the tables of readings, of lines judged by
// themselves, of limits and of everything typed (CSV), and the manifest that names every
// file of a package with its hash.
//
// In comes an [Input]: the record, its assessment, and what was asked for. Out
// come bytes: [Encode] for the data file alone, [Make] for the whole set in the
// order source files, data file, tables, manifest. [Decode] reads a data file
// back, strictly.
//
// The data file follows the JSON Schema in asleft-1.schema.json ([Schema]).
// Every amount is an object of a decimal string, its unit, and the integer in base
// units that everything was decided on: nanometers, millionths of an arc second.
// Slopes and quantities are decided on exact fractions; where their integer is
// rounded, the fraction stands beside it. There is no floating-point number in it. Its
// members stand in a fixed order, so that equal input gives equal bytes. The
// schema only ever grows: a member keeps its name, place and meaning.
//
// Cells, checks, rounds, readings and results are objects keyed by their number
// or key, never arrays, so that a dotted path such as
// "cells.3.checks.tilt.rounds.asleft.results.range" names a value for good. The
// pages print these paths as the IDs of the values; the functions ending in ID
// make them, and [Document.Find] follows them.
//
// The package is the only one that knows JSON. It forms no words for people,
// reads no file and no clock, and decides nothing.
package data
