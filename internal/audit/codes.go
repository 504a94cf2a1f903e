package audit

import (
	"asleft/internal/data"
	"asleft/internal/sign"
)

// Code names a kind of finding. Its words stand under "audit.finding." and the
// code.
type Code string

// The file as a file.
const (
	CodeTrailing Code = "trailing" // bytes behind its end
	CodeStray    Code = "stray"    // bytes that belong to no object
	CodeShape    Code = "shape"    // not as this program writes
	CodeUnread   Code = "unread"   // a part cannot be read
	CodeBytes    Code = "bytes"    // only the way it is written differs
	CodeUnused   Code = "unused"   // objects that nothing refers to
	CodeMore     Code = "more"     // more findings of a code than are listed
)

// Signatures and what came after the file was written.
const (
	CodeSignature     Code = "signature."    // and the code of package sign
	CodeTrust         Code = "trust"         // no chain to a root given
	CodeStampTrust    Code = "stamptrust"    // the same for the time-stamp
	CodeWeak          Code = "weak"          // algorithms
	CodeCertification Code = "certification" // changed more than it allows
	CodeLater         Code = "later"         // changed after it was written, for no signature
	CodeNoted         Code = "noted"         // changed by another signing program, harmless
	CodeUnsigned      Code = "unsigned"
)

// Attached files.
const (
	CodeManifest         Code = "manifest"         // missing or unreadable
	CodeManifestPrinted  Code = "manifestprinted"  // the printed fingerprint is not its own
	CodeFileBroken       Code = "file.broken"      // does not agree with its own checksum
	CodeFileHash         Code = "file.hash"        // is not the one in the manifest
	CodeFileSwapped      Code = "file.swapped"     // is another one of the manifest
	CodeFileUnlisted     Code = "file.unlisted"    // is not in the manifest
	CodeFileMissing      Code = "file.missing"     // is in the manifest only
	CodeFilePrinted      Code = "file.printed"     // has not the printed hash
	CodeFileRebuilt      Code = "file.rebuilt"     // is not what the workbooks give
	CodeFingerprintGiven Code = "fingerprintgiven" // is not the one given
)

// Rebuilding.
const (
	CodeNoSources Code = "nosources" // no workbooks to recompute from
	CodeWorkbook  Code = "workbook"  // cannot be read
	CodeVersion   Code = "version"   // other version of the program
	CodeOtherwise Code = "otherwise" // judged otherwise by this version
	CodeData      Code = "data."     // and the kind of what differs: data.verdict
	CodeDataFile  Code = "datafile"  // missing or unreadable
)

// Pages against the rebuilt ones, or against those before a change.
const (
	CodeValue        Code = "value"        // printed value
	CodeValueMissing Code = "valuemissing" // not printed
	CodeValueExtra   Code = "valueextra"   // printed, but not by the program
	CodeText         Code = "text"         // any other text
	CodePainting     Code = "painting"     // drawing, with the same text
	CodePages        Code = "pages"        // their number
	CodeSheet        Code = "sheet"        // size or other facts of a page
	CodeAnnotation   Code = "annotation"
	CodeLayer        Code = "layer"
	CodeGlyphs       Code = "glyphs"   // shapes of a font, or which code has which
	CodeMeaning      Code = "meaning"  // what a font's codes are copied and read as
	CodeAction       Code = "action"   // something that happens on opening
	CodeField        Code = "field"    // signature fields
	CodeAttached     Code = "attached" // entries of attached files
	CodeReading      Code = "reading"  // structure for reading aloud and for finding values
	CodeOutline      Code = "outline"
	CodeMetadata     Code = "metadata"
	CodeDocument     Code = "document" // anything else of the document
)

// Pages of another version, which are not compared stroke by stroke.
const (
	CodeGlyphsSwapped   Code = "glyph.swapped"  // a character is drawn as another one
	CodeGlyphsRedrawn   Code = "glyph.redrawn"  // as none of the typeface
	CodeTypefaceCut     Code = "typeface.cut"   // of another date or revision
	CodeTypefaceOther   Code = "typeface.other" // that this version does not have
	CodeHiddenCut       Code = "hidden.cut"     // text outside the part of a page that is shown
	CodeHiddenOutside   Code = "hidden.outside" // off the page
	CodeHiddenSmall     Code = "hidden.small"
	CodeHiddenTurned    Code = "hidden.turned"  // not upright, or only outlines
	CodeHiddenPale      Code = "hidden.pale"    // as its ground
	CodeHiddenCovered   Code = "hidden.covered" // by what is painted later
	CodeHiddenPrinted   Code = "hidden.printed" // by other text
	CodeHiddenCrossed   Code = "hidden.crossed" // lines or areas under it that end within it
	CodeSaid            Code = "said.otherwise" // words that are no value
	CodeSaidExtra       Code = "said.extra"
	CodeSaidMissing     Code = "said.missing"
	CodeSaidExtraMany   Code = "said.extramany" // all of a page together
	CodeSaidMissingMany Code = "said.missingmany"
	CodePicture         Code = "picture" // that this version does not print
	CodeKey             Code = "key"     // a property that this version writes nowhere
)

// Since the previous package.
const (
	CodePrevious        Code = "previous."       // and the kind: previous.reading
	CodePreviousMissing Code = "previousmissing" // holds no data to compare with
	CodePreviousTower   Code = "previoustower"   // of another tower
)

// text and code are arguments.
func text(name, value string) Arg { return Arg{name, ArgText, clip(value)} }
func code(name, value string) Arg { return Arg{name, ArgCode, value} }

// longest is the longest text of an argument, in runes.
const longest = 200

// clip shortens what would fill the page.
func clip(s string) string {
	if len(s) <= longest {
		return s
	}
	n := 0
	for i := range s {
		if n++; n > longest {
			return s[:i] + "…"
		}
	}
	return s
}

// CodeSpec is a code and the names of its arguments.
type CodeSpec struct {
	Code Code
	Args []string
}

// Codes lists every code there is.
func Codes() []CodeSpec {
	none := []string(nil)
	fact, place := []string{"fact"}, []string{"place"}
	field := []string{"field", "fact"}
	stated := []string{"stated", "recomputed"}
	list := []CodeSpec{
		{CodeTrailing, []string{"n"}}, {CodeStray, []string{"from", "to"}}, {CodeShape, []string{"where", "rule", "fact"}},
		{CodeUnread, []string{"what", "fact"}}, {CodeBytes, []string{"n"}}, {CodeUnused, []string{"n"}}, {CodeMore, []string{"of", "n"}},
		{CodeTrust, []string{"field", "issuer"}}, {CodeStampTrust, []string{"field", "notary"}}, {CodeWeak, field},
		{CodeCertification, []string{"field", "revision"}}, {CodeLater, []string{"revision", "objects"}},
		{CodeNoted, []string{"revision"}}, {CodeUnsigned, none},
		{CodeManifest, fact}, {CodeManifestPrinted, []string{"found", "printed"}}, {CodeFileBroken, []string{"file", "fact"}},
		{CodeFileSwapped, []string{"file", "other"}}, {CodeFingerprintGiven, []string{"given", "found"}},
		{CodeNoSources, none}, {CodeWorkbook, fact}, {CodeVersion, []string{"made", "audited"}}, {CodeOtherwise, stated}, {CodeDataFile, fact},
		{CodeValue, []string{"printed", "recomputed"}}, {CodeValueMissing, []string{"recomputed"}}, {CodeValueExtra, []string{"printed"}},
		{CodeText, []string{"printed", "recomputed"}}, {CodePages, []string{"n", "expected"}},
		{CodeGlyphsSwapped, []string{"char", "typeface", "shown"}}, {CodeGlyphsRedrawn, []string{"char", "typeface"}},
		{CodeTypefaceCut, []string{"typeface", "n", "of"}}, {CodeTypefaceOther, []string{"typeface"}},
		{CodeSaid, []string{"printed", "recomputed", "n"}}, {CodeSaidExtra, []string{"printed", "n"}}, {CodeSaidMissing, []string{"recomputed", "n"}},
		{CodeSaidExtraMany, []string{"printed", "n"}}, {CodeSaidMissingMany, []string{"recomputed", "n"}},
		{CodeKey, place}, {CodePicture, []string{"n"}},
		{CodePreviousMissing, fact}, {CodePreviousTower, []string{"old", "new"}}, {CodePrevious + "signature", []string{"field"}},
	}
	for _, c := range []Code{CodeHiddenCut, CodeHiddenOutside, CodeHiddenSmall, CodeHiddenTurned, CodeHiddenPale, CodeHiddenCovered,
		CodeHiddenPrinted, CodeHiddenCrossed} {
		list = append(list, CodeSpec{c, []string{"printed"}})
	}
	for _, c := range []Code{CodeFileHash, CodeFileUnlisted, CodeFileMissing, CodeFilePrinted, CodeFileRebuilt} {
		list = append(list, CodeSpec{c, []string{"file"}})
	}
	for _, c := range []Code{CodePainting, CodeSheet, CodeAnnotation, CodeLayer, CodeGlyphs, CodeMeaning, CodeAction, CodeField,
		CodeAttached, CodeReading, CodeOutline, CodeMetadata, CodeDocument} {
		list = append(list, CodeSpec{c, place})
	}
	for _, c := range []sign.Code{sign.FaultUnreadable, sign.FaultCoverage, sign.FaultDigest, sign.FaultKey, sign.FaultCertificate,
		sign.FaultValidity, sign.FaultUse, sign.FaultStamp, sign.FaultProfile} {
		list = append(list, CodeSpec{CodeSignature + Code(c), field})
	}
	for _, k := range []data.DifferenceKind{data.DiffReading, data.DiffLimit, data.DiffVerdict, data.DiffTyped, data.DiffComputed, data.DiffMaker} {
		list = append(list, CodeSpec{CodeData + Code(k), stated})
	}
	for _, k := range []data.DifferenceKind{data.DiffReading, data.DiffLimit} {
		list = append(list, CodeSpec{CodePrevious + Code(k), []string{"old", "new"}})
	}
	return list
}
