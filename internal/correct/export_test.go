package correct

// For tests of what is stated beside predictions.
var (
	Confirmed     = confirmed
	WorstOf       = worstOf
	RangeOf       = rangeOf
	RangeQuantile = rangeQuantile
	Aliases       = aliases
)
