"""Property tests without a clock: a busy machine is no failure."""

from hypothesis import settings

settings.register_profile("no clock", parent=settings.default, deadline=None)
settings.load_profile("no clock")
