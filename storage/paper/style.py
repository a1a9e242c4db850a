"""Colours, sizes and page areas of the papers."""

from typing import NamedTuple

INK = (0.09, 0.13, 0.16)
SLATE = (0.34, 0.41, 0.45)
ACCENT = (0.05, 0.30, 0.33)
FAILING = (0.55, 0.08, 0.06)
FAILING_TINT = (0.97, 0.87, 0.84)
BAND = (0.955, 0.968, 0.968)
HAIRLINE = (0.70, 0.76, 0.78)


class Area(NamedTuple):
    """A page in points, and the frame that text may fill."""

    width: float
    height: float
    left: float
    top: float
    right: float
    bottom: float

    @property
    def frame_width(self) -> float:
        """From the left edge of the frame to the right."""
        return self.right - self.left

    @property
    def frame_height(self) -> float:
        """From the top of the frame to its bottom."""
        return self.bottom - self.top


UPRIGHT = Area(595, 842, 36, 56, 559, 798)
SIDEWAYS = Area(842, 595, 28, 46, 814, 560)

TABLE_WIDTH = UPRIGHT.frame_width - 3
"""The right border of a table, heavy where a value fails, needs room of its own."""

CSS = """
body{margin:0;font-family:sans-serif;font-size:9pt;line-height:1.28;color:#172129;overflow-wrap:break-word}
h1{font-size:16pt;line-height:1.15;margin:0;color:#0d4d54}
h1.opens{font-size:19pt}
h2{font-size:9.5pt;line-height:1.15;margin:6.5pt 0 2pt 0;color:#0d4d54}
h3{font-size:7.5pt;line-height:1.2;margin:7pt 0 1pt 0;color:#57696f;font-weight:bold}
p,ul{margin:1pt 0 3pt 0}
li{margin:0 0 2pt 0}
p.sub{font-size:8.5pt;line-height:1.15;color:#57696f;margin:1pt 0 3pt 0}
p.note{font-size:7.5pt;line-height:1.15;color:#57696f;margin:0 0 2pt 0}
p.declares{font-size:8pt;line-height:1.18;margin:0 0 2.5pt 0}
p.text{font-size:9.5pt;margin:0 0 2pt 0}
table{border-collapse:collapse;margin:0}
td,th{padding:1.7pt 5pt 1.9pt 5pt;vertical-align:top;text-align:left;overflow-wrap:break-word;border:0.5pt solid #a9b7bb}
td p{margin:0}
p.l{font-size:7pt;line-height:1.12;color:#57696f}
p.v{font-size:9pt;line-height:1.18}
p.ours{color:#57696f}
p.fails{color:#8c150f;font-weight:bold}
td.blank{border:0.9pt dashed #57696f}
td.fails{border:1.6pt solid #8c150f}
table.on td{border-top:0}
table.first td{border-top:1.1pt solid #0d4d54}
span.u{font-size:8pt;color:#57696f}
th{font-size:7.5pt;color:#0d4d54;border-top:1.2pt solid #0d4d54;border-bottom:1.2pt solid #0d4d54}
table.list td{padding:2.2pt 5pt}
table.list td.divider{font-weight:bold;font-size:8pt;color:#0d4d54;padding:4pt 5pt 2pt 5pt}
p.c{font-size:8pt;line-height:1.2}
p.mid,th.mid{text-align:center}
td.banner{border:2pt solid #0d4d54;padding:5pt 10pt}
td.bad{background-color:#8c150f;border:2pt solid #8c150f}
p.says{font-size:18pt;font-weight:bold;line-height:1.15;color:#0d4d54}
td.bad p{color:#ffffff}
"""
