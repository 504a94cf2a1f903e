package workbook

// Codes lists what the form offers where the judging part knows the same codes:
// checks, sets, lockings, lubricants, criteria, rounds and pre-start lines.
func Codes() map[string][]string {
	return map[string][]string{"check": checkKeys(), "set": setKeys(), "locking": lockingKeys(),
		"lubricant": lubricantKeys(), "criterion": criterion().codes, "round": round().codes, "prestart": preStartKeys()}
}
