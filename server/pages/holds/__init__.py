"""Legal holds: which frames are under one, and the owner's signed line that places or lifts it."""
