package workbook

import "asleft/internal/field"

type seriesReader struct{ rounds []struct{ entry roundEntry } }

const maxCount = 9999

func (*seriesReader) lengths() []field.Series[field.Length] { return nil }
func (*seriesReader) angles() []field.Series[field.Angle]   { return nil }
