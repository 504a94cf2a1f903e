"""Validates all signatures of files with pyHanko: validate.py ROOT.pem FILE...
Prints one line a signature: file, field, then what holds."""
import sys
import warnings

from pyhanko.keys import load_cert_from_pemder
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation import validate_pdf_signature
from pyhanko_certvalidator import ValidationContext

warnings.simplefilter("error")
root = load_cert_from_pemder(sys.argv[1])


def say(path, signature):
    context = ValidationContext(trust_roots=[root], allow_fetching=False)
    status = validate_pdf_signature(signature, context, ts_validation_context=context)
    stamp = status.timestamp_validity
    print(
        path,
        signature.field_name,
        "intact" if status.intact else "-",
        "valid" if status.valid else "-",
        "trusted" if status.trusted else "-",
        status.coverage.name,
        status.modification_level.name if status.modification_level else "-",
        "docmdp" if status.docmdp_ok else "-",
        "none" if stamp is None else "stamped" if stamp.valid and stamp.trusted else "badstamp",
        "sound" if status.bottom_line else "-",
    )


for path in sys.argv[2:]:
    with open(path, "rb") as file:
        for signature in PdfFileReader(file).embedded_signatures:
            say(path, signature)
