"""Settings of the doors, read from the environment (`ASSISTANT_...`)."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from pydantic import Field
from pydantic_settings import BaseSettings, SettingsConfigDict


class Settings(BaseSettings):
    """Everything that may differ between two installations; each field is `ASSISTANT_<FIELD>` in the environment.

    >>> Settings(session_hours=2).session_hours
    2
    """

    model_config = SettingsConfigDict(env_prefix="ASSISTANT_", extra="ignore")

    store_url: str = "sqlite:///assistant.db"  # SQLAlchemy URL: SQLite file, or postgresql+psycopg://...
    rules: Path | None = None  # folder of cards; empty = the rulebook that came with the installation
    host: str = "127.0.0.1"
    port: int = Field(default=8000, ge=0, le=65535)
    public_url: str = ""  # "https://ask.example.org" when a proxy hides the name the browser sees
    secure_cookie: Literal["auto", "always"] = "auto"  # auto = Secure whenever the request came by https
    session_hours: int = Field(default=12, ge=1, le=24 * 30)  # hours until the coach signs in again
    messages_per_follower: str = "30/10 minutes"  # in the words of `limits`: a number per span of time
    tries_per_name: str = "10/5 minutes"  # tries to sign in, one name from one address
    tries_per_address: str = "40/5 minutes"  # tries to sign in from one address, any name
    body_limit_bytes: int = Field(default=64 * 1024, ge=1024)
    poll_s: int = Field(default=10, ge=1)  # seconds between two looks for news where script is on
