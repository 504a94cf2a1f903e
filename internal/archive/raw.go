package archive

import (
	"fmt"
	"sort"
	"strconv"
)

// rawFile is the page writer's output, taken apart and checked for shape.
type rawFile struct {
	*findings
	objects map[int]Object
	used    map[int]bool // objects that something points to
	pages   []rawPage
	fonts   map[Name]*rawFont  // by resource name
	images  map[Name]*rawImage // by resource name
	short   map[Name]string    // names of fonts and images in the finished file
}

// rawPage is a page: its size in points, and its content still encoded.
type rawPage struct {
	width, height float64
	content       *Stream
}

type rawImage struct {
	object int
	stream *Stream
}

// readRaw takes the page writer's output apart. Its shape is that of fpdf 0.9.0
// with sorted catalogs and nothing but pages, TrueType fonts and plain images in it.
func readRaw(src []byte, f *findings) (*rawFile, error) {
	r, err := Open(src)
	if err != nil {
		return nil, fmt.Errorf("page writer's output: %w", err)
	}
	raw := &rawFile{findings: f, objects: map[int]Object{}, used: map[int]bool{},
		fonts: map[Name]*rawFont{}, images: map[Name]*rawImage{}}
	if err := raw.slice(r); err != nil {
		return nil, fmt.Errorf("page writer's output: %w", err)
	}
	raw.catalog(r.trailer)
	raw.unused()
	return raw, nil
}

// slice reads all objects and checks that they fill the file without gaps, so
// that nothing can hide between them.
func (raw *rawFile) slice(r *Reader) error {
	if len(r.sections) != 1 || r.sections[0].stream != 0 {
		return foreign("more than one revision, or a cross-reference stream")
	}
	numbers := make([]int, 0, len(r.places))
	for n := range r.places {
		numbers = append(numbers, n)
	}
	sort.Slice(numbers, func(i, j int) bool { return r.places[numbers[i]].offset < r.places[numbers[j]].offset })
	at := int64(len("%PDF-1.x\n"))
	for _, n := range numbers {
		if r.places[n].offset != at {
			return inObject(n, malformed(int(at), "gap between objects"))
		}
		got, o, end, err := indirect(r.src, int(at), "", maxStringLength)
		if err != nil || got != n {
			return inObject(n, malformed(int(at), "object: %v", err))
		}
		raw.objects[n] = o
		at = int64(end) + 1
	}
	if at != r.sections[0].start {
		return malformed(int(at), "gap before the cross-reference table")
	}
	return nil
}

// get follows a reference, noting that its object is used.
func (raw *rawFile) get(o Object) Object {
	if ref, ok := o.(Ref); ok {
		raw.used[int(ref)] = true
		return raw.objects[int(ref)]
	}
	return o
}

// dict follows o to a dictionary that has no keys but those allowed; the first
// of them are required.
func (raw *rawFile) dict(o Object, what string, required int, keys ...Name) Dict {
	var d Dict
	switch v := raw.get(o).(type) {
	case Dict:
		d = v
	case *Stream:
		d = v.Dict
	default:
		raw.add(RuleShape, what, "not there, or no dictionary")
		return Dict{}
	}
	raw.keys(d, what, required, keys...)
	return d
}

func (raw *rawFile) keys(d Dict, what string, required int, keys ...Name) {
	have := 0
	for i, k := range keys {
		if _, ok := d[k]; ok {
			have++
		} else if i < required {
			raw.add(RuleShape, what, "no /%s", k)
		}
	}
	if have == len(d) {
		return
	}
	known := map[Name]bool{}
	for _, k := range keys {
		known[k] = true
	}
	for _, k := range sortedKeys(d) {
		if !known[k] {
			raw.add(RuleShape, what, "unexpected /%s", k)
		}
	}
}

func sortedKeys(d Dict) []Name {
	keys := make([]Name, 0, len(d))
	for k := range d {
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, j int) bool { return keys[i] < keys[j] })
	return keys
}

func (raw *rawFile) stream(o Object, what string) *Stream {
	s, ok := raw.get(o).(*Stream)
	if !ok {
		raw.add(RuleShape, what, "no stream")
		return &Stream{Dict: Dict{}}
	}
	return s
}

func (raw *rawFile) catalog(trailer Dict) {
	raw.keys(trailer, "trailer", 3, "Root", "Info", "Size")
	raw.dict(trailer["Info"], "document information", 0,
		"Producer", "Title", "Subject", "Author", "Keywords", "Creator", "CreationDate", "ModDate")
	c := raw.dict(trailer["Root"], "catalog", 2, "Type", "Pages", "Names", "Lang")
	if c["Names"] != nil {
		names := raw.dict(c["Names"], "names", 0, "EmbeddedFiles")
		files := raw.dict(names["EmbeddedFiles"], "embedded files", 1, "Names")
		if list, ok := files["Names"].(Array); !ok || len(list) != 0 {
			raw.add(RuleShape, "embedded files", "the page writer attached files")
		}
	}
	pages := raw.dict(c["Pages"], "page tree", 4, "Type", "Kids", "Count", "MediaBox")
	kids, _ := pages["Kids"].(Array)
	if len(kids) > maxPages {
		raw.add(RuleShape, "page tree", "more than %d pages", maxPages)
		return
	}
	for i, k := range kids {
		raw.page(i, k, pages["MediaBox"])
	}
	if len(kids) > 0 {
		raw.resources(raw.dict(kids[0], "page 1", 0, pageKeys...)["Resources"])
	}
}

var pageKeys = []Name{"Type", "Parent", "Resources", "Contents", "MediaBox"}

func (raw *rawFile) page(i int, o, box Object) {
	where := pageName(i)
	d := raw.dict(o, where, 4, pageKeys...)
	if own := d["MediaBox"]; own != nil {
		box = own
	}
	p := rawPage{content: raw.stream(d["Contents"], where)}
	raw.keys(p.content.Dict, where+" content", 1, "Length", "Filter")
	b, _ := box.(Array)
	if len(b) != 4 || number(b[0]) != 0 || number(b[1]) != 0 || !pageSide(number(b[2])) || !pageSide(number(b[3])) {
		raw.add(RuleShape, where, "page size %v", box)
	} else {
		p.width, p.height = number(b[2]), number(b[3])
	}
	raw.pages = append(raw.pages, p)
}

// minPageSide is the least width or height of a page in points
// (ISO 19005-3, 6.1.13); the most is maxCoordinate.
const minPageSide = 3

func pageSide(v float64) bool { return v >= minPageSide && v <= maxCoordinate }

func (raw *rawFile) resources(o Object) {
	d := raw.dict(o, "resources", 1, "Font", "ProcSet", "XObject", "ColorSpace")
	fonts, _ := d["Font"].(Dict)
	for _, name := range sortedKeys(fonts) {
		raw.font(name, fonts[name])
	}
	images, _ := d["XObject"].(Dict)
	for _, name := range sortedKeys(images) {
		raw.image(name, images[name])
	}
	if spaces, _ := d["ColorSpace"].(Dict); len(spaces) > 0 {
		raw.add(RuleShape, "resources", "color spaces")
	}
}

// image allows photographs: RGB or gray, 8 bits, no mask of any kind.
func (raw *rawFile) image(name Name, o Object) {
	where := fmt.Sprintf("image /%.12s", name)
	s := raw.stream(o, where)
	raw.keys(s.Dict, where, 8, "Type", "Subtype", "Width", "Height", "ColorSpace", "BitsPerComponent", "Filter", "Length", "DecodeParms")
	filter, space := s.Dict["Filter"], s.Dict["ColorSpace"]
	if s.Dict["Subtype"] != Name("Image") || s.Dict["BitsPerComponent"] != int64(8) ||
		space != Name("DeviceRGB") && space != Name("DeviceGray") ||
		filter != Name("DCTDecode") && filter != Name("FlateDecode") {
		raw.add(RuleShape, where, "no plain RGB or gray image of 8 bits")
	}
	ref, _ := o.(Ref)
	raw.images[name] = &rawImage{int(ref), s}
}

// unused reports objects that nothing points to.
func (raw *rawFile) unused() {
	for n := 1; n <= len(raw.objects); n++ {
		if !raw.used[n] {
			raw.add(RuleShape, fmt.Sprintf("object %d", n), "nothing points to it")
		}
	}
}

func pageName(i int) string { return "page " + strconv.Itoa(i+1) }

// number is a numeric object as a float, or NaN-free -1 for any other.
func number(o Object) float64 {
	switch v := o.(type) {
	case int64:
		return float64(v)
	case Real:
		f, err := strconv.ParseFloat(string(v), 64)
		if err == nil {
			return f
		}
	}
	return -1
}
