package field

// Kinds of attachments.
const (
	Photo       = "photo"
	Certificate = "certificate"
	Manual      = "manual"
)

// Attachment is a row of the attachments sheet: a picture, certificate or
// manual that lies beside the workbook and goes into the package.
type Attachment struct {
	Kind    Text  // code: Photo, Certificate or Manual
	Cell    Count // blank means the tower
	File    Text  // path below the folder of the workbook
	Caption Text  // of a photo, what it shows; else what the paper is
	At      Ref   // the row's first cell
	// Stored is what went into the package, zero until the file was read.
	Stored Stored
}

// Stored names a file inside the package. A photo is turned, scaled down and
// stripped of everything but its pixels, so it differs from the original, whose
// hash it keeps; a paper is the original itself.
type Stored struct {
	Name          string // plain ASCII
	SHA256        string // hex
	Size          int
	Width, Height int    // of a photo, in pixels
	Original      string // SHA-256 of the file as the workbook named it, hex
	OriginalSize  int
}
