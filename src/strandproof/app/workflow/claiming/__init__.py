"""Use cases about what was said: freezing, comparing, the grid, own interests."""
