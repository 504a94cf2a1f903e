// Command asleft turns the field workbook of a cooling tower's fan drives into
// a turnover package, and tells the crew beforehand whether everything is
// within its limits.
//
//	asleft form -o OUT.xlsx        write a blank field workbook
//	asleft check FILE.xlsx         verdicts and reasons on the terminal
//	asleft report FILE.xlsx -o OUT.pdf   the package
//	asleft plot FILE.xlsx -o DIR   the figures as SVG
//	asleft sign FILE.pdf -o OUT.pdf      the package, signed for one role
//	asleft FILE.xlsx               the package beside the workbook
//	asleft help [COMMAND]          options in full
//
// Exit status: 0 done and nothing against it, 1 the answer is no, 2 the
// workbook cannot be read or the command was given wrongly.
package main

import "os"

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }
