package workbook

import "asleft/internal/field"

// faces reads the gaps of a coupling and turns the reader's right and left into
// the sides of the tower. Seen from above, with the motor at the top of the
// page and degrees clockwise, 90° is on the right. Whoever stands at the gear
// reducer and looks to the motor looks up that page: his right hand is on the
// 90° side. Whoever stands behind the motor and looks to the gear reducer looks
// down it: his left hand is.
func (sr *seriesReader) faces(stood field.Text) []field.Series[field.Length] {
	all := sr.lengths()
	if !stood.Set && sidesRead(all) {
		// Which side is which is not known, and is never guessed.
		if s, p, ok := sr.r.quietSingle(sr.k.name(sr.prefix, "stood")); ok {
			if c, blank := sr.r.at(s, p); blank {
				sr.r.fault(NoStanding, s, p, c.text, "choice", "")
			}
		}
	}
	for i := range all {
		readings := all[i].Readings
		if stood.Value == "motor" && len(readings) > rowLeft {
			readings[rowRight], readings[rowLeft] = readings[rowLeft], readings[rowRight]
		}
		for j := range readings {
			readings[j].Index = j + 1
		}
	}
	return all
}

// sidesRead tells whether anything stands on a line whose side depends on where
// the reader stood.
func sidesRead(all []field.Series[field.Length]) bool {
	for _, s := range all {
		for i, x := range s.Readings {
			if (i == rowRight || i == rowLeft) && (x.Value.Set || x.Reason.Set) {
				return true
			}
		}
	}
	return false
}
