package sign

import (
	"crypto/ecdsa"
	"crypto/rsa"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"asleft/internal/archive"
)

// algorithmName is how the signature was made, for people: "RSA 3072, SHA-256".
func algorithmName(s *signedData) string {
	key := fmt.Sprintf("%T", s.signer.PublicKey)
	switch k := s.signer.PublicKey.(type) {
	case *rsa.PublicKey:
		key = fmt.Sprintf("RSA %d", k.N.BitLen())
	case *ecdsa.PublicKey:
		key = "ECDSA " + k.Curve.Params().Name
	}
	return key + ", " + s.hash.String()
}

// textOf is the text of a dictionary entry, empty if it is no string.
func textOf(o archive.Object) string {
	s, _ := o.(archive.String)
	return archive.Text(s)
}

var errDate = errors.New("no date")

// parseDate reads a date of ISO 32000-1, 7.9.4, down to the second, with its zone.
func parseDate(s string) (time.Time, error) {
	s = strings.TrimPrefix(s, "D:")
	const digits = "20060102150405"
	if len(s) < len(digits) {
		return time.Time{}, errDate
	}
	zone, err := parseZone(s[len(digits):])
	if err != nil {
		return time.Time{}, err
	}
	return time.ParseInLocation(digits, s[:len(digits)], zone)
}

// parseZone reads "Z", "+06'00'", "+06'00" or nothing, which is UTC here.
func parseZone(s string) (*time.Location, error) {
	s = strings.ReplaceAll(s, "'", "")
	if s == "" || s[0] == 'Z' {
		return time.UTC, nil
	}
	if len(s) != len("+0600") || s[0] != '+' && s[0] != '-' {
		return nil, errDate
	}
	hours, err1 := strconv.ParseUint(s[1:3], 10, 8)
	minutes, err2 := strconv.ParseUint(s[3:5], 10, 8)
	if err1 != nil || err2 != nil || hours > 23 || minutes > 59 {
		return nil, errDate
	}
	offset := int(hours)*3600 + int(minutes)*60
	if s[0] == '-' {
		offset = -offset
	}
	return time.FixedZone("", offset), nil
}

// formatDate writes such a date.
func formatDate(t time.Time) string {
	_, offset := t.Zone()
	sign := "+"
	if offset < 0 {
		sign, offset = "-", -offset
	}
	return fmt.Sprintf("D:%s%s%02d'%02d'", t.Format("20060102150405"), sign, offset/3600, offset/60%60)
}
