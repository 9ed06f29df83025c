# The digest of TestSeal, worked out apart from the Go code.
import hashlib
import struct

fields = [
    b"entry 1",
    b"pedlar",
    b"01890a5d-ac96-774b-bcce-b302099a8057",
    struct.pack(">q", 1772452800007),
    b"Inka",
    b"tablet",
    b"undo",
    struct.pack(">q", 2),
    b'{"a":"\\u003c"}',
    "späť".encode(),
    b"01890a5d-ac96-774b-bcce-b302099a8058",
]
print(hashlib.sha256(b"".join(struct.pack(">Q", len(f)) + f for f in fields)).hexdigest())
