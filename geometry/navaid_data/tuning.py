"""Frequency and channel of each row as spoken, with notes on what cannot be."""

from __future__ import annotations

import numpy as np

from .. import navaids
from .cells import Cells
from .channels import channel_khz, channel_text
from .frequencies import BANDS, FREQ_CHECKS, IMPOSSIBLE, UNUSUAL, frequency_codes, frequency_text


def write_frequencies(cells: Cells, out: dict[str, np.ndarray]) -> None:
    """Columns freq, freq_check and channel from khz, channel and kind, in place; notes go to the cells."""
    khz, kinds, n = out["khz"], out["kind"], cells.rows
    paired = [channel_khz(channel) if channel else (np.nan, False) for channel in out["channel"]]
    of_channel, spoken = np.array([p[0] for p in paired], float), np.array([p[1] for p in paired], bool)
    has_channel = out["channel"] != ""
    cells.note(
        has_channel & np.isnan(of_channel),
        lambda i: f"the channel '{out['channel'][i][:40]}' is not 1 to 126 with X or Y",
    )
    medium = navaids.gives_bearings(kinds)
    # a frequency that only numbers a channel without a VHF partner is not a frequency
    numbered = np.isfinite(of_channel) & ~spoken & (khz == of_channel) & ~medium
    khz = np.where(numbered, np.nan, khz)
    freq = np.array([frequency_text(f, k) for f, k in zip(khz, kinds)], dtype=object)
    units = np.where(medium, "kHz", "MHz")
    codes = frequency_codes(khz, kinds)
    out["freq_check"] = np.array(FREQ_CHECKS, dtype=object)[codes]
    ndb = BANDS["ndb"]
    with np.errstate(invalid="ignore"):
        no_frequency = khz <= 0.0
    cells.note(no_frequency, lambda i: f"the frequency {khz[i]:g} kHz is not possible")
    cells.note((codes == IMPOSSIBLE) & ~no_frequency, lambda i: f"the frequency {freq[i]} {units[i]} is not possible")
    cells.note(
        codes == UNUSUAL,
        lambda i: f"the frequency {freq[i]} kHz is outside {ndb.low_khz:.0f} to {ndb.high_khz:.0f} kHz",
    )
    differs = np.isfinite(khz) & np.isfinite(of_channel) & (khz != of_channel) & ~medium
    cells.note(
        differs,
        lambda i: (
            f"the channel {channel_text(out['channel'][i])} belongs to {of_channel[i] / 1000.0:.2f} MHz, "
            f"not to {freq[i]}"
        ),
    )
    freq[no_frequency] = ""
    out["freq"] = freq
    channel = np.full(n, "", dtype=object)
    channel[:] = [channel_text(c) if np.isfinite(f) else c for c, f in zip(out["channel"], of_channel)]
    out["channel"] = channel
