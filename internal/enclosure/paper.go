package enclosure

import (
	"errors"

	"asleft/internal/archive"
	"asleft/internal/field"
)

// paper refuses a PDF that nobody could open.
func (l *loader) paper(a *field.Attachment, original []byte) bool {
	err := archive.Readable(original)
	switch {
	case err == nil:
		return true
	case errors.Is(err, archive.ErrEncrypted):
		l.fault(LockedPDF, a, "")
	case errors.Is(err, archive.ErrNotPDF):
		l.fault(NoPDF, a, "")
	default:
		l.fault(BadPDF, a, "")
	}
	return false
}
