// Package register makes one register of many towers.
//
// In come folders with field workbooks and packages, and a [Judge] that turns
// workbooks into a data file. Out comes a [Register]: every cell of every tower
// with the verdict and margin of each check, the signatures of its package, and
// what could not be read; written as a workbook, CSV or JSON. [Register.Summary]
// says what fails most, by how much, and how often a check is right the first
// time.
//
// A workbook that lies inside a package is not judged again: the package says
// it, and its fingerprint says what it stands on. So nothing is kept between two
// runs.
//
// The package refuses to know how a verdict comes about, what pages look like,
// and where folders lie: it is given file systems, and what it makes is bytes.
package register
