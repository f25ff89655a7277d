"""Four calculators for anybody: heat input, purge of a frame, hold time, dew point; a change shows at once."""
