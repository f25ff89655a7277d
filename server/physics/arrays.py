"""Names for arrays in signatures; imported for type checking alone, so that numpy is loaded only when it is used."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from typing import TypeAlias

    import numpy as np
    from numpy.typing import ArrayLike, NDArray

    Given: TypeAlias = ArrayLike
    Numbers: TypeAlias = NDArray[np.floating[Any]]
    Floats: TypeAlias = NDArray[np.float64]
    Places: TypeAlias = NDArray[np.intp]
    Signs: TypeAlias = NDArray[np.int8]
    Bytes: TypeAlias = NDArray[np.uint8]
    Truths: TypeAlias = NDArray[np.bool_]
