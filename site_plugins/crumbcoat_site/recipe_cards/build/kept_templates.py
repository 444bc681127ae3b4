"""The theme's templates, compiled once while a site is served: MkDocs makes a new environment for each build."""

from types import CodeType

from jinja2.bccache import Bucket, BytecodeCache


class KeptTemplates(BytecodeCache):
    """The code of each template by its name and a digest of its source: that of an older source is never found."""

    def __init__(self) -> None:
        self._codes: dict[tuple[str, str], CodeType] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give the bucket the code of its template, if it was kept."""
        bucket.code = self._codes.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep the code of the bucket's template."""
        assert bucket.code is not None
        self._codes[bucket.key, bucket.checksum] = bucket.code
