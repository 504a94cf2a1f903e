package sign

import (
	"encoding/asn1"
	"errors"
	"fmt"

	"github.com/github/smimesign/ietf-cms/oid"
)

// maxDER bounds how deep a signature nests.
const maxDER = 64

var errDER = errors.New("not written in DER")

// strictDER tells whether every element of DER is filled exactly by those in it:
// what stands in between would be covered by nothing.
func strictDER(der []byte, depth int) error {
	if depth > maxDER {
		return errDER
	}
	for len(der) > 0 {
		var v asn1.RawValue
		rest, err := asn1.Unmarshal(der, &v)
		if err != nil || v.Class == asn1.ClassUniversal && v.Tag == 0 {
			return errDER
		}
		if v.IsCompound {
			if err := strictDER(v.Bytes, depth+1); err != nil {
				return err
			}
		}
		der = rest
	}
	return nil
}

// Versions of the structures of a signature (RFC 5652, 5.1 and 5.3).
const (
	versionPlain = 1 // the signer is named by issuer and number
	versionOther = 3 // by his key; or what is signed is no plain data
)

// form lists what in a signature neither the signed attributes nor the digest
// covers and is not as RFC 5652 wants it.
func (s *signedData) form() []string {
	var wrong []string
	signer, data := versionPlain, versionPlain
	if s.info.SID.Class == asn1.ClassContextSpecific {
		signer = versionOther
	}
	if signer == versionOther || !s.data.EncapContentInfo.EContentType.Equal(oid.ContentTypeData) {
		data = versionOther
	}
	if s.info.Version != signer || s.data.Version != data {
		wrong = append(wrong, fmt.Sprintf("versions %d and %d instead of %d and %d", s.data.Version, s.info.Version, data, signer))
	}
	for _, a := range s.data.DigestAlgorithms {
		if !a.Algorithm.Equal(s.info.DigestAlgorithm.Algorithm) {
			wrong = append(wrong, "another digest algorithm, "+a.Algorithm.String())
		}
	}
	return wrong
}
