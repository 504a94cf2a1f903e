package archive

import (
	"maps"
	"slices"
)

// Trailer returns the trailer of the newest revision: of a cross-reference
// stream, its dictionary. It must not be changed.
func (r *Reader) Trailer() Dict { return r.trailer }

// RevisionObjects is what one revision holds.
type RevisionObjects struct {
	Written []int // objects that it adds or replaces, sorted
	Deleted []int // objects that it deletes, sorted
	Stream  int   // its cross-reference stream; 0 where it has a table
}

// RevisionObjects returns what revision i holds, 0 being the oldest: an index of
// what [Reader.Revisions] returns.
func (r *Reader) RevisionObjects(i int) RevisionObjects {
	s := r.sections[len(r.sections)-1-i]
	o := RevisionObjects{Written: slices.Sorted(maps.Keys(s.places)), Stream: s.stream}
	for _, n := range s.free {
		if n > 0 { // object 0 is the head of the list of free ones, never an object
			o.Deleted = append(o.Deleted, n)
		}
	}
	slices.Sort(o.Deleted)
	return o
}
