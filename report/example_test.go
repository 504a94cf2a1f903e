package report_test

import (
	"bytes"
	"fmt"

	"asleft/report"
)

// A blank workbook is read, and everything in it is missing.
func Example() {
	var form bytes.Buffer
	if err := report.WriteForm(&form, report.FormOptions{Cells: 1}); err != nil {
		fmt.Println(err)
		return
	}
	job, err := report.Open(bytes.NewReader(form.Bytes()), int64(form.Len()), "blank.xlsx", report.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	_, state := job.Ready()
	fmt.Println(state)
	for _, row := range job.Rows() {
		if row.Group != "fan" {
			continue
		}
		fmt.Printf("cell %d, %s: %s\n", row.Cell, row.Name, row.Word)
	}
	// Output:
	// NOT READY
	// cell 1, Fan tilt: missing
	// cell 1, Blade track: missing
	// cell 1, Tip radius: missing
	// cell 1, Tip clearance: missing
	// cell 1, Tip clearance, all blades: not required
	// cell 1, Blade pitch: missing
	// cell 1, Blade pitch, blade to blade: missing
}
