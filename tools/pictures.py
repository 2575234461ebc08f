"""Makes the pictures of the README out of the demo's briefing: run "./do demo", then

    python3 tools/pictures.py [BRIEFING.PDF]

Needs pdftoppm (Debian: poppler-utils).
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

DOCS = Path(__file__).resolve().parent.parent / "docs"
BRIEFING = DOCS.parent / "demo" / "briefing.pdf"
PICTURES = {"overview": 1, "briefing-page": 4}
"""Picture and the page of the briefing that it shows."""
DPI = "96"


def main() -> None:
    briefing = sys.argv[1] if len(sys.argv) > 1 else str(BRIEFING)
    for name, page in PICTURES.items():
        command = ["pdftoppm", "-png", "-r", DPI, "-f", str(page), "-l", str(page), "-singlefile"]
        subprocess.run([*command, briefing, str(DOCS / name)], check=True)


if __name__ == "__main__":
    main()
