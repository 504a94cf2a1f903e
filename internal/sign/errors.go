package sign

import (
	"errors"
	"fmt"
	"strings"
)

// Reasons for not signing.
var (
	// ErrExpired is a certificate that was valid in the past.
	ErrExpired = errors.New("certificate has expired")
	// ErrNotYetValid is a certificate that will be valid in the future.
	ErrNotYetValid = errors.New("certificate is not valid yet")
	// ErrWrongKey is a key that does not belong to the certificate.
	ErrWrongKey = errors.New("key does not belong to the certificate")
	// ErrWeakKey is a key of a kind or length that is not used any more.
	ErrWeakKey = errors.New("weak key")
	// ErrKeyUse is a certificate whose key is not meant for signatures.
	ErrKeyUse = errors.New("certificate is not for signatures")
	// ErrPassword is a wrong or missing password.
	ErrPassword = errors.New("wrong password")
	// ErrKeyFile is a key file that cannot be read.
	ErrKeyFile = errors.New("no key and certificate")
	// ErrSigned is a field that has its signature.
	ErrSigned = errors.New("field is signed already")
	// ErrChanged is a file that is not as written and signed.
	ErrChanged = errors.New("file was changed")
	// ErrClosed is a file whose certification allows no more signatures.
	ErrClosed = errors.New("certification allows no more signatures")
	// ErrNotFirst is the wish to certify a file that is signed.
	ErrNotFirst = errors.New("only the first signature can certify")
	// ErrNoRoom is text that does not fit into the field.
	ErrNoRoom = errors.New("text does not fit into the signature field")
	// ErrGlyph is a character that the fonts do not have.
	ErrGlyph = errors.New("character not in the fonts")
	// ErrStamp is a time-stamp service that gave no usable time-stamp.
	ErrStamp = errors.New("no time-stamp")
	// ErrForm is a file that this package cannot append to.
	ErrForm = errors.New("file of another program")
)

// FieldError is a field that does not exist. Its text lists those that do.
type FieldError struct {
	Field  string
	Fields []string // in the order of the form
}

func (e *FieldError) Error() string {
	if len(e.Fields) == 0 {
		return fmt.Sprintf("no field %q: the file has no signature field", e.Field)
	}
	return fmt.Sprintf("no field %q; there are %s", e.Field, strings.Join(e.Fields, ", "))
}
