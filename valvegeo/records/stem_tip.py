"""What the stem tip's sizes say, for every record that holds them."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


class StemTip:
    """A stem tip by its diameter and chamfer [in]; batch shape B."""

    stem_diameter: Floats
    tip_chamfer: Floats

    @property
    def flat(self) -> Floats:
        """Half width of the stem tip's flat [in], shape B: contact beyond it is off the flat."""
        return np.asarray(self.stem_diameter / 2 - self.tip_chamfer)

    def from_inboard_edge(self, x: ArrayLike) -> Floats:
        """Distance of a contact's x in the frame, broadcasting with B, from the tip's inboard edge [in]."""
        return np.asarray(np.asarray(x, dtype=np.float64) + self.stem_diameter / 2)

    def is_on_flat(self, from_inboard_edge: ArrayLike) -> NDArray[np.bool_]:
        """Whether a place, by its distance from the tip's inboard edge [in], is on the flat, its edges included."""
        place = np.asarray(from_inboard_edge, dtype=np.float64)
        return np.asarray((self.tip_chamfer <= place) & (place <= self.stem_diameter - self.tip_chamfer))
