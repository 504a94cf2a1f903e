package enclosure

import "asleft/internal/field"

// Kinds of faults.
const (
	BadPath    field.FaultKind = "badpath"    // no path inside the folder of the workbook
	NoFile     field.FaultKind = "nofile"     // nothing there
	OtherCase  field.FaultKind = "othercase"  // there, but for capitals
	LeadsOut   field.FaultKind = "leadsout"   // a link that leads out of the folder
	NoPlain    field.FaultKind = "noplain"    // a folder or a device
	NoAccess   field.FaultKind = "noaccess"   // cannot be read
	FileBig    field.FaultKind = "filebig"    // more bytes than are taken
	TooMany    field.FaultKind = "allfiles"   // all files together are too large
	NoPicture  field.FaultKind = "nopicture"  // neither JPEG nor PNG
	BadPicture field.FaultKind = "badpicture" // damaged
	PixelsMany field.FaultKind = "pixels"     // more pixels than are taken
	NoPDF      field.FaultKind = "nopdf"      // not a PDF
	BadPDF     field.FaultKind = "badpdf"     // damaged
	LockedPDF  field.FaultKind = "lockedpdf"  // encrypted
	NoFolder   field.FaultKind = "nofolder"   // the caller gave no folder to look in
)

// FaultKinds lists all kinds, for the words' completeness.
func FaultKinds() []field.FaultKind {
	return []field.FaultKind{BadPath, NoFile, OtherCase, LeadsOut, NoPlain, NoAccess, FileBig, TooMany, NoPicture,
		BadPicture, PixelsMany, NoPDF, BadPDF, LockedPDF, NoFolder}
}

// Limits of what is taken.
const (
	MaxFile   = 48 << 20  // bytes of one file
	MaxAll    = 192 << 20 // bytes of all files as stored
	MaxPixels = 64 << 20  // of a picture: more than any telephone's in ordinary use
	MaxSide   = 1280      // pixels of a stored picture's longer side: 180 to the inch over the whole page
	quality   = 82        // of the JPEG
)
