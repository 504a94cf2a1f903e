package data

// Write writes a value as JSON, as other files than the data file are: one member a
// line, in the order of its fields, the same bytes for the same value. It takes structs with
// JSON tags, slices, strings, whole numbers and booleans.
func Write(v any) ([]byte, error) { return write(v, lined) }
