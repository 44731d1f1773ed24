"""The doors: JSON for programs, pages for people. No thinking here; what can be done is in `assistant.inbox`."""

from assistant.web.app import create_app
from assistant.web.settings import Settings

__all__ = ["Settings", "create_app"]
