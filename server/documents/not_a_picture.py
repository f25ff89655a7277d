"""What is said where a picture was expected and something else came."""


class NotAPicture(ValueError):
    """The bytes are no picture that is taken here; says why and what to send instead."""
