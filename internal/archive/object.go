package archive

// Object is a PDF object as read: nil, bool, int64, [Real], [String], [Name],
// [Ref], [Array], [Dict] or *[Stream].
type Object any

type (
	// Real is a number with a decimal point, as it stands in the file.
	Real string
	// String holds the bytes of a string, escapes and hex undone.
	String string
	// Name is a name without its slash, #xx undone.
	Name string
	// Ref is a reference to an object of generation 0, by its number.
	Ref int
	// Array is an array.
	Array []Object
	// Dict is a dictionary; a key stands in it once.
	Dict map[Name]Object
	// Stream is a dictionary with data, still encoded as its Filter says.
	Stream struct {
		Dict Dict
		Raw  []byte
	}
)

// Limits of what is read. Those with a clause are the limits of ISO 19005-3,
// 6.1.13 (value from memory); the others are far above what we write, and keep
// a hostile file from eating the machine.
const (
	maxFileSize       = 1 << 30   // bytes of a file
	maxObjects        = 8_388_607 // indirect objects of a file (6.1.13)
	maxRevisions      = 64        // cross-reference sections in a /Prev chain
	maxNesting        = 32        // arrays and dictionaries inside each other
	maxNameLength     = 127       // bytes of a name (6.1.13)
	maxStringLength   = 32_767    // bytes of a string (6.1.13); signatures may be longer
	maxSignature      = 1 << 20   // bytes of the /Contents of a signature
	maxStreamDecoded  = 256 << 20 // bytes of one stream, decoded
	maxTotalDecoded   = 8 << 30   // bytes of all streams decoded by one Reader
	baseDecoded       = 64 << 20  // of that, what every file may have
	decodedRatio      = 200       // and how much more for each byte of the file
	maxGraphicsStates = 28        // q inside q on one page (6.1.13)
	maxTreeDepth      = 64        // levels of page, structure, name and number trees
	maxPages          = 100_000   // pages of a file
)
