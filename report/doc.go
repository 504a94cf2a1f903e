// Package report is the whole product as a library: a field workbook goes in,
// and verdicts, the data file, figures and the turnover package come out.
//
// For most uses call [Open] and then one of the Job's methods:
//
//	job, err := report.Open(file, size, "tower.xlsx", report.Options{})
//	rows := job.Rows()       // verdicts, as a table
//	err = job.WritePDF(w)    // the package
//
// [WriteForm] makes the blank workbook that Open reads.
//
// A workbook with anything in it that cannot be read as intended gives a
// [FaultError] that lists every such cell; nothing else can be done with it
// until it is mended. Results come as flat rows of printed text with stable
// keys beside them; the exact numbers are in the data file ([Job.WriteJSON]).
//
// The package knows no path, no clock and no environment: the same workbook and
// options give the same bytes on every machine.
package report
