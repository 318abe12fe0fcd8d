"""Static files under the names that they are served by, each looked up once: a page names a dozen."""

from whitenoise.storage import CompressedManifestStaticFilesStorage


class NamedOnce(CompressedManifestStaticFilesStorage):
    """WhiteNoise's, with the names kept until files are gathered anew."""

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self._named: dict[str, str] = {}

    def url(self, name: str | None, force: bool = False) -> str:
        if force:
            return super().url(name, force)
        named = self._named.get(name)
        if named is None:
            named = self._named[name] = super().url(name)
        return named

    def save_manifest(self) -> None:
        super().save_manifest()
        self._named.clear()
