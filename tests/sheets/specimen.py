"""A page with one of everything that a sheet may hold, and pages around a piece of HTML."""

from __future__ import annotations

from io import BytesIO

from PIL import Image

__all__ = ["ASSETS", "SPECIMEN", "drawing", "page", "picture"]

STYLE = """
@page { size: letter; margin: 18mm 16mm;
  @top-left { content: element(head) } @bottom-right { content: "page " counter(page) " of " counter(pages) } }
body { font-family: Commissioner; font-size: 11.5pt; line-height: 1.4 }
.head { position: running(head); font-size: 9pt }
.fr { font-feature-settings: "frac"; font-size: 1.15em; line-height: 1 }
table { border-collapse: collapse; width: 100% } td, th { border-bottom: .5pt solid #c4cbd0; text-align: left }
td { font-feature-settings: "tnum" }
.caution { border-left: 3pt solid #7a2e1d; background: #f3f1ea }
.down { margin-top: 120mm }
"""


def page(body: str, style: str = "", root: str = '<html lang="en">') -> str:
    return f'<!doctype html>{root}<head><meta charset="utf-8"><style>{style}</style></head><body>{body}</body></html>'


def drawing(shapes: str) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="90" height="60" '
        f'viewBox="0 0 90 60"><title>A drawing</title>{shapes}</svg>'
    )


def picture(kind: str = "PNG", size: tuple[int, int] = (60, 40)) -> bytes:
    written = BytesIO()
    Image.new("RGB", size, (122, 46, 29)).save(written, kind)
    return written.getvalue()


ASSETS = {"swatch.png": picture(), "swatch.jpg": picture("JPEG")}

_HATCHED = drawing(
    '<defs><pattern id="hatch" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    '<line x1="0" y1="0" x2="0" y2="8" stroke="#56616b"/></pattern></defs>'
    '<rect x="5" y="5" width="80" height="50" fill="url(#hatch)" stroke="#17212b"/>'
    '<g opacity=".5"><text x="10" y="30" font-family="Commissioner" font-size="14">6 3⁄4</text></g>'
)
_ROWS = "".join(
    f'<tr><th scope="row">{row}</th><td>Strip {row}</td><td>{row} <span class="fr">15⁄16</span></td></tr>'
    for row in range(40)
)

SPECIMEN = page(
    f"""<div class="head"><img src="asset:swatch.png" alt="Swatch" width="20"> Kit 2027-04 · DRAFT 0badcafe</div>
<h1>The chest</h1>
<p>Cut <b>A</b> to 6 <span class="fr">3⁄4</span> × 4 <span class="fr">15⁄16</span> in, then
<span class="fr">1⁄64</span>. Typed ½ ⅞. → ☐ ✂ Ω Ж � ≤ ①</p>
<h2>Cutting</h2>
<table><caption>Cutting list</caption><thead><tr><th>Letter</th><th>Name</th><th>Size</th></tr></thead>
<tbody>{_ROWS}</tbody></table>
<table><thead><tr><td rowspan="2"></td><th colspan="2">Size</th></tr><tr><th>in</th><th>mm</th></tr></thead>
<tbody><tr><th>A</th><td>6</td><td>152.4</td></tr></tbody></table>
<figure class="down">{_HATCHED}<figcaption>Piece A</figcaption></figure>
<p><img src="asset:swatch.jpg" alt="The print"> beside words</p>
<h2 id="steps">Steps</h2>
<ol><li>See <a href="#steps">the <b>steps</b></a> and <a href="https://kit.invalid/c">corrections</a>.</li>
<li>Fold<ul><li>once</li><li>twice</li></ul></li>
<li><p>Glue.</p><p>Leave to dry.</p></li></ol>
<ul style="list-style: none"><li>Words, then <p>a paragraph</p></li></ul>
<div class="caution"><p><strong>CAUTION</strong> Blade.</p></div>
<h3>Keep</h3><dl><dt>Offcuts</dt><dd>all of them</dd></dl><hr>""",
    STYLE,
)
