"""Signs an existing field with pyHanko: sign.py KEY.p12 PASSWORD FIELD IN OUT [TSA]."""
import sys

from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.sign import fields, signers, timestamps

key, password, field, source, target = sys.argv[1:6]
stamper = timestamps.HTTPTimeStamper(sys.argv[6]) if len(sys.argv) > 6 else None
signer = signers.SimpleSigner.load_pkcs12(key, passphrase=password.encode())
with open(source, "rb") as inf, open(target, "wb") as outf:
    writer = IncrementalPdfFileWriter(inf)
    signers.PdfSigner(
        signers.PdfSignatureMetadata(field_name=field, subfilter=fields.SigSeedSubFilter.PADES),
        signer=signer,
        timestamper=stamper,
    ).sign_pdf(writer, existing_fields_only=True, output=outf)
